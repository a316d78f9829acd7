/**
 * The workpiece in time, from the part's set-ups: cut by cut what it was before and is after. Kept by object identity:
 * a workpiece from which the same volumes are taken is the same workpiece afterwards, and a set-up before the edited one
 * is the same object in the next snapshot.
 */
import type { BodyShape, Solid, Void } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { type CutEntry, FACE_AXIS, FACES, type Face, type Feature, type Part, type Setup } from '../../model/model';
import { cameFrom, extremeOf } from './in-process-stock';
import { leavesSome, shareOf } from './partial';
import { isCutFromBoth, removedBy, stopOf } from './removes';
import { excessOver, NOTHING_MM, stockOf } from './stock';
import type { Cut, SetupInTime, Timeline, Workpiece } from './types';

interface Of {
  readonly setups: Part['setups'];
  readonly stock: Workpiece;
  readonly made: Timeline;
}
const timelines = new WeakMap<Solid, Of>();

/** Every set-up of the part in turn. Without `setups` in the text: the stock, and nothing cut yet. */
export function timelineOf(part: Part, solid: Solid): Timeline {
  const stock = stockOf(part, solid.body);
  const known = timelines.get(solid);
  if (known && known.stock === stock && known.setups === part.setups) return known.made;
  const setups: SetupInTime[] = [];
  let now = stock;
  for (const [index, setup] of (part.setups ?? []).entries()) {
    const made = setupInTime(setup, index, now, part, solid, stock.body);
    setups.push(made);
    now = made.after;
  }
  const cut = new Map<string, Cut[]>();
  for (const c of setups.flatMap((s) => s.cuts)) cut.set(c.name, [...(cut.get(c.name) ?? []), c]);
  const whole = (name: string) => {
    const cuts = cut.get(name);
    return cuts !== undefined && !leavesSome(cuts, (c) => setups[c.setup]!.up);
  };
  const unassigned = [
    ...FACES.filter((face) => !whole(face) && leftOn(face, now, solid.body, stock.body)),
    ...part.features.filter((f) => !whole(f.name) && solid.voidsOf(f.name).length > 0),
  ];
  const made = { stock, setups, unassigned };
  timelines.set(solid, { setups: part.setups, stock, made });
  return made;
}

/** Stock still stands over the face. */
function leftOn(face: Face, now: Workpiece, body: BodyShape, stock: BodyShape): boolean {
  if (excessOver(face, stock, body) === 0) return false;
  const { axis, sign } = FACE_AXIS[face];
  const i = AXIS_INDEX[axis];
  const at = extremeOf(now, i, sign > 0 ? -1 : 1);
  return (sign > 0 ? at - body.box.max[i] : body.box.min[i] - at) > NOTHING_MM;
}

const keptSetups = new WeakMap<Workpiece, SetupInTime[]>();
/** Of the set-ups that may follow on one workpiece so many are kept: an edit needs one, a planner tries several. */
const KEEP = 8;

function setupInTime(
  setup: Setup,
  index: number,
  before: Workpiece,
  part: Part,
  solid: Solid,
  stock: BodyShape,
): SetupInTime {
  const up = setup.up?.name;
  const cuts: Cut[] = [];
  let now = before;
  setup.cuts.forEach((named, order) => {
    const cut = cutOf(named, index, order, up, now, part, solid, stock);
    if (!cut) return;
    cuts.push(cut);
    now = cut.after;
  });
  const known = keptSetups.get(before) ?? [];
  const same = known.find(
    (k) =>
      k.setup === setup && k.index === index && k.cuts.length === cuts.length && k.cuts.every((c, i) => c === cuts[i]),
  );
  if (same) return same;
  const made: SetupInTime = { setup, index, up, before, after: now, cuts };
  keptSetups.set(before, [...known.slice(1 - KEEP), made]);
  return made;
}

const keptCuts = new WeakMap<Workpiece, Cut[]>();

/** One entry of `cuts`; nothing for a name that is neither a feature nor a face. */
function cutOf(
  named: CutEntry,
  setup: number,
  order: number,
  up: Face | undefined,
  before: Workpiece,
  part: Part,
  solid: Solid,
  stock: BodyShape,
): Cut | undefined {
  const feature = part.featureByName.get(named.name);
  const face = feature ? undefined : FACES.find((f) => f === named.name);
  if (!feature && !face) return undefined;
  const share = up && shareOf(named, up, part.setups, () => isCutFromBoth(feature ?? face!, up!, part, solid));
  const removes = removedBy(feature ?? face!, up, share, before, solid);
  const known = keptCuts.get(before) ?? [];
  const same = known.find(
    (c) =>
      c.setup === setup &&
      c.order === order &&
      c.feature === feature &&
      c.face === face &&
      c.share === share &&
      c.span === named.span &&
      sameVoids(c.removes, removes),
  );
  if (same) return same;
  const made: Cut = {
    setup,
    order,
    name: named.name,
    ...(feature && { feature }),
    ...(face && { face }),
    ...(share !== undefined && { share, stop: stopOf(feature ?? face!, up!, share, stock, solid) }),
    span: named.span,
    removes,
    before,
    after: lessOf(before, removes),
  };
  keptCuts.set(before, [...known.slice(1 - KEEP), made]);
  return made;
}

const afters = new WeakMap<Workpiece, { readonly removes: readonly Void[]; readonly after: Workpiece }[]>();

/** The workpiece with these volumes taken from it; itself where there are none, or none that is not gone already. */
export function lessOf(before: Workpiece, removes: readonly Void[]): Workpiece {
  const fresh = removes.filter((v) => !before.voids.includes(v));
  if (fresh.length === 0) return before;
  const known = afters.get(before) ?? [];
  const same = known.find((k) => sameVoids(k.removes, fresh));
  if (same) return same.after;
  const after: Workpiece = { body: before.body, voids: [...before.voids, ...fresh] };
  cameFrom(after, before, fresh);
  afters.set(before, [...known.slice(1 - KEEP), { removes: fresh, after }]);
  return after;
}

function sameVoids(a: readonly Void[], b: readonly Void[]): boolean {
  return a.length === b.length && a.every((v, i) => v === b[i]);
}

/** Where a feature or a face is cut: every cut of it, in order. */
export function cutsOf(timeline: Timeline, of: Feature | Face): readonly Cut[] {
  const name = typeof of === 'string' ? of : of.name;
  return timeline.setups.flatMap((s) => s.cuts.filter((c) => c.name === name));
}
