/**
 * A thin rectangular plate by finite elements: an oracle for plates that shares nothing with their tables. The rectangle
 * of twelve degrees of freedom (Adini and Clough 1960, Melosh 1963; O. C. Zienkiewicz, The Finite Element Method, from memory):
 * deflection and both slopes at each corner, cubic along the edges.
 */
export type Edge = 'clamped' | 'supported' | 'free';

interface PlateCase {
  readonly sides: readonly [number, number];
  /** At x = 0, x = a, y = 0, y = b. */
  readonly edges: readonly [Edge, Edge, Edge, Edge];
  /** Where the force of 1 acts, as shares of the sides: on a node. */
  readonly at: readonly [number, number];
  readonly poisson: number;
  readonly cells: readonly [number, number];
}

const POWERS = [
  [0, 0],
  [1, 0],
  [0, 1],
  [2, 0],
  [1, 1],
  [0, 2],
  [3, 0],
  [2, 1],
  [1, 2],
  [0, 3],
  [3, 1],
  [1, 3],
] as const;

/** A derivative of every term at a place. */
function terms(x: number, y: number, dx: number, dy: number): number[] {
  const one = (power: number, at: number, times: number) => {
    let factor = 1;
    for (let i = 0; i < times; i++) factor *= power - i;
    return factor === 0 ? 0 : factor * at ** (power - times);
  };
  return POWERS.map(([p, q]) => one(p, x, dx) * one(q, y, dy));
}

function inverse(m: readonly (readonly number[])[]): number[][] {
  const n = m.length;
  const rows = m.map((r, i) => [...r, ...Array.from({ length: n }, (_, k) => (k === i ? 1 : 0))]);
  for (let i = 0; i < n; i++) {
    let best = i;
    for (let k = i + 1; k < n; k++) if (Math.abs(rows[k]![i]!) > Math.abs(rows[best]![i]!)) best = k;
    [rows[i], rows[best]] = [rows[best]!, rows[i]!];
    const pivot = rows[i]![i]!;
    rows[i] = rows[i]!.map((x) => x / pivot);
    for (let k = 0; k < n; k++) {
      const by = rows[k]![i]!;
      if (k !== i && by !== 0) rows[k] = rows[k]!.map((x, j) => x - by * rows[i]![j]!);
    }
  }
  return rows.map((r) => r.slice(n));
}

function elementStiffness(a: number, b: number, poisson: number): number[][] {
  const corners = [
    [0, 0],
    [a, 0],
    [a, b],
    [0, b],
  ] as const;
  const inv = inverse(corners.flatMap(([x, y]) => [terms(x, y, 0, 0), terms(x, y, 1, 0), terms(x, y, 0, 1)]));
  const k = Array.from({ length: 12 }, () => new Array<number>(12).fill(0));
  const gauss = [
    [0.5 - Math.sqrt(0.15), 5 / 18],
    [0.5, 8 / 18],
    [0.5 + Math.sqrt(0.15), 5 / 18],
  ] as const;
  for (const [gx, wx] of gauss)
    for (const [gy, wy] of gauss) {
      const [xx, yy, xy] = (
        [
          [2, 0],
          [0, 2],
          [1, 1],
        ] as const
      ).map(([dx, dy]) => {
        const t = terms(gx * a, gy * b, dx, dy);
        return inv[0]!.map((_, j) => t.reduce((s, v, i) => s + v * inv[i]![j]!, 0));
      }) as [number[], number[], number[]];
      for (let i = 0; i < 12; i++)
        for (let j = 0; j < 12; j++) {
          const bend = xx[i]! * xx[j]! + yy[i]! * yy[j]! + poisson * (xx[i]! * yy[j]! + yy[i]! * xx[j]!);
          k[i]![j]! += (bend + 2 * (1 - poisson) * xy[i]! * xy[j]!) * wx * wy * a * b;
        }
    }
  return k;
}

/** How far the place of the force gives way, for a stiffness D of 1. */
export function deflectionUnderForce({ sides, edges, at, poisson, cells: [nx, ny] }: PlateCase): number {
  const k = elementStiffness(sides[0] / nx, sides[1] / ny, poisson);
  const node = (i: number, j: number) => i * (ny + 1) + j;
  const size = 3 * (nx + 1) * (ny + 1);
  const band = 3 * (ny + 3);
  const rows = Array.from({ length: size }, () => new Float64Array(band));
  for (let i = 0; i < nx; i++)
    for (let j = 0; j < ny; j++) {
      const of = [node(i, j), node(i + 1, j), node(i + 1, j + 1), node(i, j + 1)].flatMap((n) => [
        3 * n,
        3 * n + 1,
        3 * n + 2,
      ]);
      of.forEach((r, p) => {
        of.forEach((c, q) => {
          if (c >= r) rows[r]![c - r]! += k[p]![q]!;
        });
      });
    }
  const fix = (dof: number) => {
    rows[dof]![0]! += 1e14;
  };
  for (let i = 0; i <= nx; i++)
    for (let j = 0; j <= ny; j++) {
      const on = [i === 0, i === nx, j === 0, j === ny];
      on.forEach((is, e) => {
        const edge = edges[e];
        if (!is || edge === 'free') return;
        const n = 3 * node(i, j);
        fix(n);
        // Along a supported edge the slope is nought as well; across it the plate may turn.
        if (edge === 'clamped' || e >= 2) fix(n + 1);
        if (edge === 'clamped' || e < 2) fix(n + 2);
      });
    }
  const loaded = 3 * node(Math.round(at[0] * nx), Math.round(at[1] * ny));
  return solved(rows, band, loaded);
}

/** Of a banded symmetric system (upper half, by rows) with a force of 1 on one unknown: that unknown. */
function solved(rows: readonly Float64Array[], band: number, loaded: number): number {
  const size = rows.length;
  const x = new Float64Array(size);
  x[loaded] = 1;
  for (let i = 0; i < size; i++) {
    const row = rows[i]!;
    for (let j = 1; j < band && i + j < size; j++) {
      const by = row[j]! / row[0]!;
      if (by === 0) continue;
      const below = rows[i + j]!;
      for (let q = j; q < band; q++) below[q - j]! -= by * row[q]!;
      x[i + j]! -= by * x[i]!;
    }
  }
  for (let i = size - 1; i >= loaded; i--) {
    const row = rows[i]!;
    for (let j = 1; j < band && i + j < size; j++) x[i]! -= row[j]! * x[i + j]!;
    x[i]! /= row[0]!;
  }
  return x[loaded]!;
}
