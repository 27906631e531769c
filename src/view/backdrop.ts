import { BufferAttribute, BufferGeometry, GLSL3, Mesh, RawShaderMaterial, Vector3 } from 'three';
import fragment from '../../shaders/backdrop.frag.glsl?raw';
import vertex from '../../shaders/backdrop.vert.glsl?raw';
import type { Scheme } from './colour.ts';
import { shaderText } from './shader-text.ts';

/** What is behind everything, drawn as one triangle over the whole picture. */
export class Backdrop {
  readonly mesh: Mesh<BufferGeometry, RawShaderMaterial>;

  constructor() {
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(Float32Array.of(-1, -1, 0, 3, -1, 0, -1, 3, 0), 3));
    this.mesh = new Mesh(geometry, new RawShaderMaterial({
      glslVersion: GLSL3, vertexShader: shaderText(vertex), fragmentShader: shaderText(fragment),
      depthTest: false, depthWrite: false,
      uniforms: { u_top: { value: new Vector3() }, u_bottom: { value: new Vector3() } },
    }));
    this.mesh.frustumCulled = false;
    this.mesh.renderOrder = -2;
  }

  setScheme(scheme: Scheme): void {
    const { uniforms } = this.mesh.material;
    (uniforms.u_top.value as Vector3).set(...scheme.backdropTop);
    (uniforms.u_bottom.value as Vector3).set(...scheme.backdropBottom);
  }

  dispose(): void {
    this.mesh.geometry.dispose();
    this.mesh.material.dispose();
  }
}
