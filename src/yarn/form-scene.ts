import { LOOP } from '../machine/codes.ts';
import type { StitchGrid } from '../machine/grid.ts';
import { type NeedleSizes, sizeNeedle } from './form-cycle.ts';
import type { FormNeedle, KnittedPass } from './form-needles.ts';
import { PART, type YarnThread } from './yarn-lay.ts';

/** What a close-up of a pass is made of. */
export interface FormSource extends KnittedPass {
  /** Neighbours, in the order of their numbers. */
  readonly needles: readonly FormNeedle[];
  readonly pitchMm: number;
  /** Yarn in a loop, mm. */
  readonly loopMm: number;
  /** Thickness of each yarn (by grid.yarn), mm. */
  readonly diameterMm: Float64Array;
}

/** `fabric`: a stitch below those on the needles. `old`: one that hangs on its needle. `made`: one that the pass forms. `wrap`: one that lies there before; `laid`: after the pass. */
export type FormKind = 'fabric' | 'old' | 'made' | 'wrap' | 'laid';

/** A stitch or a wrap of the close-up. */
export interface FormItem {
  readonly loop: number;
  readonly kind: FormKind;
  /** Index of its needle, or of that from which its wale hangs. */
  readonly column: number;
  /** Rows below the needle's own stitch. */
  readonly row: number;
  /** Place among the stitches and wraps of its needle; of stitches below: among those that the same one was drawn through. */
  readonly order: number;
  /** Along the bed, mm: where it was drawn through its parent, and where the next is drawn through it. */
  readonly rootX: number;
  readonly topX: number;
  /** -1 where the purl side is towards its bed. */
  readonly face: 1 | -1;
}

export interface FormScene {
  readonly source: FormSource;
  readonly size: NeedleSizes;
  /** Where each needle stands along the bed, mm. */
  readonly columnX: Float64Array;
  readonly hasBothBeds: boolean;
  /** +1 where the carriage goes to the right, as the knitter in front of the machine sees it. */
  readonly way: 1 | -1;
  /** The stitch or wrap of each piece of yarn; a tail's is the one it hangs from. */
  readonly items: readonly FormItem[];
  readonly thread: YarnThread;
  /** The length of yarn that comes from the feeder, by its place in `thread.lengthStart`; -1 where the needles knit nothing. */
  readonly fed: number;
  /** The first piece of that length that the pass forms, and its first tail. */
  readonly firstMade: number;
  readonly lastTail: number;
}

/** Rows shown below the stitches on the needles. */
const ROWS_BELOW = 4;

export function readFormScene(source: FormSource): FormScene {
  const { needles, pitchMm, diameterMm, grid, trace, pass } = source, middle = (needles[0].needle + needles[needles.length - 1].needle) / 2;
  const columnX = Float64Array.from(needles, ({ needle }) => (needle - middle) * pitchMm);
  const items = new Map<number, FormItem>();
  needles.forEach((_, column) => { for (const item of listItems(source, columnX, column)) items.set(item.loop, item); });
  const { ordered, thread } = threadItems(grid, items), made = needles.flatMap((at) => (at.made >= 0 ? [at.made] : []));
  const fed = made.length === 0 ? -1 : lengthOf(thread, thread.loopPiece[made[0]]);
  const widest = made.length === 0 ? diameterMm[0] : diameterMm[grid.yarn[made[0]]];
  const firstMade = fed < 0 ? -1 : ordered.findIndex(({ kind }, piece) => kind === 'made' && thread.part[piece] === PART.loop);
  return {
    source, size: sizeNeedle(pitchMm, widest), columnX, hasBothBeds: new Set(needles.map(({ bed }) => bed)).size > 1,
    way: trace.passes[pass].from === 'left' ? 1 : -1, items: ordered, thread, fed, firstMade, lastTail: fed < 0 ? -1 : thread.lengthStart[fed + 1] - 1,
  };
}

function lengthOf({ lengthStart }: YarnThread, piece: number): number {
  let k = 0;
  while (lengthStart[k + 1] <= piece) k++;
  return k;
}

function listItems(source: FormSource, columnX: Float64Array, column: number): FormItem[] {
  const { needles, grid } = source, { loops, wraps, made, laid } = needles[column], x = columnX[column], items: FormItem[] = [];
  const one = (loop: number, kind: FormKind, order: number): void => { items.push({ loop, kind, column, row: 0, order, rootX: x, topX: x, face: 1 }); };
  loops.forEach((loop, order) => {
    const rootX = x - movedMm(source, loop, needles[column].bed, needles[column].needle);
    items.push({ loop, kind: 'old', column, row: 0, order, rootX, topX: x, face: faceOf(grid, loop) });
    addBelow(loop, rootX, 1);

    function addBelow(child: number, childX: number, row: number): void {
      if (row > ROWS_BELOW) return;
      const first = grid.parentStart[child];
      for (let k = first; k < grid.parentStart[child + 1]; k++) {
        const parent = grid.parents[k], parentX = childX - movedMm(source, parent, grid.bed[child], grid.needle[child]);
        const isWrap = grid.kind[parent] === LOOP.wrap;
        items.push({ loop: parent, kind: isWrap ? 'wrap' : 'fabric', column, row, order: k - first, rootX: isWrap ? childX : parentX, topX: childX, face: faceOf(grid, parent) });
        if (!isWrap) addBelow(parent, parentX, row + 1);
      }
    }
  });
  wraps.forEach((loop, i) => { one(loop, 'wrap', loops.length + i); });
  if (made >= 0) one(made, 'made', 0);
  laid.forEach((loop, i) => { one(loop, 'laid', loops.length + wraps.length + i); });
  return items;
}

/** Stitches of a rib hang on the bed that made them, with their knit side to it; of one gathered on a bed half show it the other. */
function faceOf(grid: StitchGrid, loop: number): 1 | -1 { return grid.isPurl[loop] === 1 && grid.isRib[loop] === 0 ? -1 : 1; }

/** How far to the right of where it was made a stitch hangs that was moved along its bed, mm; one that was moved to the other bed took its wale with it. */
function movedMm({ grid, pitchMm }: FormSource, loop: number, bed: number, needle: number): number {
  return grid.bed[loop] === bed ? (needle - grid.needle[loop]) * pitchMm : 0;
}

/** Follows every length of yarn as far as it is shown; a tail at either end leads out of the picture. */
function threadItems(grid: StitchGrid, items: ReadonlyMap<number, FormItem>): { readonly ordered: FormItem[]; readonly thread: YarnThread } {
  const ordered: FormItem[] = [], part: number[] = [], lengthStart = [0], loopPiece = new Int32Array(grid.loopCount).fill(-1);
  const add = (item: FormItem, kind: number): void => {
    ordered.push(item);
    part.push(kind);
  };
  for (const item of [...items.values()].sort((a, b) => a.loop - b.loop)) {
    if (items.has(grid.yarnBefore[item.loop])) continue;
    add(item, PART.tail);
    let last = item;
    for (let next: FormItem | undefined = item; next !== undefined; next = items.get(grid.yarnAfter[next.loop])) {
      loopPiece[next.loop] = ordered.length;
      add(next, grid.kind[next.loop] === LOOP.wrap ? PART.wrap : PART.loop);
      last = next;
    }
    add(last, PART.tail);
    lengthStart.push(ordered.length);
  }
  const loop = Int32Array.from(ordered, (item) => item.loop);
  return {
    ordered, thread: {
      pieceCount: ordered.length, part: Uint8Array.from(part), loop, mate: new Int32Array(ordered.length).fill(-1),
      yarn: Uint8Array.from(loop, (id) => grid.yarn[id]), lengthStart: Int32Array.from(lengthStart), loopPiece,
    },
  };
}
