import { describe, expect, it } from 'vitest';
import { buildCloth } from '../../src/view/cloth-geometry.ts';
import { findOpenCells } from '../../src/view/open-cells.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import type { KnittedSock } from '../../src/pipeline/result.ts';
import { withField } from '../../src/plan/with-field.ts';
import { LESSON_SOCK } from '../../src/sheet/lesson.ts';

function knit(width: number, hasWraps: boolean, plateau = 0): KnittedSock {
  const file = withField(withField(withField(LESSON_SOCK, 'heel.turnDownWidth', width), 'heel.wraps', hasWraps), 'heel.plateauPasses', plateau);
  const { sock, problems } = knitSock(file);
  if (sock === null) throw new Error(problems.map(({ message }) => message).join(' '));
  return sock;
}

const trianglesOf = ({ fabric, grid }: KnittedSock): number => buildCloth(fabric, grid).index.length / 3;
const cornersOf = ({ fabric }: KnittedSock, cell: number): number => fabric.cellStart[cell + 1] - fabric.cellStart[cell];

describe('cells that no yarn closes', () => {
  // Closed form: one turn, so one missing wrap, for each of the H - W held stitches, half of them at each side.
  it.each([[8, 0], [6, 0], [20, 0], [8, 6]])('one for each wrap left away, turned down to %i with a plateau of %i', (width, plateau) => {
    const bare = knit(width, false, plateau), open = findOpenCells(bare.fabric, bare.grid);
    expect(open.size).toBe(bare.plan.heelStitches - width);
    const sides = [...open].map((cell) => bare.fabric.vertexAround[bare.fabric.cellVertices[bare.fabric.cellStart[cell]]] < 0.5);
    expect(sides.filter(Boolean)).toHaveLength(open.size / 2);
  });

  it('none where every turn is wrapped', () => {
    const { fabric, grid } = knit(8, true);
    expect(findOpenCells(fabric, grid).size).toBe(0);
  });

  it('are left out of the drawn cloth, and nothing else is', () => {
    const bare = knit(8, false), open = [...findOpenCells(bare.fabric, bare.grid)];
    // A polygon of n corners is n - 2 triangles; the cloth itself is the same with and without wraps.
    const missing = open.reduce((sum, cell) => sum + cornersOf(bare, cell) - 2, 0);
    expect(trianglesOf(knit(8, true)) - trianglesOf(bare)).toBe(missing);
  });
});
