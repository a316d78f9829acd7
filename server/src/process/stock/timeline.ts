/**
 * The workpiece in time, from the part's set-ups: cut by cut what it was before and is after. A workpiece from which the
 * same volumes are taken is the same object afterwards, and so is a set-up before the edited one in the next snapshot.
 */

import type { BodyShape, Solid, Void } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { memo } from '../../memo';
import { type CutEntry, FACE_AXIS, FACES, type Face, type Feature, type Part, type Setup } from '../../model/model';
import { isOffMill } from '../made-on';
import { comesCut } from './brought';
import { beyond } from './facing';
import { cameFrom, extremeOf } from './in-process-stock';
import { leavesSome, shareOf } from './partial';
import { isCutFromBoth, removedBy, stopOf } from './removes';
import { asRunOut } from './sawn-off';
import { excessOver, NOTHING_MM, stockOf } from './stock';
import type { Cut, SawnOff, SetupInTime, Timeline, Workpiece } from './types';

/** Every set-up of the part in turn. Without `setups` in the text: the stock, and nothing cut yet. */
export function timelineOf(part: Part, solid: Solid): Timeline {
  return inTime(solid, part);
}

const inTime = memo(
  (solid: Solid, part: Part): Timeline => {
    const stock = stockOf(part, solid.body);
    const setups: SetupInTime[] = [];
    let now = stock;
    for (const [index, setup] of (part.setups ?? []).entries()) {
      const made = setupInTime(setup, index, now, { part, solid, stock: stock.body });
      setups.push(made);
      now = made.leaves;
    }
    const cut = new Map<string, Cut[]>();
    for (const c of setups.flatMap((s) => s.cuts)) cut.set(c.name, [...(cut.get(c.name) ?? []), c]);
    const whole = (name: string) => {
      const cuts = cut.get(name);
      return cuts !== undefined && !leavesSome(cuts, (c) => setups[c.setup]!.up);
    };
    const unassigned = [
      ...FACES.filter((face) => !whole(face) && leftOn(face, now, solid.body, stock.body)),
      ...part.features.filter(
        (f) => !isOffMill(f) && !whole(f.name) && solid.voidsOf(f.name).length > 0 && !comesCut(f, part, solid),
      ),
    ];
    return { stock, setups, unassigned };
  },
  { size: 2, by: (solid, part) => [part.setups, stockOf(part, solid.body), part.features] },
);

/** Stock still stands over the face. */
function leftOn(face: Face, now: Workpiece, body: BodyShape, stock: BodyShape): boolean {
  if (excessOver(face, stock, body) === 0) return false;
  const { axis, sign } = FACE_AXIS[face];
  const i = AXIS_INDEX[axis];
  const at = extremeOf(now, i, sign > 0 ? -1 : 1);
  return (sign > 0 ? at - body.box.max[i] : body.box.min[i] - at) > NOTHING_MM;
}

/** Of the set-ups and cuts that may follow on one workpiece so many are kept: an edit needs one, a planner tries several. */
const KEEP = 8;

/** The finished part, and the stock that it is cut from. */
interface Whole {
  readonly part: Part;
  readonly solid: Solid;
  readonly stock: BodyShape;
}

function setupInTime(setup: Setup, index: number, before: Workpiece, whole: Whole): SetupInTime {
  const up = setup.up?.name;
  const cuts: Cut[] = [];
  let now = before;
  setup.cuts.forEach((named, order) => {
    const cut = cutOf(named, { setup: index, order, up }, now, whole);
    if (!cut) return;
    cuts.push(cut);
    now = cut.after;
  });
  return begunWith(before, setup, index, cuts, sawnOffIn(setup, whole.stock, whole.solid.body));
}

const begunWith = memo(
  (before: Workpiece, setup: Setup, index: number, cuts: readonly Cut[], sawnOff: SawnOff | undefined): SetupInTime => {
    const after = cuts.at(-1)?.after ?? before;
    const leaves = sawnOff ? lessOf(after, sawnOff.removes) : after;
    return { setup, index, up: setup.up?.name, before, after, cuts, ...(sawnOff && { sawnOff }), leaves };
  },
  { size: KEEP },
);

/** A saw goes straight through all there is. */
const sawnOffIn = memo(
  ({ sawnOff }: Setup, stock: BodyShape, body: BodyShape): SawnOff | undefined => {
    if (!sawnOff) return undefined;
    const { name: face, leave, span } = sawnOff;
    const leaveMm = leave?.mm ?? 0;
    const restMm = Math.max(0, excessOver(face, stock, body) - leaveMm);
    return { face, leaveMm, restMm, span, removes: beyond(stock, face, leaveMm, body) };
  },
  { size: KEEP, by: ({ sawnOff }, stock, body) => [sawnOff, stock, body] },
);

/** One entry of `cuts`; nothing for a name that is neither a feature nor a face. */
function cutOf(
  named: CutEntry,
  { setup, order, up }: { readonly setup: number; readonly order: number; readonly up: Face | undefined },
  before: Workpiece,
  { part, solid, stock }: Whole,
): Cut | undefined {
  const feature = part.featureByName.get(named.name);
  const face = feature ? undefined : FACES.find((f) => f === named.name);
  if (!feature && !face) return undefined;
  const share = up && shareOf(named, up, part.setups, () => isCutFromBoth(feature ?? face!, up!, part, solid));
  const run = asRunOut(before, feature ?? face!, setup, part, solid.body);
  const removes = removedBy(feature ?? face!, up, share, run, solid);
  return taken(before, {
    setup,
    order,
    name: named.name,
    ...(feature && { feature }),
    ...(face && { face }),
    ...(share !== undefined && { share, stop: stopOf(feature ?? face!, up!, share, stock, solid) }),
    span: named.span,
    removes,
  });
}

const taken = memo(
  (before: Workpiece, cut: Omit<Cut, 'before' | 'after'>): Cut => ({
    ...cut,
    before,
    after: lessOf(before, cut.removes),
  }),
  {
    size: KEEP,
    by: (_, { setup, order, feature, face, share, stop, span, removes }) => [
      span,
      feature ?? face,
      setup,
      order,
      share,
      stop?.at,
      stop?.ends,
      removes,
    ],
  },
);

/** The workpiece with these volumes taken from it; itself where there are none, or none that is not gone already. */
export function lessOf(before: Workpiece, removes: readonly Void[]): Workpiece {
  const fresh = removes.filter((v) => !before.voids.includes(v));
  return fresh.length === 0 ? before : less(before, fresh);
}

const less = memo(
  (before: Workpiece, removes: readonly Void[]): Workpiece => {
    const after: Workpiece = { body: before.body, voids: [...before.voids, ...removes] };
    cameFrom(after, before, removes);
    return after;
  },
  { size: KEEP },
);

/** Where a feature or a face is cut: every cut of it, in order. */
export function cutsOf(timeline: Timeline, of: Feature | Face): readonly Cut[] {
  const name = typeof of === 'string' ? of : of.name;
  return timeline.setups.flatMap((s) => s.cuts.filter((c) => c.name === name));
}
