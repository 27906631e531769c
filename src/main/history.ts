/** Undo and redo of one value. `gesture` names the control under the person's hand; null between gestures. */
export interface History<T> {
  readonly past: readonly T[];
  readonly present: T;
  readonly future: readonly T[];
  readonly gesture: string | null;
}

const STEPS_KEPT = 200;

export function beginHistory<T>(present: T): History<T> {
  return { past: [], present, future: [], gesture: null };
}

/** A drag or a run of key presses on one control is one step: only its first change remembers what was before. */
export function record<T>(history: History<T>, present: T, gesture: string | null): History<T> {
  const goesOn = gesture !== null && gesture === history.gesture;
  const past = goesOn ? history.past : [...history.past, history.present].slice(-STEPS_KEPT);
  return { past, present, future: [], gesture };
}

/** The hand has left the control. */
export function endGesture<T>(history: History<T>): History<T> {
  return { ...history, gesture: null };
}

export function undo<T>(history: History<T>): History<T> {
  const present = history.past.at(-1);
  if (present === undefined) return history;
  return { past: history.past.slice(0, -1), present, future: [history.present, ...history.future], gesture: null };
}

export function redo<T>(history: History<T>): History<T> {
  const [present, ...future] = history.future;
  if (present === undefined) return history;
  return { past: [...history.past, history.present], present, future, gesture: null };
}
