/**
 * Points inside removed volumes, for quick answers: one point that only this volume takes proves that it takes
 * something, without working any volume out. Only where no point proves it is the exact volume asked for.
 */
import { pointAt, tangentAt } from '../../geometry/2d/edge';
import { rectOf, windingOf } from '../../geometry/2d/inside';
import { regionEdges } from '../../geometry/2d/moments';
import { nearTo } from '../../geometry/solid/near';
import { holds } from '../../geometry/solid/prism';
import type { Point2, Solid, Vec3, Void } from '../../geometry/types';
import { boxesMeet } from '../../geometry/vector';
import { memo } from '../../memo';
import type { Workpiece } from '../../process/stock';
import { isMaterial } from '../../process/stock/in-process-stock';
import { inPart } from './voids';

/** How far inside the outline the points along it stand, mm. */
const IN = 0.02;
const GRID = 6;
const DEPTHS = [0.985, 0.5, 0.015];

/** Points spread over a volume, and close inside its outline; all of them in it. Made as they are asked for: mostly the first will do. */
function* samplesOf(v: Void): Iterable<Vec3> {
  for (const { u, v: across } of planeSamples(v)) {
    for (const share of DEPTHS) {
      const p = inPart(v.frame, u, across, v.from + (v.to - v.from) * share);
      if (holds(v, p)) yield p;
    }
  }
}

function* planeSamples(v: Void): Iterable<Point2> {
  const edges = regionEdges(v.region);
  for (const e of edges) {
    for (const t of [0.13, 0.5, 0.81]) {
      const p = pointAt(e, t);
      const d = tangentAt(e, p);
      yield { u: p.u - d.v * IN, v: p.v + d.u * IN };
    }
  }
  const r = rectOf(edges);
  for (let i = 0; i < GRID; i++) {
    for (let j = 0; j < GRID; j++) {
      const p = { u: r.u0 + ((i + 0.47) / GRID) * (r.u1 - r.u0), v: r.v0 + ((j + 0.53) / GRID) * (r.v1 - r.v0) };
      if (windingOf(edges, p.u, p.v) !== 0) yield p;
    }
  }
}

function some(points: Iterable<Vec3>, is: (p: Vec3) => boolean): boolean {
  for (const p of points) if (is(p)) return true;
  return false;
}

function inBody({ body }: Solid, p: Vec3): boolean {
  const { min, max } = body.box;
  for (const i of [0, 1, 2] as const) if (p[i] <= min[i] || p[i] >= max[i]) return false;
  if (body.form === 'box') return true;
  const [a, b] = [0, 1, 2].filter((i) => i !== body.axis) as [0 | 1 | 2, 0 | 1 | 2];
  return Math.hypot(p[a] - (min[a] + max[a]) / 2, p[b] - (min[b] + max[b]) / 2) < body.radius;
}

/** Whether the volume takes anything of the body. */
export const takesSomething = memo(
  (v: Void, solid: Solid, nothingMm3: number): boolean =>
    boxesMeet(v.bounds, solid.body.box) &&
    (some(samplesOf(v), (p) => inBody(solid, p)) || solid.insideMm3(v) > nothingMm3),
  { by: (_, { body }, nothingMm3) => [body, nothingMm3] },
);

/** Whether the volume takes anything that no other takes. */
export function takesAlone(v: Void, solid: Solid, nothingMm3: number): boolean {
  if (!boxesMeet(v.bounds, solid.body.box)) return false;
  const others = nearTo(solid.voids, v.bounds).filter((w) => w !== v && boxesMeet(v.bounds, w.bounds));
  return isAloneSomewhere(v, others, solid) || solid.aloneMm3(v) > nothingMm3;
}

/** No point that is looked at in it is material. */
export function isAir(v: Void, work: Workpiece): boolean {
  return !some(samplesOf(v), (p) => isMaterial(work, p));
}

/** A point that no other takes proves it, and goes on doing so as long as the others that it meets are the same. */
const isAloneSomewhere = memo(
  (v: Void, others: readonly Void[], solid: Solid): boolean =>
    some(samplesOf(v), (p) => inBody(solid, p) && !others.some((w) => holds(w, p))),
  { by: (_, others, { body }) => [others, body] },
);

/** Whether two volumes share more than so much; quickly no where their boxes do not meet. */
export function takeTheSame(a: Void, b: Void, solid: Solid, nothingMm3: number): boolean {
  if (!boxesMeet(a.bounds, b.bounds)) return false;
  const both = some(samplesOf(a), (p) => holds(b, p) && inBody(solid, p));
  return both || solid.sharedMm3(a, b) > nothingMm3;
}
