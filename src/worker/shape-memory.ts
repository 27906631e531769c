import type { PosedSock } from '../pipeline/result.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { PoseName } from '../shape/pose.ts';

/** Shapes remembered: some 700 kB each, so that undo and a change of colour are instant. */
const SHAPES_KEPT = 12;

export interface ShapeMemory {
  recall(key: string): PosedSock | null;
  keep(key: string, posed: PosedSock): void;
}

export function createShapeMemory(): ShapeMemory {
  const shapes = new Map<string, PosedSock>();
  return {
    recall: (key) => shapes.get(key) ?? null,
    keep: (key, posed) => {
      // Taken out and put in again, it is the youngest.
      shapes.delete(key);
      shapes.set(key, posed);
      const oldest = shapes.keys().next();
      if (shapes.size > SHAPES_KEPT && oldest.done !== true) shapes.delete(oldest.value);
    },
  };
}

/** All of a file that its relaxed shape hangs on: names and yarns are not among it, the machine's size only on the machine. */
export function shapeKey(file: SockFile, pose: PoseName, pass: number | null): string {
  const { gauge, foot, ease, leg, heel, toe, cloth, counts, machine } = file;
  return JSON.stringify([pose, gauge, foot, ease, leg, heel, toe, cloth, counts, ...(pose === 'beds' ? [machine, pass] : [])]);
}
