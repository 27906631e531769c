import { BufferAttribute, type InstancedBufferAttribute, InstancedBufferGeometry, Sphere } from 'three';
import { PIECE_POINTS } from '../yarn/yarn-lay.ts';
import type { YarnLevel } from './yarn-levels.ts';

/** A tube of rings: for each point spans along its piece of yarn and turns round it; triangles with their front outwards. */
export interface Tube { readonly places: Float32Array; readonly index: Uint16Array }

export function tubeOf({ segments, sides }: Pick<YarnLevel, 'segments' | 'sides'>): Tube {
  const places = new Float32Array(2 * (segments + 1) * sides), index = new Uint16Array(6 * segments * sides);
  for (let i = 0; i < (segments + 1) * sides; i++) {
    places[2 * i] = (PIECE_POINTS * Math.floor(i / sides)) / segments;
    places[2 * i + 1] = (i % sides) / sides;
  }
  for (let i = 0; i < segments * sides; i++) {
    const next = i - (i % sides) + ((i + 1) % sides);
    index.set([i, next, i + sides, next, next + sides, i + sides], 6 * i);
  }
  return { places, index };
}

/** A tube once for each of the pieces whose numbers stand in `pieces`. */
export function tubeGeometry(level: YarnLevel, pieces: InstancedBufferAttribute): InstancedBufferGeometry {
  const { places, index } = tubeOf(level), geometry = new InstancedBufferGeometry();
  geometry.setIndex(new BufferAttribute(index, 1));
  geometry.setAttribute('position', new BufferAttribute(places, 2));
  geometry.setAttribute('a_piece', pieces);
  // Its points are no places: none could be found from them.
  geometry.boundingSphere = new Sphere();
  return geometry;
}
