export interface Voice {
  readonly isThere: boolean;
  /** Says a text, in place of what is being said. */
  say(text: string): void;
  quiet(): void;
}

/** The browser's own voice, in the language of the page; without one it stays silent. */
export function createVoice(language: string): Voice {
  const { speechSynthesis: speech } = window as { readonly speechSynthesis?: SpeechSynthesis };
  if (speech === undefined || !('SpeechSynthesisUtterance' in window)) return { isThere: false, say: () => undefined, quiet: () => undefined };
  return {
    isThere: true,
    say: (text) => {
      speech.cancel();
      const utterance = new SpeechSynthesisUtterance(text);
      utterance.lang = language;
      speech.speak(utterance);
    },
    quiet: () => { speech.cancel(); },
  };
}

export interface Tone {
  readonly isThere: boolean;
  /** A short tone for a step; `isCall`: two rising ones, for a new part or for work of the hands. */
  sound(isCall: boolean): void;
}

/** Tones, Hz and seconds. Chosen by ear: clear of a carriage's noise, soft enough for the night. */
const STEP_HZ = 660, CALL_HZ = 990, TONE_S = 0.07, LOUDNESS = 0.12;

/** Its sound begins only after a first press: browsers ask for that. */
export function createTone(): Tone {
  const Context = (window as { readonly AudioContext?: typeof AudioContext }).AudioContext;
  if (Context === undefined) return { isThere: false, sound: () => undefined };
  let context: AudioContext | null = null;
  const beep = (audio: AudioContext, hertz: number, at: number): void => {
    const source = audio.createOscillator(), gain = audio.createGain();
    source.frequency.value = hertz;
    gain.gain.setValueAtTime(LOUDNESS, at);
    // Fades, so that it does not click.
    gain.gain.exponentialRampToValueAtTime(0.001, at + TONE_S);
    source.connect(gain).connect(audio.destination);
    source.start(at);
    source.stop(at + TONE_S);
  };
  return {
    isThere: true,
    sound: (isCall) => {
      context ??= new Context();
      void context.resume();
      beep(context, STEP_HZ, context.currentTime);
      if (isCall) beep(context, CALL_HZ, context.currentTime + 1.5 * TONE_S);
    },
  };
}
