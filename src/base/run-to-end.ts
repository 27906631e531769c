/** What work in steps comes to, done in one go. */
export function runToEnd<T>(steps: Generator<unknown, T>): T {
  for (let step = steps.next(); ; step = steps.next()) if (step.done === true) return step.value;
}
