/** Points of space put into boxes of one size, so that those near a place are found at once. */
export class Boxes {
  /** Points by box: those of slot s are members[start[s]] up to members[start[s + 1]]. */
  readonly members: Int32Array;
  private readonly start: Int32Array;
  private readonly size: number;
  private readonly mask: number;
  private readonly slots = new Int32Array(27);

  /** `at` has `stride` entries a point, x, y, z first. */
  constructor(at: Float64Array, stride: number, count: number, size: number) {
    this.size = size;
    let slots = 64;
    while (slots < 2 * count) slots *= 2;
    this.mask = slots - 1;
    const slotOf = new Int32Array(count), start = this.start = new Int32Array(slots + 1);
    for (let i = 0; i < count; i++) {
      const s = slotOf[i] = this.slotOf(Math.floor(at[stride * i] / size), Math.floor(at[stride * i + 1] / size), Math.floor(at[stride * i + 2] / size));
      start[s + 1]++;
    }
    for (let s = 1; s <= slots; s++) start[s] += start[s - 1];
    const fill = start.slice(0, slots);
    this.members = new Int32Array(count);
    for (let i = 0; i < count; i++) this.members[fill[slotOf[i]]++] = i;
  }

  /** Runs of `members` that hold all points within a box's size of a place, and some others: two entries a run into `out` (54 at least); how many entries. */
  runsInto(out: Int32Array, x: number, y: number, z: number): number {
    const { size, slots, start } = this, i = Math.floor(x / size), j = Math.floor(y / size), k = Math.floor(z / size);
    let found = 0, n = 0;
    for (let box = 0; box < 27; box++) {
      const slot = this.slotOf(i + (box % 3) - 1, j + (((box / 3) | 0) % 3) - 1, k + ((box / 9) | 0) - 1);
      if (start[slot] === start[slot + 1]) continue;
      // Boxes far apart may share a slot; none is to be looked into twice.
      let known = 0;
      while (known < found && slots[known] !== slot) known++;
      if (known < found) continue;
      slots[found++] = slot;
      out[n++] = start[slot];
      out[n++] = start[slot + 1];
    }
    return n;
  }

  /** A box's place in the table: its numbers mixed by large odd factors (Teschner M. et al., Optimized Spatial Hashing, VMV 2003). */
  private slotOf(i: number, j: number, k: number): number {
    return (Math.imul(i, 73856093) ^ Math.imul(j, 19349663) ^ Math.imul(k, 83492791)) & this.mask;
  }
}
