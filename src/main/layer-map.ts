import type { DifferenceMap } from '../choose/comparison.ts';
import type { WornReading } from '../measure/fit-answer.ts';
import type { Stretch } from '../measure/measure-stretch.ts';
import type { MapLayer } from '../panel/map-words.ts';
import { BED_SCALE, type ColourScale, DIFFERENCE_SCALE, GAP_SCALE, passScale, PRESSURE_SCALE, STRETCH_SCALE } from '../view/colour-scale.ts';
import type { ClothLayer, ClothMap } from '../view/sock-view-types.ts';
import type { Shown } from './picture-cloth.ts';
import { shadePasses } from './shade-passes.ts';

/** The scale of a layer, for a sock of so many passes. */
export function scaleOf(layer: MapLayer, lastPass: number): ColourScale {
  switch (layer) {
    case 'stretch-width': case 'stretch-length': return STRETCH_SCALE;
    case 'pressure': return PRESSURE_SCALE;
    case 'gap': return GAP_SCALE;
    case 'longer': case 'wider': return DIFFERENCE_SCALE;
    case 'pass': return passScale(lastPass);
    case 'bed': return BED_SCALE;
    default: return layer satisfies never;
  }
}

/** What is known of a cloth: one entry a vertex each. */
export interface ClothNumbers {
  /** Shares of the size at rest. */
  readonly stretch: Pick<Stretch, 'vertexWidth' | 'vertexLength'> | null;
  readonly worn: WornReading | null;
  /** Of a second sock alone. */
  readonly difference: DifferenceMap | null;
}

/** Numbers for the colours of a layer; null where they are not known, and for the yarn. */
export function mapOf(layer: ClothLayer, cloth: Shown | null, { stretch, worn, difference }: ClothNumbers): ClothMap | null {
  if (layer === 'yarn' || cloth === null) return null;
  const { fabric: { vertexLoop }, grid, sock } = cloth, lastPass = sock.trace.passes.length - 1;
  const valuesOf = (): Float64Array | undefined => {
    switch (layer) {
      case 'stretch-width': return stretch?.vertexWidth.map((share) => 100 * share);
      case 'stretch-length': return stretch?.vertexLength.map((share) => 100 * share);
      case 'pressure': return worn?.vertexPressureMmHg;
      case 'gap': return worn?.vertexGapMm;
      case 'longer': return difference?.vertexLongerMm;
      case 'wider': return difference?.vertexWiderMm;
      case 'pass': return shadePasses(vertexLoop, grid, lastPass);
      case 'bed': return Float64Array.from(vertexLoop, (loop) => grid.bed[loop]);
      default: return layer satisfies never;
    }
  };
  const values = valuesOf();
  return values === undefined ? null : { values, scale: scaleOf(layer, lastPass) };
}
