/**
 * Reaching in a set-up: for every cut, on the workpiece as it is then, the tool that gets there without its shank or holder
 * meeting the work, a jaw, the stop or a clamp; or what is in the way. Kept as long as what a tool can meet stays the same.
 */
import type { Solid, Void } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { memo } from '../../memo';
import { FACE_AXIS, type Face, type Feature, OPPOSITE, type Part } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import { approachesOf } from '../approach';
import { lowestDepth } from '../lowest';
import { milledVoids } from '../milling';
import { operationsOf } from '../operations';
import type { PartInShop } from '../part-in-shop';
import { extremeOf } from '../stock/in-process-stock';
import { timelineOf } from '../stock/timeline';
import type { Cut, SetupInTime, Timeline, Workpiece } from '../stock/types';
import { type Seating, seatingOf } from '../workholding/seating';
import { bossThreaded } from './boss-thread';
import { gapOf, milledOf, toolAskedFor } from './candidates';
import type { Case } from './case';
import { alongSpindle } from './cutter-locations';
import { discVerdict } from './disc';
import { boresIn, drilled } from './drilled';
import { facing, leftOver } from './facing';
import { formed } from './form-cutters';
import { milled } from './milled';
import { isAlsoCut, withSameCut } from './other-piece';
import { Surroundings } from './surroundings';
import { leaningVerdict } from './tilted';
import type { ToolUse, Verdict } from './verdict';

export type * from './verdict';

/** Undefined where nothing can be said: no face up, not to be got at from there, or nothing removed. */
export function verdictOf(cut: Cut, of: SetupInTime, { part, solid, shop }: PartInShop): Verdict | undefined {
  return asAsked(cut, part, of, solid, shop);
}

/** Asked again and again of the same objects while a text is judged. */
const asAsked = memo(verdictAnew, { owners: 2 });

function verdictAnew(cut: Cut, part: Part, of: SetupInTime, solid: Solid, shop: Shop): Verdict | undefined {
  const first = cut.removes[0];
  const { feature } = cut;
  const { up } = of;
  if (!first || !up) return undefined;
  if (of.setup.hold?.type === 'angle') return leaningVerdict(cut, of, { part, solid, shop });
  if (feature && !approachesOf(feature, part, solid).includes(up)) return undefined;
  if (cut.face && cut.face === OPPOSITE[up]) return undefined;
  const work = new Surroundings(cut, up, shop);
  const { obstacles, key: told } = obstaclesFor(of, cut, part, shop);
  const made = judged(first, {
    cut,
    up,
    part,
    solid,
    shop,
    work,
    get place() {
      return work.places.place;
    },
    placesWithin: (mm) => work.placesWithin(mm),
    topMm: topOf(cut.after, up),
    obstacles,
    key: told,
    asked: toolAskedFor(of.setup, cut.name, shop),
  });
  return made.cut === cut ? made : { ...made, cut };
}

/** A planner asks for some thirty poses and seats before it comes back to the first. */
const KEEP = 32;

/** Kept with the first volume that is cut, which stays where another cut before it is edited. */
const judged = memo((_: Void, c: Judged): Verdict => judge(c), {
  size: KEEP,
  by: (_, { cut, up, part, solid, shop, topMm, key: told, asked, work, obstacles }) => [
    shop,
    up,
    topMm,
    asked,
    cut.feature,
    part.material?.name,
    part.tolerance?.name,
    solid.body,
    cut.before.body,
    cut.removes,
    cut.feature ? askOf(cut.feature, cut, up, { part, solid, shop }) : slabOf(cut),
    told,
    // Another piece is looked at wherever it is.
    obstacles.some(isAlsoCut) ? cut.after.voids : undefined,
    // Most cuts are reached whatever stands beside them.
    work.near,
  ],
});
type Judged = Case & Met & { readonly work: Surroundings };

/** How much of what is faced off is still there. */
function slabOf(cut: Cut): readonly number[] {
  const left = leftOver(cut);
  return left ? [...left.min, ...left.max] : [];
}

/** What a feature asks of a tool by its own shape and the finished part's: good for comparing. */
function askOf(feature: Feature, cut: Cut, up: Face, inShop: PartInShop): readonly unknown[] {
  const { part, solid } = inShop;
  const operations = operationsOf(feature, inShop);
  if (feature.kind === 'hole') return [operations, ...boresIn(cut, feature, up)];
  const finished = milledVoids(feature, part, solid);
  const { widestMm, cornerMm, floorRadiusMm } = gapOf(finished);
  const corners = finished.flatMap((m) => m.corners.flatMap(({ u, v, radiusMm }) => [u, v, radiusMm]));
  const lowest = milledOf(cut).map((v) => lowestDepth(alongSpindle(v, up), cut.before, cut.removes, up));
  return [operations, widestMm, cornerMm, floorRadiusMm, corners, lowest];
}

interface Met {
  readonly obstacles: Case['obstacles'];
  /** As text, for comparing: a set-up whose work changed is seated anew, mostly in the same place. */
  readonly key: string;
}
const NOTHING: Met = { obstacles: [], key: '' };

/** What stands round the work; parallels under holes are another rule's. */
function obstaclesFor(of: SetupInTime, cut: Cut, part: Part, shop: Shop): Met {
  // Held by nothing that is told, it has nothing round it: where it would lie need not be known.
  const seating = of.setup.hold && seatingOf(of, part, shop);
  if (!seating) return NOTHING;
  // A face that looks up is passed over both of two pieces at once.
  const passed = cut.feature?.kind === 'hole' ? 'parallel' : cut.face === of.up ? 'other piece' : undefined;
  const met = metBy(seating, passed);
  return { ...met, obstacles: withSameCut(met.obstacles, cut) };
}

const metBy = memo(
  (seating: Seating, passed: Seating['obstacles'][number]['what'] | undefined): Met => {
    const obstacles = seating.avoided.filter((o) => o.what !== passed);
    const told = obstacles.map((o) => `${o.what} ${o.box.min.join()} ${o.box.max.join()}`).join(';');
    return { obstacles, key: told };
  },
  { size: 3 },
);

/** Every cut's verdict, set-up by set-up; of those that are not settled. */
export function verdictsOf({ part, solid, shop }: PartInShop): readonly Verdict[] {
  return allOf(timelineOf(part, solid), part, solid, shop);
}

const allOf = memo(({ setups }: Timeline, part: Part, solid: Solid, shop: Shop): readonly Verdict[] =>
  setups.slice(part.settled ?? 0).flatMap((s) => s.cuts.flatMap((c) => verdictOf(c, s, { part, solid, shop }) ?? [])),
);

/** The tools that a cut would be made with, each with how far it stands out; none where nothing on hand does it. */
export function toolFor(cut: Cut, of: SetupInTime, inShop: PartInShop): readonly ToolUse[] {
  return verdictOf(cut, of, inShop)?.uses ?? [];
}

function judge(c: Case): Verdict {
  if (c.cut.face) return facing(c, c.cut.face);
  const { feature } = c.cut;
  if (feature?.kind === 'hole') return drilled(c, feature);
  if (!feature) return { cut: c.cut, up: c.up, uses: [], asked: false };
  const sideways = discVerdict(c, feature);
  if (sideways) return sideways;
  const made = milled(c, feature);
  if (made.short || made.holder || made.fixture) return made;
  const round = bossThreaded(c, feature);
  if (round.short || round.holder || round.fixture) return { ...made, ...round };
  const { uses, ...trouble } = formed(c, feature);
  return { ...made, uses: [...made.uses, ...round.uses, ...uses], ...trouble };
}

/** Depth of the highest material below the stock's own plane. */
function topOf(w: Workpiece, up: Face): number {
  const { axis, sign } = FACE_AXIS[up];
  const i = AXIS_INDEX[axis];
  const { min, max } = w.body.box;
  const at = extremeOf(w, i, sign > 0 ? -1 : 1);
  return sign > 0 ? max[i] - at : at - min[i];
}
