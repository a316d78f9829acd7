import type { Wall } from '../../geometry/types';
import { nodeAt, setLength } from '../edits';
import type { WallBetween } from '../finding-data';
import { fact, roundDown } from '../message';
import type { Finding, Fix, Rule, RuleContext, Severity } from '../rule';
import { thicken } from './thicken';
import { canBend, deepestMm, onePerPair, placesOf, seenAs, sidesOf, wallsBelow, whereOf } from './walls';

export const slender: Rule = {
  name: 'wall/slender',
  severity: 'warning',
  mayBeError: true,
  summary: 'A wall too high for its thickness.',
  why: 'A wall free at its top is a cantilever: twice the height bends eight times as far under the same cutter. It chatters, comes out tapered, and the last cuts tear it.',
  formula:
    'ratio = free height / thickness. The free height is the depth over which the wall stands between its two cuts, but no more than its length: a wall shorter than it is high is held by its ends.',
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
      what: 'Height over thickness above which a wall does not come out: an error.',
      source: 'common practice, no source',
    },
  ],
  bad: `part: cover
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
`,
  good: `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 14 }
features:
  window:
    kind: pocket
    face: top
    at: { x: 17, y: center }
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
`,
  *find(context): Iterable<Finding> {
    const [warn, worst] = [context.limit('ratio'), context.limit('ratio-error')];
    const walls = wallsBelow(context.solid, deepestMm(context.solid) / warn, { bending: true }).filter((w) =>
      isSlender(w, warn),
    );
    for (const { wall } of onePerPair(walls, (w) => -ratioOf(w))) {
      const ratio = ratioOf(wall);
      const free = freeHeight(wall);
      const limit = ratio > worst ? worst : warn;
      yield {
        rule: 'wall/slender',
        severity: ratio > worst ? 'error' : 'warning',
        message: `The wall ${whereOf(wall)} stands ${context.length(free)} high and is ${context.length(wall.thicknessMm)} thick: ${ratio.toFixed(1)} times its thickness, where over ${limit} ${ratio > worst ? 'it does not come out' : 'it needs light cuts and care'} (a rule of thumb). ${context.length(free / warn)} of thickness, or a height of ${context.length(wall.thicknessMm * warn)}, would do.`,
        ...placesOf(wall, context.part),
        facts: {
          height_mm: fact(free),
          thickness_mm: fact(wall.thicknessMm),
          ratio: fact(ratio),
          limit,
          needed_mm: fact(free / warn),
          lower_mm: fact(wall.thicknessMm * warn),
        },
        data: { wall: seenAs(wall) },
      };
    }
  },
  mends: 'A thicker wall (a smaller or moved feature), or a shallower cut beside it.',
  *mend(finding, context): Iterable<Fix> {
    const wall = finding.data?.wall;
    if (!wall) return;
    yield* thicken(wall, freeHeight(wall) / context.limit('ratio'), context);
    yield* shallower(wall, context);
  },
};

/**
 * Whether this rule says of a wall that it must be at least `mm` thick, and says it as gravely as `severity`: then
 * nothing is left to say of its thickness alone.
 */
export function wantsThickness(wall: Wall, mm: number, severity: Severity, { limitOf, part }: RuleContext): boolean {
  const limit = (name: string) => limitOf(slender, name);
  const least = severity === 'error' ? limit('ratio-error') : limit('ratio');
  const accepted = part.accept.some((a) => a.rule.name === slender.name);
  return !accepted && isSlender(wall, least) && freeHeight(wall) / limit('ratio') >= mm;
}

function isSlender(wall: Wall, limit: number): boolean {
  return canBend(wall) && ratioOf(wall) > limit + 1e-6;
}

function freeHeight(wall: WallBetween): number {
  return Math.min(wall.heightMm, wall.lengthMm);
}
function ratioOf(wall: Wall): number {
  return freeHeight(wall) / wall.thicknessMm;
}

function* shallower(wall: WallBetween, { part, tree, length, limit }: RuleContext): Iterable<Fix> {
  const to = roundDown(wall.thicknessMm * limit('ratio'), part.units);
  for (const { feature } of sidesOf(wall, part)) {
    if (!('depth' in feature) || !feature.depth || feature.depth.through || !nodeAt(tree, feature.name, 'depth'))
      continue;
    const mm = roundDown(feature.depth.mm - (wall.heightMm - to), part.units);
    const edit = mm > 0 ? setLength(feature.depth.length, mm, part) : undefined;
    if (edit) yield { title: `Make \`${feature.name}\` ${length(mm)} deep`, safe: false, edits: [edit] };
  }
}
