/** The edges of triangles by their two sides: each is walked once each way, by the two triangles that meet in it. */

/** Called for each edge: `t` walks it from `a` to `b`, `u` back. Those that only one triangle has are left out. */
export function eachEdge(
  corners: Uint32Array,
  count: number,
  met: (t: number, u: number, a: number, b: number) => void,
): void {
  // half edges that wait for their other half, in a table of open addresses
  const size = 1 << Math.ceil(Math.log2(6 * count + 2));
  const mask = size - 1;
  const from = new Int32Array(size).fill(-1);
  const to = new Int32Array(size);
  const triangle = new Int32Array(size);
  for (let t = 0; t < count; t++) {
    for (let c = 0; c < 3; c++) {
      const a = corners[3 * t + c]!;
      const b = corners[3 * t + (c === 2 ? 0 : c + 1)]!;
      const low = Math.min(a, b);
      const high = Math.max(a, b);
      const h = Math.imul(low, 0x9e3779b1) ^ Math.imul(high, 0x85ebca6b);
      let slot = (h ^ (h >>> 15)) & mask;
      while (from[slot] !== -1 && !(from[slot] === low && to[slot] === high)) slot = (slot + 1) & mask;
      if (from[slot] === -1 || triangle[slot] === -1) {
        from[slot] = low;
        to[slot] = high;
        triangle[slot] = t;
        continue;
      }
      const u = triangle[slot]!;
      triangle[slot] = -1;
      met(t, u, a, b);
    }
  }
}
