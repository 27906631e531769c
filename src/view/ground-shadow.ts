import {
  type Camera, CustomBlending, DataTexture, GLSL3, LinearFilter, Mesh, OneFactor, OneMinusSrcAlphaFactor, PlaneGeometry, RawShaderMaterial, RedFormat,
  UnsignedByteType, Vector3,
} from 'three';
import shadow from '../../shaders/_shadow.glsl?raw';
import fragment from '../../shaders/shadow.frag.glsl?raw';
import vertex from '../../shaders/shadow.vert.glsl?raw';
import type { Scheme } from './colour.ts';
import { castContactShadow, SHADOW_SIZE } from './contact-shadow.ts';
import { shaderText } from './shader-text.ts';

/** Cosine of the angle between view and the table's normal under which it is seen edge on; chosen by eye. */
const EDGE_ON = 0.2;

function createTexture(): DataTexture {
  const texture = new DataTexture(new Uint8Array(SHADOW_SIZE ** 2), SHADOW_SIZE, SHADOW_SIZE, RedFormat, UnsignedByteType);
  texture.minFilter = texture.magFilter = LinearFilter;
  return texture;
}

/** The soft shadow of a sock on table or floor. */
export class GroundShadow {
  readonly mesh: Mesh<PlaneGeometry, RawShaderMaterial>;
  private readonly darkness = createTexture();
  private ground: 'table' | 'floor' | 'none' = 'none';

  constructor() {
    this.mesh = new Mesh(new PlaneGeometry(1, 1), new RawShaderMaterial({
      glslVersion: GLSL3, vertexShader: shaderText(vertex), fragmentShader: shaderText(shadow, fragment),
      depthWrite: false, transparent: true,
      blending: CustomBlending, blendSrc: OneFactor, blendDst: OneMinusSrcAlphaFactor,
      uniforms: { u_darkness: { value: this.darkness }, u_colour: { value: new Vector3() }, u_strength: { value: 0 } },
    }));
    this.mesh.visible = false;
    this.mesh.renderOrder = -1;
  }

  setScheme(scheme: Scheme): void {
    const { uniforms } = this.mesh.material;
    (uniforms.u_colour.value as Vector3).set(...scheme.shadow);
    uniforms.u_strength.value = scheme.shadowStrength;
  }

  /** Shadow of cloth whose points (three entries each, mm) each stand for `areaMm2`: on a table behind the sock, or on the floor. */
  cast(positions: Float64Array, areaMm2: number, isTable: boolean): void {
    const { centre, sideMm, darkness } = castContactShadow(positions, areaMm2, isTable);
    (this.darkness.image.data as Uint8Array).set(darkness);
    this.darkness.needsUpdate = true;
    this.mesh.position.set(...centre);
    this.mesh.scale.setScalar(sideMm);
    // The plane's own x and y become x and z of the table, or stay as they are on the floor.
    this.mesh.rotation.set(isTable ? Math.PI / 2 : 0, 0, 0);
    this.ground = isTable ? 'table' : 'floor';
  }

  /** Nothing lies or stands: what hangs casts no shadow near. */
  castNothing(): void { this.ground = 'none'; }

  /** A table seen edge on would be a dark line beside the sock: its shadow is left out then. */
  face(camera: Camera): void {
    this.mesh.visible = this.ground === 'floor' || (this.ground === 'table' && Math.abs(camera.getWorldDirection(new Vector3()).y) > EDGE_ON);
  }

  dispose(): void {
    this.mesh.geometry.dispose();
    this.mesh.material.dispose();
    this.darkness.dispose();
  }
}
