import {
  BufferAttribute, BufferGeometry, CustomBlending, DataTexture, GLSL3, LinearFilter, Mesh, OneFactor,
  OneMinusSrcAlphaFactor, PlaneGeometry, RawShaderMaterial, RedFormat, UnsignedByteType, Vector3, type Camera,
} from 'three';
import backdropFragment from '../../shaders/backdrop.frag.glsl?raw';
import backdropVertex from '../../shaders/backdrop.vert.glsl?raw';
import shadowFragment from '../../shaders/shadow.frag.glsl?raw';
import shadowVertex from '../../shaders/shadow.vert.glsl?raw';
import type { Scheme } from './colour.ts';
import { castContactShadow, SHADOW_SIZE } from './contact-shadow.ts';
import { shaderText } from './shader-text.ts';

/** Cosine of the angle between view and the table's normal under which it is seen edge on; chosen by eye. */
const EDGE_ON = 0.2;

function createBackdrop(): Mesh<BufferGeometry, RawShaderMaterial> {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(Float32Array.of(-1, -1, 0, 3, -1, 0, -1, 3, 0), 3));
  const material = new RawShaderMaterial({
    glslVersion: GLSL3, vertexShader: shaderText(backdropVertex), fragmentShader: shaderText(backdropFragment),
    depthTest: false, depthWrite: false,
    uniforms: { u_top: { value: new Vector3() }, u_bottom: { value: new Vector3() } },
  });
  const mesh = new Mesh(geometry, material);
  mesh.frustumCulled = false;
  mesh.renderOrder = -2;
  return mesh;
}

function createShadow(darkness: DataTexture): Mesh<PlaneGeometry, RawShaderMaterial> {
  const material = new RawShaderMaterial({
    glslVersion: GLSL3, vertexShader: shaderText(shadowVertex), fragmentShader: shaderText(shadowFragment),
    depthWrite: false, transparent: true,
    blending: CustomBlending, blendSrc: OneFactor, blendDst: OneMinusSrcAlphaFactor,
    uniforms: { u_darkness: { value: darkness }, u_colour: { value: new Vector3() }, u_strength: { value: 0 } },
  });
  const mesh = new Mesh(new PlaneGeometry(1, 1), material);
  mesh.visible = false;
  mesh.renderOrder = -1;
  return mesh;
}

/** What stands round the sock: the backdrop and the soft shadow on table or floor. */
export class Stage {
  readonly backdrop = createBackdrop();
  readonly shadow: Mesh<PlaneGeometry, RawShaderMaterial>;
  private readonly darkness: DataTexture;
  private isTable = false;

  constructor() {
    const t = new DataTexture(new Uint8Array(SHADOW_SIZE ** 2), SHADOW_SIZE, SHADOW_SIZE, RedFormat, UnsignedByteType);
    t.minFilter = t.magFilter = LinearFilter;
    this.darkness = t;
    this.shadow = createShadow(t);
  }

  setScheme(scheme: Scheme): void {
    (this.backdrop.material.uniforms.u_top.value as Vector3).set(...scheme.backdropTop);
    (this.backdrop.material.uniforms.u_bottom.value as Vector3).set(...scheme.backdropBottom);
    (this.shadow.material.uniforms.u_colour.value as Vector3).set(...scheme.shadow);
    this.shadow.material.uniforms.u_strength.value = scheme.shadowStrength;
  }

  /** Shadow of cloth whose points (three entries each, mm) each stand for `areaMm2`: on a table behind the sock, or on the floor. */
  cast(positions: Float64Array, areaMm2: number, isTable: boolean): void {
    const { centre, sideMm, darkness } = castContactShadow(positions, areaMm2, isTable);
    (this.darkness.image.data as Uint8Array).set(darkness);
    this.darkness.needsUpdate = true;
    this.shadow.position.set(...centre);
    this.shadow.scale.setScalar(sideMm);
    // The plane's own x and y become x and z of the table, or stay as they are on the floor.
    this.shadow.rotation.set(isTable ? Math.PI / 2 : 0, 0, 0);
    this.shadow.visible = true;
    this.isTable = isTable;
  }

  /** Nothing lies or stands: what hangs casts no shadow near. */
  castNothing(): void {
    this.shadow.visible = this.isTable = false;
  }

  /** A table seen edge on would be a dark line beside the sock: its shadow is left out then. */
  face(camera: Camera): void {
    if (this.isTable) this.shadow.visible = Math.abs(camera.getWorldDirection(new Vector3()).y) > EDGE_ON;
  }

  dispose(): void {
    for (const mesh of [this.backdrop, this.shadow]) { mesh.geometry.dispose(); mesh.material.dispose(); }
    this.darkness.dispose();
  }
}
