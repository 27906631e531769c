/** One step of the colours that show stretch: percent of the size at rest, and its colour. */
export interface StretchStep { readonly percent: number; readonly colour: string }

/**
 * Blue where the cloth is gathered, pale grey at rest, orange to brown where it is drawn out; the
 * first and last step stand for all beyond them too. The range is fixed, so that socks and poses
 * can be compared, and steps double, so that a laid-out sock's few percent are seen beside a worn
 * sock's many. Colours chosen by eye; test/view/stretch-scale.test.ts holds them to be told apart
 * by colour-blind eyes.
 */
export const STRETCH_SCALE: readonly StretchStep[] = [
  { percent: -40, colour: '#173a78' },
  { percent: -20, colour: '#3a6fb5' },
  { percent: -10, colour: '#74a5d9' },
  { percent: -5, colour: '#b2d0ec' },
  { percent: 0, colour: '#e4e4e2' },
  { percent: 5, colour: '#f6d3a2' },
  { percent: 10, colour: '#e2a14b' },
  { percent: 20, colour: '#b4661a' },
  { percent: 40, colour: '#6b330a' },
];

/** The step of an unstretched cloth. */
export const REST_STEP = STRETCH_SCALE.findIndex(({ percent }) => percent === 0);

/** Where a stretch (a share of the size at rest) lies on the scale: 0 at its first step, 1 at its second, in between by shares; never beyond its ends. */
export function placeOnScale(stretch: number): number {
  const percent = 100 * stretch, last = STRETCH_SCALE.length - 1;
  let step = 0;
  while (step + 1 < last && percent > STRETCH_SCALE[step + 1].percent) step++;
  const from = STRETCH_SCALE[step].percent, to = STRETCH_SCALE[step + 1].percent;
  return Math.min(last, Math.max(0, step + (percent - from) / (to - from)));
}
