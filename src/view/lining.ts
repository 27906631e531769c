import { BackSide, BufferGeometry, FrontSide, GLSL3, Mesh, RawShaderMaterial } from 'three';
import light from '../../shaders/_light.glsl?raw';
import look from '../../shaders/_look.glsl?raw';
import fragment from '../../shaders/lining.frag.glsl?raw';
import vertex from '../../shaders/lining.vert.glsl?raw';
import { CELL_KINDS } from './cloth-geometry.ts';
import type { ClothUniforms } from './cloth-material.ts';
import { shaderText } from './shader-text.ts';

/** How far behind the cloth's middle it lies, in stitches: behind the yarn. Chosen by eye. */
const SINK = 0.12;

/** The dark behind yarn: the cloth's inside without its stitches, seen through the gaps of the yarn before it. */
export class Lining {
  readonly mesh: Mesh<BufferGeometry, RawShaderMaterial | RawShaderMaterial[]>;
  private readonly material: RawShaderMaterial;

  constructor(uniforms: ClothUniforms) {
    this.material = new RawShaderMaterial({
      glslVersion: GLSL3, vertexShader: shaderText(look, vertex), fragmentShader: shaderText(light, fragment), defines: { IS_CUT: 0 }, side: BackSide,
      uniforms: { ...uniforms, u_sink: { value: 0 } },
    });
    this.mesh = new Mesh<BufferGeometry, RawShaderMaterial | RawShaderMaterial[]>(new BufferGeometry(), this.material);
    this.mesh.frustumCulled = this.mesh.visible = false;
  }

  /** Whole geometry goes in one call, part of it by its groups. */
  wear(geometry: BufferGeometry, isWhole: boolean, stitchMm: number): void {
    this.mesh.geometry = geometry;
    this.mesh.material = isWhole ? this.material : CELL_KINDS.map(() => this.material);
    this.material.uniforms['u_sink'].value = SINK * stitchMm;
  }

  setCut(isCut: boolean): void {
    this.material.defines['IS_CUT'] = isCut ? 1 : 0;
    this.material.needsUpdate = true;
  }

  setEverted(isEverted: boolean): void { this.material.side = isEverted ? FrontSide : BackSide; }

  dispose(): void { this.material.dispose(); }
}
