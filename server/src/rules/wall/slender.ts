import { isNeverThere } from '../../geometry/solid/stock-body';
import type { Wall } from '../../geometry/types';
import type { Cut } from '../../process/stock/types';
import { SAME } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { nodeAt, setLength } from '../kit/edits';
import { figure, roundDown, roundUp } from '../kit/message';
import type { Fix, Rule, RuleContext } from '../kit/rule';
import { type OwnWall, ownWallsCut, tellOwn } from './own-wall';
import { pairName, passingWalls, sidesNamed, takenFirst } from './passing';
import { thicken } from './thicken';
import {
  canBend,
  deepestMm,
  isVoid,
  type Pair,
  pairsOf,
  placesOf,
  saysOf,
  seenAs,
  sidesOf,
  type WallBetween,
  wallsBelow,
  whereOf,
} from './walls';

/** `until`: so high only while the set-ups have not yet cut that. */
interface Slender extends Pair {
  readonly until?: Cut;
  readonly own?: OwnWall;
}

const BAD = `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 14 }
features:
  window:
    kind: pocket
    face: top
    at: { x: 19, y: center }
    size: { x: 20, y: 24 }
    corner-radius: 6
    depth: 12
  battery:
    kind: pocket
    face: top
    at: { x: 40, y: center }
    size: { x: 20, y: 24 }
    corner-radius: 6
    depth: 12
`;

export const slender: Rule = defineRule({
  name: 'wall/slender',
  severity: 'warning',
  mayBeError: true,
  summary: 'A wall too high for its thickness.',
  why: 'A wall that is free at its top bends like a springboard. Twice the height bends eight times as far under the same cutter. It chatters, comes out tapered, and the last cuts tear it.',
  formula:
    'Ratio = free height / thickness. The free height is the depth over which the wall is free between its two cuts, at most its length. A wall shorter than it is high is held by its ends. Walls of a section count where a feature is milled into their broad side. Their height is their width, from where they are held. With set-ups, a wall that a later cut makes lower counts with its height before that cut.',
  limits: [
    {
      name: 'ratio',
      value: 8,
      unit: 'ratio',
      what: 'Height over thickness above which light cuts and care are needed: a warning.',
      source: 'common practice, no source',
    },
    {
      name: 'ratio-error',
      value: 15,
      unit: 'ratio',
      what: 'Height over thickness above which a wall cannot be milled: an error.',
      source: 'common practice, no source',
    },
    {
      name: 'ratio-held',
      value: 32,
      unit: 'ratio',
      what: 'Width over thickness of a tube’s wall or a channel’s web, above which light cuts and care are needed.',
      source:
        'four times `ratio`. Held along both edges a strip bends by F L³ / 192 E I. Free along one it bends by F L³ / 3 E I (Roark)',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['x: 19', 'x: 17']),
  *find(context): Generator<Slender> {
    const { solid, limit } = context;
    const most = limit('ratio');
    const below = deepestMm(solid) / most;
    const over = (w: Wall) => canBend(w) && !isOfTube(w) && ratioOf(w) > most + SAME;
    const pairs = pairsOf(wallsBelow(context, below, { bending: true }).filter(over), (w) => -ratioOf(w));
    yield* pairs;
    for (const own of ownWallsCut(context, most, limit('ratio-held'))) yield { wall: own.wall, all: [own.wall], own };
    const told = new Set(pairs.map((p) => pairName(p.wall)));
    for (const { wall, until, gone } of passingWalls(context, below)) {
      if (gone || !over(wall) || told.has(pairName(wall))) continue;
      told.add(pairName(wall));
      yield { wall, all: [wall], until };
    }
  },
  tell({ wall, all, until, own }, context) {
    const { part, limit, length, about } = context;
    if (own) return tellOwn(own, limit(own.held ? 'ratio-held' : 'ratio'), context);
    const [ratio, free] = [ratioOf(wall), freeHeight(wall)];
    if (until) return lowered(wall, until, context);
    const [warn, worst] = [limit('ratio'), limit('ratio-error')];
    const hopeless = ratio > worst;
    const over = hopeless ? worst : warn;
    return {
      severity: hopeless ? 'error' : 'warning',
      message: `The wall ${whereOf(wall, part)} is ${about(wall.thicknessMm)} thick and ${about(free)} high: ${figure(ratio, over)} times its thickness. Over ${over} times ${hopeless ? 'it cannot be milled' : 'it needs light cuts and care'} (rule of thumb). Make it ${length(roundUp(free / warn, part.units))} thick, or ${length(roundDown(wall.thicknessMm * warn, part.units))} high.`,
      thing: `wall ${whereOf(wall, part)}`,
      has: `${about(wall.thicknessMm)} thick`,
      needs: about(free / warn),
      ...placesOf(wall, part),
      facts: {
        height_mm: free,
        thickness_mm: wall.thicknessMm,
        ratio,
        limit: over,
        needed_mm: free / warn,
        lower_mm: wall.thicknessMm * warn,
      },
      says: all.map((w) => saysOf(w, ratioOf(w) > worst + SAME ? 'error' : 'warning', freeHeight(w) / warn)),
    };
  },
  mends:
    'Make the wall thicker (a smaller or moved feature), or the cut beside it shallower. Or cut first what makes it lower.',
  keep: ({ wall, until, own }) => (own ? undefined : { wall: seenAs(wall), until: until?.name }),
  *mend({ wall, until }, context) {
    if (until !== undefined) return yield* takenFirst(until, sidesNamed(wall), context);
    yield* thicken(wall, freeHeight(wall) / context.limit('ratio'), context);
    yield* shallower(wall, context);
  },
});

/** What a cut leaves of a tube’s wall, held along both its edges: no wall that stands. As a plate `wall/deflects` judges it. */
function isOfTube({ a, b }: Wall): boolean {
  return [a, b].some((v) => isVoid(v) && isNeverThere(v) && v.role !== 'step');
}

/** Higher while it is cut than it is in the end. */
function lowered(wall: Wall, until: Cut, { part, limit, about }: RuleContext): Told {
  const [ratio, free, most] = [ratioOf(wall), freeHeight(wall), limit('ratio')];
  const { name } = part.setups![until.setup]!;
  return {
    message: `The wall ${whereOf(wall, part)} is ${about(wall.thicknessMm)} thick, and ${about(free)} high until ${name} cuts ${until.name}: ${figure(ratio, most)} times its thickness. Over ${most} times it needs light cuts and care (rule of thumb). Cut ${until.name} first.`,
    thing: `wall ${whereOf(wall, part)}`,
    has: `${figure(ratio, most)} times`,
    needs: `${most} times`,
    ...placesOf(wall, part),
    facts: { height_mm: free, thickness_mm: wall.thicknessMm, ratio, limit: most, until: until.name },
    says: [saysOf(wall, 'warning', free / most)],
  };
}

function freeHeight(wall: WallBetween): number {
  return Math.min(wall.heightMm, wall.lengthMm);
}
function ratioOf(wall: Wall): number {
  return freeHeight(wall) / wall.thicknessMm;
}

function* shallower(wall: WallBetween, { part, tree, length, limit }: RuleContext): Iterable<Fix | undefined> {
  const to = roundDown(wall.thicknessMm * limit('ratio'), part.units);
  for (const { feature } of sidesOf(wall, part)) {
    if (!('depth' in feature) || !feature.depth || feature.depth.through || !nodeAt(tree, feature.name, 'depth'))
      continue;
    const mm = roundDown(feature.depth.mm - (wall.heightMm - to), part.units);
    const edit = mm > 0 ? setLength(feature.depth.length, mm, part) : undefined;
    yield change(`Make ${feature.name} ${length(mm)} deep`, edit);
  }
}
