/** Milliseconds of work between two looks at the post. */
export const SLICE_MS = 30;

/**
 * Lets messages come in. The pause is a timer, which browsers hold to 4 ms; a message to oneself would be
 * quicker there, but Node lets up to a thousand of those go before any other port's.
 */
export function pauseForPost(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, 0));
}
