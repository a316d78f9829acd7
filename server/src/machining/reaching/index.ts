/**
 * Reaching in a set-up: for every cut, on the workpiece as it is then, the tool that gets there without its shank or holder
 * meeting the work, a jaw, the stop or a clamp; or what is in the way. Kept as long as what a tool can meet stays the same.
 */
import type { Solid, Void } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { FACE_AXIS, type Face, type Feature, OPPOSITE, type Part } from '../../spec/model';
import type { Shop, Tool } from '../../spec/shop-model';
import { approachesOf } from '../approach';
import { seatingOf } from '../seating';
import { extremeOf } from '../workpiece/left';
import { timelineOf } from '../workpiece/timeline';
import type { Cut, SetupInTime, Timeline, Workpiece } from '../workpiece/types';
import { toolAskedFor } from './candidates';
import { facing } from './facing';
import { drilled } from './holes';
import { milled } from './milled';
import { formed } from './others';
import type { ToolUse, Verdict } from './verdict';

export type * from './verdict';

/** What is handed to each way of judging. */
export interface Case {
  readonly cut: Cut;
  readonly up: Face;
  readonly part: Part;
  readonly solid: Solid;
  readonly shop: Shop;
  /** The workpiece without this cut's own volumes and only what a tool here can meet. */
  readonly place: Workpiece;
  /** The same before the cut. */
  readonly before: Workpiece;
  readonly topMm: number;
  readonly obstacles: NonNullable<ReturnType<typeof seatingOf>>['obstacles'];
  readonly asked: Tool | undefined;
  /** Also cut from the other side, in another set-up: half of it is enough here. */
  readonly half: boolean;
}

/** Nothing wider than this turns on a spindle here, mm from its axis: what is farther off cannot be met. */
const WIDEST_MM = 60;
const KEEP = 8;
interface Kept {
  readonly from: readonly unknown[];
  readonly made: Verdict;
}
const kept = new WeakMap<Void, Kept[]>();

/** Undefined where nothing can be said: no face up, held at an angle, not to be got at from there, or nothing removed. */
export function verdictOf(cut: Cut, of: SetupInTime, part: Part, solid: Solid, shop: Shop): Verdict | undefined {
  const first = cut.removes[0];
  const { up } = of;
  if (!first || !up || of.setup.hold?.type === 'angle') return undefined;
  if (cut.feature && !approachesOf(cut.feature, part, solid).includes(up)) return undefined;
  if (cut.face && cut.face === OPPOSITE[up]) return undefined;
  const near = nearby(cut, up);
  const seating = seatingOf(of, part, shop);
  const obstacles = (seating?.obstacles ?? []).filter((o) => o.what !== 'parallel' || cut.feature?.kind !== 'hole');
  const asked = toolAskedFor(of.setup, cut.name, shop);
  const half = cut.feature !== undefined && fromBothSides(cut.feature, up, part);
  const topMm = topOf(cut.after, up);
  const boxes = obstacles.map((o) => `${o.what} ${o.box.min.join()} ${o.box.max.join()}`).join(';');
  const from = [
    part.material?.name,
    part.tolerance?.name,
    solid.body,
    shop,
    up,
    asked,
    half,
    topMm,
    boxes,
    cut.feature,
    ...cut.removes,
    0,
    ...near,
  ];
  const known = kept.get(first) ?? [];
  const hit = known.find((k) => k.from.length === from.length && k.from.every((x, i) => x === from[i]));
  if (hit) return hit.made.cut === cut ? hit.made : { ...hit.made, cut };
  const { place, before } = placesOf(cut, near);
  const made = judge({ cut, up, part, solid, shop, place, before, topMm, obstacles, asked, half });
  kept.set(first, [...known.slice(1 - KEEP), { from, made }]);
  return made;
}

interface Places {
  readonly body: Workpiece['body'];
  readonly removes: readonly Void[];
  readonly near: readonly Void[];
  readonly place: Workpiece;
  readonly before: Workpiece;
}
const places = new WeakMap<Void, Places[]>();

/** The work about a cut, without and with what it takes: the same objects as long as they are the same in shape. */
function placesOf(cut: Cut, near: readonly Void[]): Places {
  const { body } = cut.before;
  const known = places.get(cut.removes[0]!) ?? [];
  const hit = known.find((k) => k.body === body && same(k.removes, cut.removes) && same(k.near, near));
  if (hit) return hit;
  const own = new Set(cut.removes);
  const others = near.filter((v) => !own.has(v));
  const made: Places = {
    body,
    removes: cut.removes,
    near,
    place: { body, voids: [...others, ...cut.removes] },
    before: { body, voids: others },
  };
  places.set(cut.removes[0]!, [...known.slice(1 - KEEP), made]);
  return made;
}

function same(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((x, i) => x === b[i]);
}

const all = new WeakMap<Timeline, { readonly part: Part; readonly shop: Shop; readonly made: readonly Verdict[] }>();

/** Every cut's verdict, set-up by set-up; of those that are not settled. */
export function verdictsOf(part: Part, solid: Solid, shop: Shop): readonly Verdict[] {
  const timeline = timelineOf(part, solid);
  const known = all.get(timeline);
  if (known?.part === part && known.shop === shop) return known.made;
  const made = timeline.setups.slice(part.settled ?? 0).flatMap((s) => s.cuts.flatMap((c) => verdictOf(c, s, part, solid, shop) ?? []));
  all.set(timeline, { part, shop, made });
  return made;
}

/** The tools that a cut would be made with, each with how far it stands out; none where nothing on hand does it. */
export function toolFor(cut: Cut, of: SetupInTime, part: Part, solid: Solid, shop: Shop): readonly ToolUse[] {
  return verdictOf(cut, of, part, solid, shop)?.uses ?? [];
}

function judge(c: Case): Verdict {
  if (c.cut.face) return facing(c, c.cut.face);
  const { feature } = c.cut;
  if (feature?.kind === 'hole') return drilled(c, feature);
  if (!feature) return { cut: c.cut, up: c.up, uses: [], asked: false };
  const made = milled(c, feature);
  if (made.short || made.holder || made.fixture) return made;
  const { uses, holder, fixture } = formed(c, feature);
  return { ...made, uses: [...made.uses, ...uses], ...(holder && { holder }), ...(fixture && { fixture }) };
}

/** Also listed in a set-up with the opposite face up. */
function fromBothSides(feature: Feature, up: Face, part: Part): boolean {
  return (part.setups ?? []).some((s) => s.up?.name === OPPOSITE[up] && s.cuts.some((c) => c.name === feature.name));
}

/** Volumes gone before that a tool at this cut can come near: anywhere along the spindle, but within its reach in plan. */
function nearby(cut: Cut, up: Face): readonly Void[] {
  const axis = AXIS_INDEX[FACE_AXIS[up].axis];
  const sides = ([0, 1, 2] as const).filter((i) => i !== axis);
  return cut.before.voids.filter((v) =>
    cut.removes.some((r) =>
      sides.every(
        (i) => v.bounds.min[i] <= r.bounds.max[i] + WIDEST_MM && v.bounds.max[i] >= r.bounds.min[i] - WIDEST_MM,
      ),
    ),
  );
}

/** Depth of the highest material below the stock's own plane. */
function topOf(w: Workpiece, up: Face): number {
  const { axis, sign } = FACE_AXIS[up];
  const i = AXIS_INDEX[axis];
  const { min, max } = w.body.box;
  const at = extremeOf(w, i, sign > 0 ? -1 : 1);
  return sign > 0 ? max[i] - at : at - min[i];
}
