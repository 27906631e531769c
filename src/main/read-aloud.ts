/** The browser's own voice, silent until asked. */
export interface Voice {
  readonly isThere: boolean;
  say(text: string, language: string): void;
  hush(): void;
}

export function createVoice(): Voice {
  // Not every browser has one, whatever its types say.
  const speech = (window as { speechSynthesis?: SpeechSynthesis }).speechSynthesis;
  return {
    isThere: speech !== undefined,
    say: (text, language) => {
      speech?.cancel();
      const words = new SpeechSynthesisUtterance(text);
      words.lang = language;
      speech?.speak(words);
    },
    hush: () => { speech?.cancel(); },
  };
}
