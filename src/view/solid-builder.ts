/** Points, outward normals (three entries a point) and triangles of plain solids; one tone a point. */
export interface Solid {
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  readonly tones: Float32Array;
  readonly index: Uint32Array;
}

export type Place = readonly [number, number, number];

function subtract(a: Place, b: Place): Place { return [a[0] - b[0], a[1] - b[1], a[2] - b[2]]; }
function cross(a: Place, b: Place): Place { return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]; }
function unit(a: Place): Place {
  const length = Math.sqrt(a[0] ** 2 + a[1] ** 2 + a[2] ** 2) || 1;
  return [a[0] / length, a[1] / length, a[2] / length];
}

/** Puts solids together into one set of buffers. */
export class SolidBuilder {
  private readonly positions: number[] = [];
  private readonly normals: number[] = [];
  private readonly tones: number[] = [];
  private readonly index: number[] = [];

  /** A round bar along a line that bends in one plane or not at all, `across` being a unit vector that is never along it; ends closed. */
  addBar(line: readonly Place[], radius: number, sides: number, across: Place, tone: number): void {
    const rings = line.map((at, i) => {
      const way = unit(subtract(line[Math.min(i + 1, line.length - 1)], line[Math.max(i - 1, 0)]));
      const u = unit(cross(across, way)), v = cross(way, u);
      return Array.from({ length: sides }, (_, k) => {
        const c = Math.cos(2 * Math.PI * k / sides), s = Math.sin(2 * Math.PI * k / sides);
        const normal: Place = [c * u[0] + s * v[0], c * u[1] + s * v[1], c * u[2] + s * v[2]];
        return { at: [at[0] + radius * normal[0], at[1] + radius * normal[1], at[2] + radius * normal[2]] as const, normal };
      });
    });
    const first = this.count();
    for (const ring of rings) for (const { at, normal } of ring) this.addPoint(at, normal, tone);
    this.addWalls(first, rings.length, sides);
    const ways = [subtract(line[0], line[1]), subtract(line[line.length - 1], line[line.length - 2])].map(unit);
    this.addLid(rings[0].map(({ at }) => at).reverse(), ways[0], tone);
    this.addLid(rings[rings.length - 1].map(({ at }) => at), ways[1], tone);
  }

  /** A body turned about an upright axis through `at`: radii and heights over it, from the top down. */
  addTurned(at: Place, profile: readonly (readonly [radius: number, height: number])[], sides: number, tone: number): void {
    const first = this.count();
    profile.forEach(([radius, height], i) => {
      const before = profile[Math.max(0, i - 1)], after = profile[Math.min(profile.length - 1, i + 1)];
      const out = unit([before[1] - after[1], 0, after[0] - before[0]]);
      for (let k = 0; k < sides; k++) {
        const c = Math.cos(2 * Math.PI * k / sides), s = Math.sin(2 * Math.PI * k / sides);
        this.addPoint([at[0] + radius * c, at[1] + radius * s, at[2] + height], [out[0] * c, out[0] * s, out[2]], tone);
      }
    });
    this.addWalls(first, profile.length, sides, true);
  }

  /** A bar along x of any convex section, its corners (y, z) counter-clockwise as seen from +x; hard edges. */
  addRail(fromX: number, toX: number, corners: readonly (readonly [number, number])[], tone: number): void {
    corners.forEach(([y, z], k) => {
      const [nextY, nextZ] = corners[(k + 1) % corners.length], normal = unit([0, nextZ - z, y - nextY]), first = this.count();
      for (const [x, py, pz] of [[fromX, y, z], [toX, y, z], [toX, nextY, nextZ], [fromX, nextY, nextZ]]) this.addPoint([x, py, pz], normal, tone);
      this.index.push(first, first + 2, first + 1, first, first + 3, first + 2);
    });
    this.addLid(corners.map(([y, z]): Place => [toX, y, z]), [1, 0, 0], tone);
    this.addLid(corners.map(([y, z]): Place => [fromX, y, z]).reverse(), [-1, 0, 0], tone);
  }

  build(): Solid {
    return {
      positions: Float32Array.from(this.positions), normals: Float32Array.from(this.normals),
      tones: Float32Array.from(this.tones), index: Uint32Array.from(this.index),
    };
  }

  private count(): number { return this.tones.length; }

  private addPoint(at: Place, normal: Place, tone: number): void {
    this.positions.push(...at);
    this.normals.push(...normal);
    this.tones.push(tone);
  }

  /** Rings of points one after another; `isDownward`: each ring goes round against the clock as seen from the ring after it. */
  private addWalls(first: number, rings: number, sides: number, isDownward = false): void {
    for (let ring = 0; ring + 1 < rings; ring++) {
      for (let k = 0; k < sides; k++) {
        const a = first + ring * sides + k, b = first + ring * sides + (k + 1) % sides;
        if (isDownward) this.index.push(a, a + sides, b, b, a + sides, b + sides);
        else this.index.push(a, b, a + sides, b, b + sides, a + sides);
      }
    }
  }

  private addLid(points: readonly Place[], normal: Place, tone: number): void {
    const first = this.count();
    for (const at of points) this.addPoint(at, normal, tone);
    for (let k = 1; k + 1 < points.length; k++) this.index.push(first, first + k, first + k + 1);
  }
}
