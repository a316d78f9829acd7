/**
 * Distances over a sheet of unequal cells, exact between their middles: the lower envelope of parabolas, once along each
 * axis (a distance transform of sampled functions; textbook method).
 */
export interface Sheet {
  /** Middles of the cells along both axes, rising. */
  readonly a: Float64Array;
  readonly b: Float64Array;
}
const FAR = 1e12;

/** For each cell the least of `start` + the square of its distance to any cell. In place. Index = ia + ib · |a|. */
function spread(s: Sheet, value: Float64Array): void {
  const [na, nb] = [s.a.length, s.b.length];
  const n = Math.max(na, nb);
  const [f, v, z] = [new Float64Array(n), new Int32Array(n), new Float64Array(n + 1)];
  for (let ib = 0; ib < nb; ib++) along(value, ib * na, 1, na, s.a, f, v, z);
  for (let ia = 0; ia < na; ia++) along(value, ia, na, nb, s.b, f, v, z);
}

function along(
  value: Float64Array,
  from: number,
  step: number,
  n: number,
  x: Float64Array,
  f: Float64Array,
  v: Int32Array,
  z: Float64Array,
): void {
  let k = -1;
  for (let q = 0; q < n; q++) {
    const fq = value[from + q * step]!;
    f[q] = fq;
    if (fq >= FAR) continue;
    const xq = x[q]!;
    let cross = Number.NEGATIVE_INFINITY;
    while (k >= 0) {
      const xv = x[v[k]!]!;
      cross = (fq + xq * xq - f[v[k]!]! - xv * xv) / (2 * (xq - xv));
      if (cross > z[k]!) break;
      k--;
    }
    if (k < 0) cross = Number.NEGATIVE_INFINITY;
    k++;
    v[k] = q;
    z[k] = cross;
    z[k + 1] = Number.POSITIVE_INFINITY;
  }
  if (k < 0) return;
  let at = 0;
  for (let q = 0; q < n; q++) {
    while (z[at + 1]! < x[q]!) at++;
    const d = x[q]! - x[v[at]!]!;
    value[from + q * step] = d * d + f[v[at]!]!;
  }
}

/** Distance of every cell to the nearest marked one; infinite (1e6) where none is. */
export function distanceTo(s: Sheet, marked: Uint8Array): Float64Array {
  const d = new Float64Array(marked.length);
  let any = false;
  for (let i = 0; i < d.length; i++) {
    d[i] = marked[i] ? 0 : FAR;
    if (marked[i]) any = true;
  }
  if (!any) return d.fill(1e6);
  spread(s, d);
  for (let i = 0; i < d.length; i++) d[i] = Math.sqrt(d[i]!);
  return d;
}

/** Cells within a disc of the given radius about each centre; negative radii are no disc. */
export function covered(s: Sheet, radius: Float64Array): Uint8Array {
  const d = new Float64Array(radius.length);
  let any = false;
  for (let i = 0; i < d.length; i++) {
    const r = radius[i]!;
    d[i] = r > 0 ? -r * r : FAR;
    if (r > 0) any = true;
  }
  const out = new Uint8Array(radius.length);
  if (!any) return out;
  spread(s, d);
  for (let i = 0; i < d.length; i++) if (d[i]! < 1e-9) out[i] = 1;
  return out;
}
