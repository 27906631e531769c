import { type BufferAttribute, BufferGeometry, Group, Mesh, type RawShaderMaterial, type Vector3 } from 'three';
import type { FormMesh } from '../foot/form-mesh.ts';
import { type Scheme, woolColours } from './colour.ts';
import type { Holding } from '../pipeline/result.ts';
import { shapeMachine, TONE } from './machine-shape.ts';
import { createMatteMaterial, instancedGeometry, paintMatte, solidGeometry } from './matte-mesh.ts';
import { meshNormals } from './mesh-normals.ts';
import type { Around } from './sock-view-types.ts';

const TONES = Object.keys(TONE).length;
const NO_POINTS = new Float64Array(0);
/** So far inside its skin the foot is drawn under cloth that hides it, mm: the cloth is drawn straight from loop to loop, which over a sharp bend runs a little under the skin that it lies on. Chosen by eye. */
const UNDER_SKIN_MM = 1.2;

/** What holds the cloth: the needles, rails and weights that it hangs on, or the foot that wears it. */
export class Surroundings {
  readonly group = new Group();
  private readonly needles = new Mesh(new BufferGeometry(), createMatteMaterial({ tones: TONES, isNeedle: true, fades: true }));
  private readonly rails = new Mesh(new BufferGeometry(), createMatteMaterial({ tones: TONES, isNeedle: false, fades: true }));
  private readonly weights = new Mesh(new BufferGeometry(), createMatteMaterial({ tones: TONES, isNeedle: false, fades: false }));
  private readonly body = new Mesh(new BufferGeometry(), createMatteMaterial({ tones: 1, isNeedle: false, fades: false }));
  private shown: Around | null = null;
  private scheme: Scheme | null = null;
  private isShown = true;
  private hasFoot = true;
  private isSeenThrough = false;
  private reach: Float64Array = NO_POINTS;

  constructor() {
    this.meshes().forEach((mesh, order) => {
      mesh.frustumCulled = false;
      mesh.visible = false;
      // Before the cloth, so that what the foot hides is not shaded; what fades comes after all that is solid.
      mesh.renderOrder = mesh === this.body ? -0.5 : 4 + order;
      this.group.add(mesh);
    });
  }

  /** Null takes all away. `cloth`: three entries a vertex, mm. */
  show(around: Around | null, cloth: Float64Array): void {
    const before = this.shown;
    this.shown = around;
    this.paint();
    if (around?.body === before?.body && around?.holding === before?.holding) return;
    if (around?.holding != null && around.holding.needles === before?.holding?.needles) { this.moveOn(around.holding, cloth, around.castOnColour !== null); return; }
    for (const mesh of this.meshes()) {
      mesh.visible = false;
      mesh.geometry.dispose();
    }
    this.reach = NO_POINTS;
    if (around?.body != null) this.showBody(around.body);
    if (around?.holding == null) return;
    const { needle, places, states, size, rails, weights, span, corners } = shapeMachine(around.holding, cloth, around.castOnColour !== null);
    this.needles.geometry = instancedGeometry(needle, places, states);
    this.needles.material.uniforms.u_size.value = size;
    this.rails.geometry = solidGeometry(rails);
    this.weights.geometry = solidGeometry(weights);
    for (const mesh of [this.needles, this.rails]) (mesh.material.uniforms.u_span.value as Vector3).set(...span);
    for (const mesh of [this.needles, this.rails, this.weights]) mesh.visible = true;
    this.reach = corners;
  }

  /** The same needles in other states, and weights that hang elsewhere. */
  private moveOn(holding: Holding, cloth: Float64Array, isCastOn: boolean): void {
    const { states, weights, corners } = shapeMachine(holding, cloth, isCastOn);
    refill(this.needles.geometry, 'a_state', states);
    const { geometry } = this.weights;
    if (geometry.getAttribute('position').array.length === weights.positions.length) {
      refill(geometry, 'position', weights.positions);
      refill(geometry, 'a_normal', weights.normals);
    } else {
      geometry.dispose();
      this.weights.geometry = solidGeometry(weights);
    }
    this.reach = corners;
  }

  /** The foot of a sock whose places are mirrored in y is. */
  setMirrored(isMirrored: boolean): void { this.body.scale.y = isMirrored ? -1 : 1; }

  get hasBody(): boolean { return this.shown?.body != null; }

  /** Points that framing must keep in the picture beside the cloth: three entries each. */
  get corners(): Float64Array { return this.isShown && (this.hasFoot || !this.hasBody) ? this.reach : NO_POINTS; }

  /** Whether any of it is to be seen, and the foot; one that is seen through its sock is drawn with its true skin. */
  setShown(isShown: boolean, hasFoot: boolean, isSeenThrough: boolean): void {
    this.group.visible = this.isShown = isShown;
    this.hasFoot = hasFoot;
    this.body.visible = hasFoot && this.hasBody;
    if (isSeenThrough === this.isSeenThrough) return;
    this.isSeenThrough = isSeenThrough;
    if (this.shown?.body != null) this.showBody(this.shown.body);
  }

  setScheme(scheme: Scheme): void {
    this.scheme = scheme;
    this.paint();
  }

  /** Share of the backdrop's colour, 0..1. */
  setDim(share: number): void {
    for (const { material } of this.meshes()) material.uniforms.u_dim.value = share;
  }

  /** Frees the GPU's part; a later drawing sends it again. */
  dispose(): void {
    for (const mesh of this.meshes()) { mesh.geometry.dispose(); mesh.material.dispose(); }
  }

  private paint(): void {
    const { scheme } = this;
    if (scheme === null) return;
    const tones = [...scheme.machine, ...woolColours([this.shown?.castOnColour ?? ''])];
    for (const mesh of [this.needles, this.rails, this.weights]) paintMatte(mesh.material, scheme, tones);
    paintMatte(this.body.material, scheme, [scheme.body]);
  }

  private showBody({ positions, triangles }: FormMesh): void {
    const skin = Float32Array.from(positions), normals = meshNormals(skin, triangles);
    const places = this.isSeenThrough ? skin : skin.map((at, i) => at - UNDER_SKIN_MM * normals[i]);
    this.body.geometry.dispose();
    this.body.geometry = solidGeometry({ positions: places, normals, tones: new Float32Array(places.length / 3), index: triangles });
    this.body.visible = this.hasFoot;
    this.reach = positions;
  }

  private meshes(): Mesh<BufferGeometry, RawShaderMaterial>[] { return [this.body, this.needles, this.rails, this.weights]; }
}

function refill(geometry: BufferGeometry, name: string, values: Float32Array): void {
  const attribute = geometry.getAttribute(name) as BufferAttribute;
  attribute.array.set(values);
  attribute.needsUpdate = true;
}
