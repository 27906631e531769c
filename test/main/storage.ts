/** The browser's storage as its specification has it, with room for so many letters in all; shared by windows that are given the same `kept`. */
export function createStorage(kept = new Map<string, string>(), room: { letters: number } = { letters: Infinity }): Storage {
  const used = (): number => [...kept].reduce((sum, [key, value]) => sum + key.length + value.length, 0);
  return {
    get length() { return kept.size; },
    key: (place) => [...kept.keys()][place] ?? null,
    getItem: (key) => kept.get(key) ?? null,
    setItem: (key, value) => {
      const before = kept.get(key);
      if (used() - (before === undefined ? 0 : key.length + before.length) + key.length + value.length > room.letters) throw new DOMException('full', 'QuotaExceededError');
      kept.set(key, value);
    },
    removeItem: (key) => { kept.delete(key); },
    clear: () => { kept.clear(); },
  };
}
