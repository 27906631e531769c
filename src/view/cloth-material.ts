import { BackSide, FrontSide, GLSL3, type IUniform, RawShaderMaterial, Vector2, Vector3 } from 'three';
import light from '../../shaders/_light.glsl?raw';
import look from '../../shaders/_look.glsl?raw';
import map from '../../shaders/_map.glsl?raw';
import stitch from '../../shaders/_stitch.glsl?raw';
import fragment from '../../shaders/cloth.frag.glsl?raw';
import vertex from '../../shaders/cloth.vert.glsl?raw';
import wrapFragment from '../../shaders/wrap.frag.glsl?raw';
import wrapVertex from '../../shaders/wrap.vert.glsl?raw';
import { TEXTURE_WIDTH } from './cloth-geometry.ts';
import { MOST_STEPS } from './colour-scale.ts';
import { shaderText } from './shader-text.ts';

/** Pixels a stitch at which knitting begins to show, and at which it is full (DESIGN.md, the picture). */
const DETAIL_PIXELS = [3, 9] as const;

/** Uniforms that all materials of a cloth share. */
export type ClothUniforms = Record<string, IUniform>;

export function createClothUniforms(): ClothUniforms {
  return {
    u_corners: { value: null }, u_looks: { value: null },
    u_aspect: { value: new Vector2(1, 1) }, u_detail: { value: new Vector2(...DETAIL_PIXELS) },
    u_dim: { value: 0 }, u_paper: { value: new Vector3() },
    u_key: { value: new Vector3() }, u_sky: { value: new Vector3() },
    u_ground: { value: new Vector3() }, u_rim: { value: new Vector3() },
    u_mapped: { value: 0 }, u_scale: { value: Array.from({ length: MOST_STEPS }, () => new Vector3()) }, u_glass: { value: 1 },
    u_cut: { value: 0 }, u_everted: { value: 0 }, u_opened: { value: 0 },
  };
}

function createClothMaterial(uniforms: ClothUniforms, isInside: boolean, ...has: readonly string[]): RawShaderMaterial {
  const hasDefine = (name: string): readonly [string, string] => [`HAS_${name}`, String(has.includes(name))];
  return new RawShaderMaterial({
    glslVersion: GLSL3,
    vertexShader: shaderText(look, vertex),
    fragmentShader: shaderText(look, light, map, stitch, fragment),
    side: isInside ? BackSide : FrontSide,
    defines: { TEXTURE_WIDTH, SCALE_STEPS: MOST_STEPS, IS_INSIDE: String(isInside), IS_CUT: 0, ...Object.fromEntries(['KNIT', 'PURL', 'EXTRAS'].map(hasDefine)) },
    uniforms,
  });
}

/** Materials of one side of the cloth, by CELL_KINDS: each program holds only what its cells can show. */
export function createClothMaterials(uniforms: ClothUniforms, isInside: boolean): RawShaderMaterial[] {
  const special = createClothMaterial(uniforms, isInside, 'KNIT', 'PURL', 'EXTRAS');
  if (isInside) return [createClothMaterial(uniforms, isInside, 'PURL'), special, special];
  return [createClothMaterial(uniforms, isInside, 'KNIT'), createClothMaterial(uniforms, isInside, 'KNIT', 'PURL'), special];
}

/** For pieces of yarn that are tubes of their own. */
export function createWrapMaterial(uniforms: ClothUniforms): RawShaderMaterial {
  return new RawShaderMaterial({
    glslVersion: GLSL3, vertexShader: shaderText(wrapVertex), fragmentShader: shaderText(light, map, wrapFragment),
    defines: { SCALE_STEPS: MOST_STEPS, IS_CUT: 0 }, uniforms,
  });
}
