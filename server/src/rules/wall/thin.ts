import type { Wall } from '../../geometry/types';
import { type Opening, openSlopes } from '../../geometry/walls/slopes';
import { touchingCuts } from '../../geometry/walls/touching';
import { ROUNDING } from '../../tolerance';
import { edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { capital, count, memberOf, memberPhrase, PRINTED_ALIKE_MM, roundUp, spanOf, subjectOf } from '../kit/message';
import { wallsNotJudged } from '../kit/not-judged';
import type { Rule, RuleContext } from '../kit/rule';
import { pairName, passingWalls, sidesNamed, takenFirst } from './passing';
import { thicken } from './thicken';
import { isVoid, pairsOf, placesOf, saysOf, seenAs, unjudgedBelow, wallsBelow, whereOf } from './walls';

/** Material that is thin; cuts that touch, with none between them; a cut that comes out through a chamfer or a round; what is thin only until a later cut takes it. */
type Thin =
  | { readonly is: 'passing'; readonly wall: Wall; readonly until: string; readonly setup: string }
  | { readonly is: 'thin' | 'touching'; readonly wall: Wall; readonly more: number }
  | { readonly is: 'open'; readonly at: Opening };

const BAD = `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 8 }
features:
  window:
    kind: pocket
    face: top
    at: { x: 20, y: center }
    size: { x: 20, y: 20 }
    corner-radius: 4
    depth: 5
  battery:
    kind: pocket
    face: top
    at: { x: 40.5, y: center }
    size: { x: 20, y: 20 }
    corner-radius: 4
    depth: 5
`;

export const thin: Rule = defineRule({
  name: 'wall/thin',
  severity: 'warning',
  mayBeError: true,
  summary: 'Too little material between two cuts, or between a cut and the outside, to hold against the cutter.',
  why: 'A thin wall moves away from the cutter and springs back behind it. It ends up thicker than written, chattered, torn at the top or gone. Heat and gripping bend it too.',
  formula:
    'The shortest line through material between two cuts, or from a cut to a face. It is taken after everything is cut, the cones of drills included. Cuts that touch and do not overlap leave 0: a warning. Half the limit or less is an error. Under the point of a drill it is a warning: only one spot is thin. With set-ups, a wall that a later cut removes again is a hint. Where a wall is also slender and must be thicker for that, only wall/slender reports it.',
  limits: [
    {
      name: 'metal',
      value: 0.8,
      unit: 'mm',
      what: 'Thinnest wall or floor in metal.',
      source: 'common practice, no source',
    },
    {
      name: 'plastic',
      value: 1.5,
      unit: 'mm',
      what: 'Thinnest wall or floor in plastics and laminates.',
      source: 'common practice, no source',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['x: 20, y: center', 'x: 18, y: center']),
  // One wall, one word: it may ask for more thickness still.
  under: ['wall/slender'],
  gaps({ part, solid, limit }) {
    const unjudged = unjudgedBelow(solid, limit('thickness'));
    return unjudged > 0 ? [wallsNotJudged('wall/thin', part, unjudged)] : [];
  },
  *find(context): Generator<Thin> {
    const { part, solid, limit } = context;
    for (const { wall, all } of pairsOf(touchingCuts(solid), () => 0))
      yield { is: 'touching', wall, more: all.length - 1 };
    for (const at of openSlopes(solid)) {
      if ([at.cut, at.slope].every((v) => part.featureByName.has(v.feature))) yield { is: 'open', at };
    }
    const thinOnes = pairsOf(wallsBelow(context, limit('thickness') - PRINTED_ALIKE_MM), (w) => w.thicknessMm);
    for (const { wall, all } of thinOnes) yield { is: 'thin', wall, more: all.length - 1 };
    yield* passing(
      thinOnes.map((p) => p.wall),
      context,
    );
  },
  tell(hit, context) {
    if (hit.is === 'open') return ofSlope(hit.at, context);
    if (hit.is === 'passing') return { ...placesOf(hit.wall, context.part), ...ofPassing(hit, context) };
    const said = hit.is === 'thin' ? ofThin(hit.wall, hit.more, context) : ofNothing(hit.wall, hit.more, context);
    return { ...placesOf(hit.wall, context.part), ...said };
  },
  mends:
    'Make a feature smaller or shallower, move it, change the pitch, or make the body larger. Or cut first what removes the wall.',
  keep: (hit) =>
    hit.is === 'open' ? undefined : { wall: seenAs(hit.wall), until: hit.is === 'passing' ? hit.until : undefined },
  *mend({ wall, until }, context) {
    if (until === undefined) {
      yield* thicken(wall, context.limit('thickness'), context);
      // A floor between two cuts bends all the same: twice as thick bends an eighth as much, and is tried as well.
      if (wall.type === 'floor' && isVoid(wall.b)) yield* thicken(wall, 2 * context.limit('thickness'), context);
    } else yield* takenFirst(until, sidesNamed(wall), context);
  },
});

/** One of each pair of features, at the cut that takes it first; none of those that stay and are told of anyhow. */
function* passing(stay: readonly Wall[], context: RuleContext): Generator<Thin> {
  const told = new Set(stay.map(pairName));
  for (const { wall, until, gone } of passingWalls(context, context.limit('thickness') - PRINTED_ALIKE_MM)) {
    if (!gone || told.has(pairName(wall))) continue;
    told.add(pairName(wall));
    yield { is: 'passing', wall, until: until.name, setup: context.part.setups![until.setup]!.name };
  }
}

type Said = Omit<Told, 'of' | 'span'>;

function ofThin(wall: Wall, more: number, { limit: limitFor, length, about, part }: RuleContext): Said {
  const limit = limitFor('thickness');
  const { thicknessMm } = wall;
  const severity = thicknessMm <= limit / 2 + ROUNDING && !isUnderPoint(wall) ? 'error' : 'warning';
  return {
    severity,
    message: `Only ${about(thicknessMm, limit)} of material is left ${wall.type === 'floor' ? 'as a floor ' : ''}${whereOf(wall, part)}${more > 0 ? `, and in ${count(more, 'more place')}` : ''}. A ${wall.type} under ${length(limit)} gives way under the cutter (rule of thumb). Make it ${length(roundUp(limit - thicknessMm, part.units))} thicker.`,
    thing: `${wall.type} ${whereOf(wall, part)}`,
    has: about(thicknessMm, limit),
    needs: length(limit),
    facts: {
      thickness_mm: thicknessMm,
      limit_mm: limit,
      missing_mm: limit - thicknessMm,
      more: more > 0 ? more : undefined,
    },
    says: [saysOf(wall, severity, limit)],
  };
}

/** Thin only at the tip of a drill's cone: a hole that breaks through there is a blemish, not a part that is lost. */
function isUnderPoint({ a, b }: Wall): boolean {
  return a.role === 'point' || (isVoid(b) && b.role === 'point');
}

/** Cuts that touch exactly: what stands between them is nothing, or a foil that tears. */
function ofNothing(wall: Wall, more: number, { limit: limitFor, length, part }: RuleContext): Said {
  const limit = limitFor('thickness');
  const [one, other] = [wall.a, wall.b].map((v) => (isVoid(v) ? memberPhrase(part, memberOf(v)) : `the ${v} face`));
  const where = wall.type === 'floor' ? 'floor to floor' : 'side to side';
  return {
    severity: 'warning',
    message: `${capital(one!)} and ${other} touch exactly, ${where}${more > 0 ? `, and in ${count(more, 'more place')}` : ''}. Nothing is left between them, or a foil that tears. Make them overlap, or leave ${length(limit)} between them.`,
    has: length(0),
    needs: length(limit),
    facts: { thickness_mm: 0, limit_mm: limit, missing_mm: limit, more: more > 0 ? more : undefined },
  };
}

/** It springs and tears while it stands, and what tears off can jam the cutter; of the part nothing is lost. */
function ofPassing({ wall, until, setup }: Extract<Thin, { is: 'passing' }>, context: RuleContext): Said {
  const { limit: limitFor, length, about, part } = context;
  const limit = limitFor('thickness');
  const { thicknessMm } = wall;
  return {
    severity: 'hint',
    message: `Until ${setup} cuts ${until}, only ${about(thicknessMm, limit)} of material is left ${whereOf(wall, part)}. It tears, and what tears off can jam the cutter. Cut ${until} first.`,
    thing: `wall ${whereOf(wall, part)}`,
    has: about(thicknessMm, limit),
    needs: length(limit),
    facts: { thickness_mm: thicknessMm, limit_mm: limit, missing_mm: limit - thicknessMm, until },
  };
}

/** What comes out through a chamfer or a round, and through neither face beside it. */
function ofSlope({ cut, slope, at }: Opening, { part }: RuleContext): Told {
  const [feature, edge] = [part.featureByName.get(cut.feature)!, part.featureByName.get(slope.feature)!];
  return {
    severity: 'error',
    message: `${subjectOf(part, memberOf(cut))} runs out through the slope of ${memberPhrase(part, edge.name)}. No wall is left between them, only two sharp edges. Make it smaller, move it in, or make the edge break smaller.`,
    of: [memberOf(cut), edge.name],
    span: spanOf(feature, 'diameter', 'at', 'width', 'name'),
    related: [{ span: spanOf(edge, 'size', 'radius'), message: `the slope of ${edge.name}` }],
    facts: { thickness_mm: 0 },
    at: [at],
  };
}
