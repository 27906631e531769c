import { CustomBlending, DoubleSide, FrontSide, GLSL3, type IUniform, OneFactor, RawShaderMaterial, ZeroFactor } from 'three';
import light from '../../shaders/_light.glsl?raw';
import look from '../../shaders/_look.glsl?raw';
import map from '../../shaders/_map.glsl?raw';
import plies from '../../shaders/_plies.glsl?raw';
import fragment from '../../shaders/yarn.frag.glsl?raw';
import vertex from '../../shaders/yarn.vert.glsl?raw';
import { PIECE_POINTS } from '../yarn/yarn-lay.ts';
import { TEXTURE_WIDTH } from './cloth-geometry.ts';
import type { ClothUniforms } from './cloth-material.ts';
import { MOST_STEPS } from './colour-scale.ts';
import { shaderText } from './shader-text.ts';

/** Uniforms of a yarn beside those of its cloth. */
export type YarnUniforms = Record<'u_points' | 'u_ups' | 'u_pieces' | 'u_halo' | 'u_body' | 'u_relief' | 'u_shown' | 'u_pixels', IUniform>;

export function createYarnUniforms(): YarnUniforms {
  return { u_points: { value: null }, u_ups: { value: null }, u_pieces: { value: null }, u_halo: { value: 0 }, u_body: { value: 1 }, u_relief: { value: 0 }, u_shown: { value: 1 }, u_pixels: { value: 1 } };
}

/** Yarn with its plies and fibres or without; `isCut`: parts of it are cut away, and its cut ends are seen. */
export function createYarnMaterial(cloth: ClothUniforms, yarn: YarnUniforms, hasPlies: boolean, isCut: boolean): RawShaderMaterial {
  return new RawShaderMaterial({
    glslVersion: GLSL3, vertexShader: shaderText(plies, vertex), fragmentShader: shaderText(look, light, map, plies, fragment),
    defines: { TEXTURE_WIDTH, PIECE_POINTS, SCALE_STEPS: MOST_STEPS, HAS_PLIES: hasPlies ? 1 : 0, IS_CUT: isCut ? 1 : 0 },
    side: isCut ? DoubleSide : FrontSide,
    // Alpha says how many of a pixel's samples are covered, and stays out of the picture, whose page would shine through.
    alphaToCoverage: true, blending: CustomBlending, blendSrc: OneFactor, blendDst: ZeroFactor, blendSrcAlpha: ZeroFactor, blendDstAlpha: OneFactor,
    uniforms: { ...cloth, ...yarn },
  });
}
