import { Group, Mesh, type RawShaderMaterial } from 'three';
import type { NeedleSizes } from '../yarn/form-cycle.ts';
import type { FormedNeedle } from '../yarn/form-loops.ts';
import { solidGeometry } from './matte-mesh.ts';
import { type Place, SolidBuilder } from './solid-builder.ts';

/** Tones of what is not yarn, in the order of the material's colours. */
export const STEEL = { needle: 0, held: 1, latch: 2, edge: 3, feeder: 4 } as const;

/** Sides of the bars: smooth enough at a close view. */
const SIDES = 14;

/** A plain latch needle of our own drawing: stem, hook, and a latch that swings. Its own axes: x across, y above, z along. Chosen by eye. */
export class FormNeedleMesh {
  readonly group = new Group();
  private readonly body: Mesh;
  private readonly swing: Mesh;
  private readonly closed: number;
  private readonly size: NeedleSizes;

  constructor(size: NeedleSizes, yarnMm: number, isHeld: boolean, side: 1 | -1, material: RawShaderMaterial) {
    const { stem, hook, pivot } = size, wire = 0.6 * stem, bend = (hook - wire) / 2, front = yarnMm / 2 + wire, centre = front - bend;
    const shape = new SolidBuilder(), tone = isHeld ? STEEL.held : STEEL.needle, across: Place = [1, 0, 0];
    const arc = Array.from({ length: 11 }, (_, i): Place => {
      const angle = -Math.PI / 2 + (Math.PI * i) / 10;
      return [0, bend + bend * Math.sin(angle), centre + bend * Math.cos(angle)];
    });
    const tip: Place = [0, 2 * bend - 0.12 * hook, centre - 0.55 * bend];
    shape.addBar([[0, 0, -7 * pivot], [0, 0, -0.72 * pivot]], stem, SIDES, across, tone);
    shape.addBar([[0, 0, -0.8 * pivot], [0, 0, centre - 0.4 * bend], ...arc, [0, 2 * bend - 0.03 * hook, centre - 0.3 * bend], tip], wire, SIDES, across, tone);
    // Cheeks that hold the latch.
    shape.addBar([[0, 0.2 * stem, -1.25 * pivot], [0, 0.55 * stem, -pivot], [0, 0.2 * stem, -0.75 * pivot]], 1.05 * stem, SIDES, across, tone);
    const foot: Place = [0, 0.9 * stem, -pivot], rise = tip[1] + wire * 0.4 - foot[1], run = tip[2] - foot[2], length = Math.sqrt(rise * rise + run * run);
    this.closed = Math.atan2(rise, run);
    const latch = new SolidBuilder();
    latch.addBar([[0, 0, -0.1 * length], [0, 0, 0.86 * length]], 0.5 * stem, SIDES, across, STEEL.latch);
    // Its spoon, which covers the tip of the hook.
    latch.addBar([[0, 0, 0.8 * length], [0, -0.1 * stem, 0.92 * length], [0, 0, 1.04 * length]], 0.8 * stem, SIDES, across, STEEL.latch);
    this.body = new Mesh(solidGeometry(shape.build()), material);
    this.swing = new Mesh(solidGeometry(latch.build()), material);
    this.swing.position.set(...foot);
    this.body.add(this.swing);
    this.group.add(this.body);
    for (const mesh of [this.body, this.swing]) mesh.frustumCulled = false;
    // A bed slopes by 45 degrees up to the gap; `side` is +1 for the back bed, whose needles point towards the knitter.
    this.group.rotation.set(side > 0 ? -Math.PI / 4 : -0.75 * Math.PI, 0, 0);
    if (side < 0) this.body.scale.y = -1;
    this.size = size;
  }

  /** Puts the needle where it stands at one moment. */
  show(x: number, edgeZ: number, { reach, latch }: FormedNeedle): void {
    this.group.position.set(x, 0, edgeZ);
    this.body.position.set(0, 0, reach);
    const open = Math.PI - 0.5 * Math.asin(Math.min(1, this.size.stem / this.size.latch));
    this.swing.rotation.x = -(this.closed + (open - this.closed) * (latch / Math.PI));
  }

  dispose(): void {
    for (const mesh of [this.body, this.swing]) mesh.geometry.dispose();
  }
}
