import { BufferAttribute, BufferGeometry, GLSL3, Matrix3, Matrix4, Mesh, type PerspectiveCamera, RawShaderMaterial, type Texture, Vector3 } from 'three';
import shadow from '../../shaders/_shadow.glsl?raw';
import fragment from '../../shaders/backdrop.frag.glsl?raw';
import vertex from '../../shaders/backdrop.vert.glsl?raw';
import type { Scheme } from './colour.ts';
import type { GroundShadow } from './ground-shadow.ts';
import { shaderText } from './shader-text.ts';

/** What is behind everything, drawn as one triangle over the whole picture, a sock's shadow with it. */
export class Backdrop {
  readonly mesh: Mesh<BufferGeometry, RawShaderMaterial>;

  constructor() {
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(Float32Array.of(-1, -1, 0, 3, -1, 0, -1, 3, 0), 3));
    this.mesh = new Mesh(geometry, new RawShaderMaterial({
      glslVersion: GLSL3, vertexShader: shaderText(vertex), fragmentShader: shaderText(shadow, fragment),
      depthTest: false, depthWrite: false,
      uniforms: {
        u_top: { value: new Vector3() }, u_bottom: { value: new Vector3() }, u_rays: { value: new Matrix3() }, u_eye: { value: new Vector3() },
        u_darkness: { value: null }, u_colour: { value: new Vector3() }, u_strength: { value: 0 },
      },
    }));
    this.mesh.frustumCulled = false;
    this.mesh.renderOrder = -2;
  }

  setScheme(scheme: Scheme): void {
    const { uniforms } = this.mesh.material;
    (uniforms.u_top.value as Vector3).set(...scheme.backdropTop);
    (uniforms.u_bottom.value as Vector3).set(...scheme.backdropBottom);
  }

  /** Draws a shadow in its stead while there is a backdrop to draw it on: one call less. */
  takeShadow({ mesh }: GroundShadow, camera: PerspectiveCamera): void {
    const { uniforms } = this.mesh.material, from = mesh.material.uniforms, isTaken = this.mesh.visible && mesh.visible;
    uniforms.u_strength.value = isTaken ? from.u_strength.value as number : 0;
    if (!isTaken) return;
    mesh.visible = false;
    uniforms.u_darkness.value = from.u_darkness.value as Texture;
    uniforms.u_colour.value = from.u_colour.value as Vector3;
    const toMap = mesh.matrixWorld.clone().invert(), { elements: p } = camera.projectionMatrix;
    (uniforms.u_eye.value as Vector3).setFromMatrixPosition(camera.matrixWorld).applyMatrix4(toMap);
    const toRays = new Matrix4().multiplyMatrices(toMap, camera.matrixWorld);
    (uniforms.u_rays.value as Matrix3).setFromMatrix4(toRays).multiply(new Matrix3().set(1 / p[0], 0, 0, 0, 1 / p[5], 0, 0, 0, -1));
  }

  dispose(): void {
    this.mesh.geometry.dispose();
    this.mesh.material.dispose();
  }
}
