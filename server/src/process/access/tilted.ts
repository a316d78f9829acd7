/** Reaching where the work is held at an angle: leaning features and slopes, judged as the spindle sees them. */

import type { Solid, Vec3 } from '../../geometry/types';
import { memo } from '../../memo';
import type { Feature, Part } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import { isFacer } from '../../model/tool-kinds';
import { operationsOf } from '../operations';
import type { PartInShop } from '../part-in-shop';
import type { Cut, SetupInTime, Workpiece } from '../stock/types';
import { axesToward, inPart, seenCut } from '../tilted/place';
import { offBy, SAME_DEG, type Spindle, spindleOf } from '../tilted/spindle';
import { seatingOf } from '../workholding/seating';
import { facersFor, toolAskedFor } from './candidates';
import type { Case } from './case';
import type { Standing } from './collision';
import { drilled } from './drilled';
import { milled } from './milled';
import { Surroundings } from './surroundings';
import { type Task, troubleOf, tryTools } from './try-tools';
import type { Verdict } from './verdict';

/** What the spindle sees lies square to it: `top` is the face that looks at it. */
const UP = 'top';

const ABOVE_MM = 1000;

/** Undefined where the angle is another than the feature's: `access/tilted` tells that. */
export function leaningVerdict(cut: Cut, of: SetupInTime, { part, solid, shop }: PartInShop): Verdict | undefined {
  const spindle = spindleOf(of.setup, part);
  const { feature } = cut;
  if (!spindle || !feature || !of.up) return undefined;
  const off = offBy(feature, spindle, solid);
  return off === undefined || off > SAME_DEG ? undefined : judged(cut, { of, part, solid, shop, feature, spindle });
}

interface Leaning {
  readonly of: SetupInTime;
  readonly part: Part;
  readonly solid: Solid;
  readonly shop: Shop;
  readonly feature: Feature;
  readonly spindle: Spindle;
}

const judged = memo(judge, {
  by: (_, { of, part, solid, shop, feature, spindle }) => [
    of,
    solid.body,
    shop,
    part.material?.name,
    part.tolerance?.name,
    spindle.toward,
    seatingOf(of, part, shop),
    operationsOf(feature, { part, solid, shop }),
  ],
});

function judge(cut: Cut, { of, part, solid, shop, feature, spindle }: Leaning): Verdict {
  const axes = axesToward(spindle.toward);
  const turned = seenCut(cut, axes);
  const work = new Surroundings(turned, UP, shop);
  const obstacles = (seatingOf(of, part, shop)?.avoided ?? [])
    .filter((o) => feature.kind !== 'hole' || o.what !== 'parallel')
    .map((o): Standing => ({ ...o, axes }));
  const c: Case = {
    cut: turned,
    up: UP,
    part,
    solid,
    shop,
    get place(): Workpiece {
      return work.places.place;
    },
    placesWithin: (mm) => work.placesWithin(mm),
    // Above everything: of work that leans nothing is taken for granted, every need is looked at.
    topMm: -ABOVE_MM,
    obstacles,
    asked: toolAskedFor(of.setup, cut.name, shop),
  };
  const found =
    feature.kind === 'hole' ? drilled(c, feature) : feature.kind === 'slope' ? planed(c) : milled(c, feature);
  const { holder, ...rest } = found;
  return {
    ...rest,
    cut,
    up: of.up!,
    ...(holder && { holder: { ...holder, ...(holder.at && { at: inPart(holder.at, axes) }) } }),
  };
}

/** A slope, milled square to its plane: the end of a wide cutter goes over it from side to side, hardly beyond. */
function planed(c: Case): Verdict {
  const { cut, up, shop, asked } = c;
  const none: Verdict = { cut, up, uses: [], asked: asked !== undefined };
  const [v] = cut.removes;
  const mills = asked && isFacer(asked) ? [asked] : facersFor(UP, UP, shop);
  if (!v || mills.length === 0) return none;
  const { min, max } = v.bounds;
  const body = cut.before.body;
  const level = Math.max(body.box.min[2], min[2]);
  const tipMm = body.box.max[2] - level;
  const at = (k: 0 | 1, share: number, radiusMm: number) => {
    const [low, high] = [Math.max(min[k], body.box.min[k]), Math.min(max[k], body.box.max[k])];
    const inset = Math.min(COVERS * radiusMm, (high - low) / 2);
    return low + inset + (high - low - 2 * inset) * share;
  };
  const task: Task = {
    up,
    get place() {
      return c.place;
    },
    body,
    obstacles: c.obstacles,
    topMm: c.topMm,
    tipMm,
    does: 'mill',
    leastReachMm: 0,
    stands: (r) => ROUND.map(([x, y]): Vec3 => [at(0, x, r), at(1, y, r), level]),
  };
  const tried = tryTools(mills, task, shop);
  if (tried.use) return { ...none, uses: [tried.use] };
  return { ...none, ...troubleOf(tried, mills, 'end mill', max[2] - level) };
}

/** Of its radius so much is laid over the plane's rim: hardly any of the cutter goes past it. Common practice, no source. */
const COVERS = 0.95;
/** Corners and middles of the sides, as shares of the plane's length and width. */
const ROUND = [
  [0, 0],
  [0.5, 0],
  [1, 0],
  [1, 0.5],
  [1, 1],
  [0.5, 1],
  [0, 1],
  [0, 0.5],
] as const;
