import { BufferGeometry, DoubleSide, GLSL3, Mesh, RawShaderMaterial, Vector3 } from 'three';
import light from '../../shaders/_light.glsl?raw';
import look from '../../shaders/_look.glsl?raw';
import map from '../../shaders/_map.glsl?raw';
import fragment from '../../shaders/lining.frag.glsl?raw';
import vertex from '../../shaders/lining.vert.glsl?raw';
import { CELL_KINDS } from './cloth-geometry.ts';
import type { ClothUniforms } from './cloth-material.ts';
import { MOST_STEPS } from './colour-scale.ts';
import { shaderText } from './shader-text.ts';

/** How far behind the cloth's middle it lies for who looks at the inside and at the outside, in stitches: there behind all yarn, a rib's too, that is seen through the gaps. Chosen by eye. */
const SINK_INSIDE = 0.12, SINK_OUTSIDE = 0.6;
/** How far it reaches beyond the cloth's middle where that turns away from the eye, in stitches: not as far as the yarn. Chosen by eye. */
const BRIM = 0.15;

/** The dark behind yarn: the cloth without its stitches, seen through the gaps of the yarn before it from either side. */
export class Lining {
  readonly mesh: Mesh<BufferGeometry, RawShaderMaterial | RawShaderMaterial[]>;
  private readonly material: RawShaderMaterial;

  constructor(uniforms: ClothUniforms) {
    this.material = new RawShaderMaterial({
      glslVersion: GLSL3, vertexShader: shaderText(look, vertex), fragmentShader: shaderText(light, map, fragment), defines: { IS_CUT: 0, SCALE_STEPS: MOST_STEPS }, side: DoubleSide,
      uniforms: { ...uniforms, u_sink: { value: new Vector3() } },
    });
    this.mesh = new Mesh<BufferGeometry, RawShaderMaterial | RawShaderMaterial[]>(new BufferGeometry(), this.material);
    this.mesh.frustumCulled = this.mesh.visible = false;
    // Little of it is seen: after what hides it.
    this.mesh.renderOrder = 9;
  }

  /** Whole geometry goes in one call, part of it by its groups. */
  wear(geometry: BufferGeometry, isWhole: boolean, stitchMm: number): void {
    this.mesh.geometry = geometry;
    this.mesh.material = isWhole ? this.material : CELL_KINDS.map(() => this.material);
    (this.material.uniforms['u_sink'].value as Vector3).set(SINK_INSIDE, SINK_OUTSIDE, BRIM).multiplyScalar(stitchMm);
  }

  setCut(isCut: boolean): void {
    this.material.defines['IS_CUT'] = isCut ? 1 : 0;
    this.material.needsUpdate = true;
  }

  dispose(): void { this.material.dispose(); }
}
