import {
  BufferAttribute, Group, GLSL3, InstancedBufferAttribute, InstancedBufferGeometry, Mesh, RawShaderMaterial,
  Vector2, Vector3, type PerspectiveCamera,
} from 'three';
import fragment from '../../shaders/line.frag.glsl?raw';
import vertex from '../../shaders/line.vert.glsl?raw';
import type { Rgb, Scheme } from './colour.ts';
import { lineSegments, middleOfLine } from './line-segments.ts';
import { shaderText } from './shader-text.ts';

const WIDTH_PIXELS = 7;
const DASH_MM = 5;
/** How far the line is drawn in front of the cloth it lies on, mm: about a yarn's thickness. */
const LIFT_MM = 2.5;

interface Pass { readonly inset: number; readonly dashMm: number; readonly isHiddenToo: boolean; readonly colour: (s: Scheme) => Rgb }

function between(a: Rgb, b: Rgb, t: number): Rgb {
  return [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t, a[2] + (b[2] - a[2]) * t];
}

/** First the whole line, pale and dashed, over everything; then the seen part's edge and core over it. */
const PASSES: readonly Pass[] = [
  { inset: 1.4, dashMm: DASH_MM, isHiddenToo: true, colour: (s) => between(s.line, s.lineEdge, 0.4) },
  { inset: 0, dashMm: 0, isHiddenToo: false, colour: (s) => s.lineEdge },
  { inset: 1.6, dashMm: 0, isHiddenToo: false, colour: (s) => s.line },
];

function createMaterial(pass: Pass): RawShaderMaterial {
  return new RawShaderMaterial({
    glslVersion: GLSL3, vertexShader: shaderText(vertex), fragmentShader: shaderText(fragment),
    transparent: true, depthWrite: false, depthTest: !pass.isHiddenToo,
    uniforms: {
      u_viewport: { value: new Vector2(1, 1) }, u_width: { value: WIDTH_PIXELS }, u_near: { value: 1 },
      u_lift: { value: LIFT_MM }, u_inset: { value: pass.inset }, u_dashMm: { value: pass.dashMm },
      u_colour: { value: new Vector3() },
    },
  });
}

/** Shares of the picture from the left and the top, and a step along the line in the same shares. */
export interface PlaceInPicture { readonly x: number; readonly y: number; readonly alongX: number; readonly alongY: number }

/** A measure's line over the sock: seen parts solid, hidden ones pale and dashed, a dot at each open end. */
export class MeasureLine {
  readonly group = new Group();
  private readonly meshes = PASSES.map((pass, i) => {
    const mesh = new Mesh(new InstancedBufferGeometry(), createMaterial(pass));
    mesh.frustumCulled = false;
    mesh.renderOrder = 10 + i;
    return mesh;
  });
  private middle: Float64Array | null = null;

  constructor() {
    this.group.visible = false;
    this.group.add(...this.meshes);
  }

  /** Points three entries each, mm; null hides the line. */
  show(points: Float64Array | null): void {
    this.meshes[0].geometry.dispose();
    this.group.visible = points !== null && points.length >= 6;
    this.middle = null;
    if (!points || !this.group.visible) return;
    const { from, to, span } = lineSegments(points);
    const geometry = new InstancedBufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(Float32Array.of(0, -1, 0, 1, -1, 0, 1, 1, 0, 0, 1, 0), 3));
    geometry.setIndex([0, 1, 2, 0, 2, 3]);
    geometry.setAttribute('a_from', new InstancedBufferAttribute(from, 3));
    geometry.setAttribute('a_to', new InstancedBufferAttribute(to, 3));
    geometry.setAttribute('a_span', new InstancedBufferAttribute(span, 3));
    geometry.instanceCount = span.length / 3;
    for (const mesh of this.meshes) mesh.geometry = geometry;
    this.middle = middleOfLine(points);
  }

  setScheme(scheme: Scheme): void {
    PASSES.forEach((pass, i) => { (this.meshes[i].material.uniforms.u_colour.value as Vector3).set(...pass.colour(scheme)); });
  }

  /** Width and height of the picture in pixels of the screen, and pixels for each of CSS. */
  setViewport(width: number, height: number, ratio: number, near: number): void {
    for (const { material } of this.meshes) {
      (material.uniforms.u_viewport.value as Vector2).set(width * ratio, height * ratio);
      material.uniforms.u_width.value = WIDTH_PIXELS * ratio;
      material.uniforms.u_near.value = near;
    }
    PASSES.forEach((pass, i) => { this.meshes[i].material.uniforms.u_inset.value = pass.inset * ratio; });
  }

  /** Place and direction of the line's middle in the picture; null if there is no line in front of the eye. */
  middleInPicture(camera: PerspectiveCamera): PlaceInPicture | null {
    if (!this.middle) return null;
    const place = (from: number): Vector3 => this.group.localToWorld(new Vector3().fromArray(this.middle ?? [], from)).project(camera);
    const at = place(0), ahead = place(3);
    if (at.z > 1 || at.z < -1) return null;
    return { x: 0.5 + 0.5 * at.x, y: 0.5 - 0.5 * at.y, alongX: 0.5 * (ahead.x - at.x), alongY: -0.5 * (ahead.y - at.y) };
  }

  dispose(): void {
    for (const mesh of this.meshes) { mesh.geometry.dispose(); mesh.material.dispose(); }
  }
}
