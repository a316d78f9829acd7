/**
 * Broken edges, marks and undercuts in their set-up: where their form cutters (or along an upright edge the side of a
 * mill) stand, and whether those meet what stands round the work. Whether one is on hand is for other rules.
 */
import type { Vec3, Void } from '../../geometry/types';
import type { Feature } from '../../spec/model';
import type { ChamferMill, Tool } from '../../spec/shop-model';
import { depthBelow, inward } from '../column';
import { endMills } from '../cutters';
import { operationsOf } from '../operations';
import { add, dot, ofFrame } from '../section';
import type { Case } from './index';
import { standsIn } from './stands';
import { type Task, tryTools } from './try-tools';
import type { Verdict } from './verdict';

/** A chamfer mill's tip goes so far below the edge it leaves. Common practice, no source. */
const BELOW_MM = 0.5;

type Found = Pick<Verdict, 'uses'> & Partial<Pick<Verdict, 'holder' | 'fixture'>>;

/** What the form cutters of a feature meet; nothing where none is used or on hand. */
export function formed(c: Case, feature: Feature): Found {
  const { cut, part, solid, shop, up } = c;
  const voids = cut.removes.filter((v) => v.role === 'edge' || v.role === 'engraving' || v.role === 'undercut');
  if (voids.length === 0) return { uses: [] };
  const upright = voids.filter((v) => v.role === 'edge' && v.profile.type !== 'taper' && isUpright(v, c));
  if (upright.length > 0) {
    // The slimmest mill meets least.
    const mills = c.asked ? [c.asked] : [...endMills(shop)].reverse();
    return tried(c, mills, upright, (radiusMm) => upright.flatMap((v) => besideEdge(v, c, radiusMm)));
  }
  const planned = operationsOf(feature, part, solid, shop).find(
    (o) => o.does === 'chamfer' || o.does === 'round' || o.does === 'engrave' || o.does === 'undercut',
  );
  const tool = c.asked ?? (planned && planned.does !== 'missing' ? planned.tool : undefined);
  if (!tool) return { uses: [] };
  const stands = (radiusMm: number) =>
    voids.flatMap((v) =>
      v.role === 'undercut'
        ? standsIn(v, c.place, up, radiusMm)
        : v.role === 'engraving'
          ? [middleOf(v, c)]
          : alongEdge(v, c, tool),
    );
  return tried(c, [tool], voids, stands);
}

/** Its sweep runs along the spindle. */
function isUpright(v: Void, { up }: Case): boolean {
  return Math.abs(dot(v.frame.w, inward(up))) > 1 - 1e-6;
}

function tried(
  c: Case,
  tools: readonly Tool[],
  voids: readonly Void[],
  stands: (radiusMm: number) => readonly Vec3[],
): Found {
  const { up, obstacles, topMm, shop } = c;
  const place = c.cut.before;
  const deep = voids.flatMap((v) => [depthBelow(place, up, v.bounds.min), depthBelow(place, up, v.bounds.max)]);
  const tipMm = Math.max(...deep) + (voids.some((v) => v.role === 'edge') ? BELOW_MM : 0);
  const task: Task = {
    up,
    get place() {
      return c.place;
    },
    body: place.body,
    obstacles,
    topMm,
    tipMm,
    does: 'form',
    leastReachMm: 0,
    stands,
  };
  const { use, holder, fixture } = tryTools(tools, task, shop);
  return { uses: use ? [use] : [], ...(fixture && { fixture }), ...(holder && !fixture && { holder }) };
}

/** Beside the middle of an upright edge's slanting side, at its foot. */
function besideEdge(v: Void, { up }: Case, radiusMm: number): readonly Vec3[] {
  const edges = v.region.outer.edges;
  // The side that is cut is the one not on either face: it touches neither u = 0 nor v = 0 along its whole length.
  const side = edges.find(
    (e) =>
      Math.max(Math.abs(e.a.u), Math.abs(e.b.u)) > 1e-9 &&
      Math.abs(e.a.u - e.b.u) > 1e-9 &&
      Math.abs(e.a.v - e.b.v) > 1e-9,
  );
  if (!side) return [];
  const mid = { u: (side.a.u + side.b.u) / 2, v: (side.a.v + side.b.v) / 2 };
  const n = { u: Math.abs(side.a.v - side.b.v), v: Math.abs(side.a.u - side.b.u) };
  const size = Math.hypot(n.u, n.v);
  const foot = dot(v.frame.w, inward(up)) > 0 ? v.to : v.from;
  return [ofFrame(v.frame, mid.u - (n.u / size) * radiusMm, mid.v - (n.v / size) * radiusMm, foot)];
}

/** A chamfer mill along a level edge: outside the side that stands upright, its cone on the edge. */
function alongEdge(v: Void, { up, cut: { before: place } }: Case, tool: Tool): readonly Vec3[] {
  if (v.profile.type !== 'straight' || Math.abs(dot(v.frame.w, inward(up))) > 0.5) return [];
  const down = inward(up);
  // Into the body from the upright side.
  const into = Math.abs(dot(v.frame.u, down)) > 0.5 ? v.frame.v : v.frame.u;
  const half = (('angleDeg' in tool ? ((tool as ChamferMill).angleDeg ?? 90) : 90) / 2) * (Math.PI / 180);
  const tip = 'tipMm' in tool ? tool.tipMm / 2 : tool.diameterMm / 2;
  const out = tip + BELOW_MM * Math.tan(half);
  const low = Math.max(depthBelow(place, up, v.bounds.min), depthBelow(place, up, v.bounds.max)) + BELOW_MM;
  return [0, 0.5, 1].map((k) => {
    const p = add(ofFrame(v.frame, 0, 0, v.from + k * (v.to - v.from)), into, -out);
    return add(p, down, low - depthBelow(place, up, p));
  });
}

function middleOf(v: Void, { up, cut: { before: place } }: Case): Vec3 {
  const { min, max } = v.bounds;
  const p: Vec3 = [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2];
  const low = Math.max(depthBelow(place, up, min), depthBelow(place, up, max));
  return add(p, inward(up), low - depthBelow(place, up, p));
}
