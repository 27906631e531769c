import {
  BufferAttribute, BufferGeometry, CustomBlending, DoubleSide, FrontSide, GLSL3, InstancedBufferAttribute, InstancedBufferGeometry,
  OneFactor, OneMinusSrcAlphaFactor, RawShaderMaterial, Vector3,
} from 'three';
import light from '../../shaders/_light.glsl?raw';
import fragment from '../../shaders/matte.frag.glsl?raw';
import vertex from '../../shaders/matte.vert.glsl?raw';
import type { Rgb, Scheme } from './colour.ts';
import type { Solid } from './solid-builder.ts';
import { shaderText } from './shader-text.ts';

export interface MatteLook { readonly tones: number; readonly isNeedle: boolean; readonly fades: boolean }

/** Plain surfaces beside the cloth, under the same light. */
export function createMatteMaterial({ tones, isNeedle, fades }: MatteLook): RawShaderMaterial {
  return new RawShaderMaterial({
    glslVersion: GLSL3, vertexShader: shaderText(vertex), fragmentShader: shaderText(light, fragment),
    side: fades ? FrontSide : DoubleSide, defines: { TONES: tones, IS_NEEDLE: isNeedle ? 1 : 0 },
    ...(fades ? { transparent: true, blending: CustomBlending, blendSrc: OneFactor, blendDst: OneMinusSrcAlphaFactor } : {}),
    uniforms: {
      u_tones: { value: Array.from({ length: tones }, () => new Vector3()) }, u_dim: { value: 0 }, u_paper: { value: new Vector3() },
      u_key: { value: new Vector3() }, u_sky: { value: new Vector3() }, u_ground: { value: new Vector3() }, u_rim: { value: new Vector3() },
      u_span: { value: new Vector3() }, u_size: { value: 1 },
    },
  });
}

/** The theme's light, and the colour of each tone. */
export function paintMatte({ uniforms }: RawShaderMaterial, scheme: Scheme, tones: readonly Rgb[]): void {
  const set = (name: string, rgb: Rgb): void => { (uniforms[name].value as Vector3).set(...rgb); };
  set('u_key', scheme.key);
  set('u_sky', scheme.sky);
  set('u_ground', scheme.ground);
  set('u_rim', scheme.rim);
  set('u_paper', scheme.backdropBottom);
  (uniforms.u_tones.value as Vector3[]).forEach((tone, i) => { tone.set(...tones[i]); });
}

function fill<T extends BufferGeometry>(geometry: T, { positions, normals, index }: Pick<Solid, 'positions' | 'normals' | 'index'>): T {
  geometry.setIndex(new BufferAttribute(index, 1));
  geometry.setAttribute('position', new BufferAttribute(positions, 3));
  geometry.setAttribute('a_normal', new BufferAttribute(normals, 3));
  return geometry;
}

export function solidGeometry(solid: Solid): BufferGeometry {
  return fill(new BufferGeometry(), solid).setAttribute('a_tone', new BufferAttribute(solid.tones, 1));
}

/** The solid once for each place; three entries a place in both arrays. */
export function instancedGeometry(solid: Solid, places: Float32Array, states: Float32Array): InstancedBufferGeometry {
  const geometry = fill(new InstancedBufferGeometry(), solid);
  geometry.setAttribute('a_place', new InstancedBufferAttribute(places, 3));
  geometry.setAttribute('a_state', new InstancedBufferAttribute(states, 3));
  geometry.instanceCount = places.length / 3;
  return geometry;
}
