import {
  BackSide, type BufferGeometry, CustomBlending, DoubleSide, GLSL3, Mesh, OneFactor, OneMinusSrcAlphaFactor, RawShaderMaterial, Vector2, Vector3,
  type WebGLRenderer,
} from 'three';
import fragment from '../../shaders/veil.frag.glsl?raw';
import vertex from '../../shaders/veil.vert.glsl?raw';
import type { ClothLook } from './cloth-mesh.ts';
import type { Scheme } from './colour.ts';
import { shaderText } from './shader-text.ts';

/** How much of the backdrop the veil hides, and its outline in pixels of CSS; chosen by eye. */
const OPACITY = 0.42, OUTLINE_PIXELS = 2;
/** The veil is drawn behind all that is solid, its outline over it and under a measure's line; depth for glass just before the glass. */
const BEHIND = -0.9, OVER = 6, BEFORE_GLASS = -0.25;

function createMaterial(isOutline: boolean, isSorted: boolean): RawShaderMaterial {
  return new RawShaderMaterial({
    glslVersion: GLSL3, vertexShader: shaderText(vertex), fragmentShader: shaderText(fragment), defines: { IS_OUTLINE: isOutline ? 1 : 0 },
    // What three takes for opaque is drawn first, blending or not.
    transparent: isSorted, blending: CustomBlending, blendSrc: OneFactor, blendDst: OneMinusSrcAlphaFactor, side: isOutline ? BackSide : DoubleSide,
    uniforms: {
      u_veil: { value: new Vector3() }, u_opacity: { value: OPACITY }, u_viewport: { value: new Vector2(1, 1) }, u_width: { value: OUTLINE_PIXELS },
    },
  });
}

/** The nearest cloth at each pixel in depth alone, a hair behind itself: what is see-through is then drawn once, in whatever order its triangles come. */
function createDepth(isSorted: boolean): RawShaderMaterial {
  return Object.assign(createMaterial(false, isSorted), { colorWrite: false, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 2 });
}

/** The back of the cloth, swollen by the outline's width and set back, shows beyond its own edge alone. */
function createOutline(): RawShaderMaterial {
  return Object.assign(createMaterial(true, true), { depthWrite: false, polygonOffset: true, polygonOffsetFactor: 2, polygonOffsetUnits: 8 });
}

/**
 * What see-through cloth needs beside itself: its depth, and for a veil its tint and outline. The tint
 * shows only where no other sock is, so that it colours none, and the outline everywhere: together they
 * tell where either stands out beyond the other. Both know no depth but their own, for two cloths of
 * one shape would flicker through each other.
 */
export class Veil {
  readonly meshes: readonly Mesh<BufferGeometry, RawShaderMaterial>[];
  private readonly depth: Mesh<BufferGeometry, RawShaderMaterial>;
  private readonly depthBehind: Mesh<BufferGeometry, RawShaderMaterial>;
  private readonly tint: Mesh<BufferGeometry, RawShaderMaterial>;
  private readonly outline: Mesh<BufferGeometry, RawShaderMaterial>;

  constructor(empty: BufferGeometry) {
    this.depth = new Mesh(empty, createDepth(true));
    this.depthBehind = new Mesh(empty, createDepth(false));
    this.tint = new Mesh(empty, createMaterial(false, false));
    this.outline = new Mesh(empty, createOutline());
    this.meshes = [this.depthBehind, this.tint, this.depth, this.outline];
    for (const mesh of this.meshes) mesh.frustumCulled = false;
    this.depthBehind.renderOrder = BEHIND;
    this.tint.renderOrder = BEHIND + 0.1;
    this.outline.renderOrder = OVER + 1;
    this.tint.onAfterRender = clearDepth;
    this.depth.onBeforeRender = (renderer) => { if (this.outline.visible) clearDepth(renderer); };
  }

  show(look: ClothLook): void {
    const isVeil = look === 'veil';
    this.depth.visible = look !== 'solid';
    this.depthBehind.visible = this.tint.visible = this.outline.visible = isVeil;
    this.depth.renderOrder = isVeil ? OVER : BEFORE_GLASS;
  }

  setScheme(scheme: Scheme): void {
    for (const mesh of [this.tint, this.outline]) (mesh.material.uniforms.u_veil.value as Vector3).set(...scheme.veil);
  }

  setViewport(width: number, height: number, ratio: number): void {
    const { uniforms } = this.outline.material;
    (uniforms.u_viewport.value as Vector2).set(width * ratio, height * ratio);
    uniforms.u_width.value = OUTLINE_PIXELS * ratio;
  }

  dispose(): void {
    for (const mesh of this.meshes) mesh.material.dispose();
  }
}

function clearDepth(renderer: WebGLRenderer): void {
  renderer.state.buffers.depth.setMask(true);
  renderer.clearDepth();
}
