import type { ChartColours } from '../panel/draw-chart.ts';
import type { PlannedYarn } from '../plan/plan-types.ts';

/** Share of a yarn's colour in the wash of its cells: ink keeps 4.5 to 1 on it with black and with white yarn, in both themes. */
export const WASH = 0.25;

/** The page's colours as they are now, and those of the yarns. */
export function readChartColours(yarns: readonly PlannedYarn[]): ChartColours {
  const style = getComputedStyle(document.documentElement), of = (name: string): string => style.getPropertyValue(name).trim();
  const raised = of('--raised'), colours = yarns.map(({ colour }) => colour);
  return {
    card: of('--card'), raised, field: of('--field'), ink: of('--ink'), soft: of('--soft'), line: of('--line'), accent: of('--accent'),
    yarns: colours, washes: colours.map((colour) => mixColours(colour, raised, WASH)),
  };
}

/** `share` of the first and the rest of the second, both `#rrggbb`. */
export function mixColours(first: string, second: string, share: number): string {
  const part = (at: number): string => {
    const [a, b] = [first, second].map((colour) => Number.parseInt(colour.slice(at, at + 2), 16));
    return Math.round(a * share + b * (1 - share)).toString(16).padStart(2, '0');
  };
  return `#${part(1)}${part(3)}${part(5)}`;
}
