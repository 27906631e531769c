/** Whether the screen stays on: `kept`, or why not. */
export type AwakeState = 'kept' | 'off' | 'refused' | 'absent';

export interface Awake { on(): void; off(): void }

/** Keeps the screen awake while it is on, again after the page was hidden; says so when it cannot. */
export function createAwake(tell: (state: AwakeState) => void): Awake {
  let isWanted = false, held: WakeLockSentinel | null = null;
  // Older browsers have none, whatever the types say.
  const lock = (navigator as { readonly wakeLock?: WakeLock }).wakeLock;
  const ask = async (): Promise<void> => {
    if (!isWanted || held !== null || document.visibilityState !== 'visible') return;
    if (lock === undefined) { tell('absent'); return; }
    try {
      const sentinel = await lock.request('screen');
      if (!isWanted) { await sentinel.release(); return; }
      held = sentinel;
      sentinel.addEventListener('release', () => { held = null; });
      tell('kept');
    } catch { tell('refused'); }
  };
  document.addEventListener('visibilitychange', () => { void ask(); });
  return {
    on: () => {
      isWanted = true;
      void ask();
    },
    off: () => {
      isWanted = false;
      void held?.release().catch(() => undefined);
      held = null;
      tell('off');
    },
  };
}
