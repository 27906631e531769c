import type { PosedSock } from '../pipeline/result.ts';
import type { SockFile } from '../plan/sock-file.ts';
import type { PoseName } from '../shape/pose.ts';

/** Shapes remembered: some 300 kB each, so that undo and a change of colour are instant. */
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

/** All of a file that its relaxed shape hangs on: names, yarns and the machine's size are not among it. */
export function shapeKey(file: SockFile, pose: PoseName): string {
  const { gauge, foot, ease, leg, heel, toe, counts } = file;
  return JSON.stringify([pose, gauge, foot, ease, leg, heel, toe, counts]);
}
