import type { DifferenceMap } from '../choose/comparison.ts';
import type { WornReading } from '../measure/fit-answer.ts';
import type { Stretch } from '../measure/measure-stretch.ts';
import { type ColourScale, DIFFERENCE_SCALE, GAP_SCALE, PRESSURE_SCALE, STRETCH_SCALE } from '../view/colour-scale.ts';
import type { ClothLayer, ClothMap } from '../view/sock-view-types.ts';

export const SCALES: Readonly<Record<Exclude<ClothLayer, 'yarn'>, ColourScale>> = {
  'stretch-width': STRETCH_SCALE, 'stretch-length': STRETCH_SCALE, pressure: PRESSURE_SCALE, gap: GAP_SCALE, longer: DIFFERENCE_SCALE, wider: DIFFERENCE_SCALE,
};

/** What is known of a cloth: one entry a vertex each. */
export interface ClothNumbers {
  /** Shares of the size at rest. */
  readonly stretch: Pick<Stretch, 'vertexWidth' | 'vertexLength'> | null;
  readonly worn: WornReading | null;
  /** Of a second sock alone. */
  readonly difference: DifferenceMap | null;
}

/** Numbers for the colours of a layer; null where they are not known, and for the yarn. */
export function mapOf(layer: ClothLayer, { stretch, worn, difference }: ClothNumbers): ClothMap | null {
  const valuesOf = (): Float64Array | undefined => {
    switch (layer) {
      case 'yarn': return undefined;
      case 'stretch-width': return stretch?.vertexWidth.map((share) => 100 * share);
      case 'stretch-length': return stretch?.vertexLength.map((share) => 100 * share);
      case 'pressure': return worn?.vertexPressureMmHg;
      case 'gap': return worn?.vertexGapMm;
      case 'longer': return difference?.vertexLongerMm;
      case 'wider': return difference?.vertexWiderMm;
      default: return layer satisfies never;
    }
  };
  const values = valuesOf();
  return layer === 'yarn' || values === undefined ? null : { values, scale: SCALES[layer] };
}
