import { OPEN_ANGLES, type DartMap } from './dart-map.ts';

/** Closed walks along darts: walk w is darts[start[w] .. start[w + 1]), its inside on the left. */
export interface Walks { readonly start: Int32Array; readonly darts: Int32Array }

/** The corner that `next` makes with the dart before it (counter-clockwise sector from `next` to `back`) holds an open side. */
function isOpenCorner(map: DartMap, vertex: number, next: number, back: number): boolean {
  const open = map.openSides[vertex];
  if (open === 0) return false;
  const from = map.dartAngle[next];
  let span = (map.dartAngle[back]) - from;
  if (span <= 0) span += 360;
  return OPEN_ANGLES.some(([bit, angle]) => {
    if ((open & bit) === 0) return false;
    const turn = (angle - from + 360) % 360;
    return turn > 0 && turn < span;
  });
}

/**
 * Walks every face of the dart map. A walk that passes an open side (below a cast-on, above a live
 * loop, beside an unsewn edge) is a boundary; all others bound cells.
 */
export function walkCells(map: DartMap): { readonly cells: Walks; readonly boundaries: Walks } {
  const dartCount = map.darts.length;
  const isWalked = new Uint8Array(dartCount);
  const cells = { start: [0], darts: [] as number[] };
  const boundaries = { start: [0], darts: [] as number[] };
  for (let first = 0; first < dartCount; first++) {
    if (isWalked[first] === 1) continue;
    const walk: number[] = [];
    let isBoundary = false;
    let dart = first;
    do {
      isWalked[dart] = 1;
      walk.push(dart);
      const back = dart ^ 1;
      const vertex = map.edges[back];
      const start = map.dartStart[vertex];
      const place = map.dartPlace[back];
      const next = map.darts[place > start ? place - 1 : (map.dartStart[vertex + 1]) - 1];
      isBoundary ||= isOpenCorner(map, vertex, next, back);
      dart = next;
    } while (dart !== first);
    const into = isBoundary ? boundaries : cells;
    for (const d of walk) into.darts.push(d);
    into.start.push(into.darts.length);
  }
  const pack = (w: { start: number[]; darts: number[] }): Walks => ({ start: new Int32Array(w.start), darts: new Int32Array(w.darts) });
  return { cells: pack(cells), boundaries: pack(boundaries) };
}
