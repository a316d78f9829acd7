import type { Wall } from '../../geometry/types';
import { openSlopes } from '../../geometry/walls/slopes';
import { touchingCuts } from '../../geometry/walls/touching';
import { wallsNotJudged } from '../form/not-judged';
import { count, fact, memberOf, spanOf } from '../message';
import type { Finding, Rule, RuleContext } from '../rule';
import { wantsThickness } from './slender';
import { thicken } from './thicken';
import { isVoid, onePerPair, placesOf, seenAs, unjudgedBelow, wallsBelow, whereOf } from './walls';

export const thin: Rule = {
  name: 'wall/thin',
  severity: 'warning',
  mayBeError: true,
  summary: 'Less material between two cuts, or between a cut and the outside, than stands up to a cutter.',
  why: 'A thin wall springs away from the cutter and comes back behind it: it ends up thicker than drawn, chattered, torn at the top or gone. Heat and clamping bend it too.',
  formula:
    'The shortest line through material between two removed volumes, or from one to a face of the body, after everything is cut, cones of drills included (`thickness_mm`), against `limit_mm`. Cuts that touch and do not overlap have one of 0, a warning. Half the limit or less is an error, but under the point of a drill, where what is thin is one spot: a warning. Of a wall that is also slender, and must be thicker still for that, only wall/slender speaks.',
  limits: [
    {
      name: 'metal',
      value: 0.8,
      unit: 'mm',
      what: 'Least wall or floor in metal.',
      source: 'common practice, no source',
    },
    {
      name: 'plastic',
      value: 1.5,
      unit: 'mm',
      what: 'Least wall or floor in plastics and laminates.',
      source: 'common practice, no source',
    },
  ],
  bad: `part: cover
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
`,
  good: `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 8 }
features:
  window:
    kind: pocket
    face: top
    at: { x: 18, y: center }
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
`,
  *find(context): Iterable<Finding> {
    const limit = context.limit('thickness');
    const walls = wallsBelow(context.solid, limit);
    const unjudged = unjudgedBelow(context.solid, limit);
    if (unjudged > 0) yield wallsNotJudged('wall/thin', context.part, unjudged);
    yield* ofNothing(context, limit);
    yield* throughSlopes(context);
    for (const { wall, more } of onePerPair(walls, (w) => w.thicknessMm)) {
      const { thicknessMm } = wall;
      const severity = thicknessMm <= limit / 2 + 1e-9 && !isUnderPoint(wall) ? 'error' : 'warning';
      // One wall, one word: wall/slender asks for more thickness still.
      if (wantsThickness(wall, limit, severity, context)) continue;
      yield {
        rule: 'wall/thin',
        severity,
        message: `Only ${context.length(thicknessMm)} of material ${wall.type === 'floor' ? 'as a floor ' : ''}${whereOf(wall)}${more > 0 ? ` (and ${count(more, 'more place')} between the two)` : ''}; ${context.length(limit)} is the least that is cut without it giving way (a rule of thumb). ${context.length(limit - thicknessMm)} more would do.`,
        ...placesOf(wall, context.part),
        facts: {
          thickness_mm: fact(thicknessMm),
          limit_mm: limit,
          missing_mm: fact(limit - thicknessMm),
          ...(more > 0 ? { more } : {}),
        },
        data: { wall: seenAs(wall) },
      };
    }
  },
  mends: 'A smaller, shallower or moved feature, another pitch, or a larger body, so that the wall meets the limit.',
  *mend(finding, context) {
    const wall = finding.data?.wall;
    if (wall) yield* thicken(wall, context.limit('thickness'), context);
  },
};

/** Thin only at the tip of a drill's cone: a hole that breaks through there is a blemish, not a part that is lost. */
function isUnderPoint({ a, b }: Wall): boolean {
  return a.role === 'point' || (isVoid(b) && b.role === 'point');
}

/** Cuts that touch exactly: what stands between them is nothing, or a foil that tears. */
function* ofNothing(context: RuleContext, limit: number): Iterable<Finding> {
  for (const { wall, more } of onePerPair(touchingCuts(context.solid), () => 0)) {
    const [one, other] = [wall.a, wall.b].map((v) => `\`${isVoid(v) ? memberOf(v) : v}\``);
    const where = wall.type === 'floor' ? 'floor to floor' : 'side to side';
    yield {
      rule: 'wall/thin',
      severity: 'warning',
      message: `${one} and ${other} touch exactly, ${where}: nothing is left between them, or a foil that tears${more > 0 ? ` (and in ${count(more, 'more place')})` : ''}. Let them overlap, or leave ${context.length(limit)}.`,
      ...placesOf(wall, context.part),
      facts: { thickness_mm: 0, limit_mm: limit, missing_mm: limit, ...(more > 0 ? { more } : {}) },
      data: { wall: seenAs(wall) },
    };
  }
}

/** What comes out through a chamfer or a round, and through neither face beside it. */
function* throughSlopes({ part, solid }: RuleContext): Iterable<Finding> {
  for (const { cut, slope, at } of openSlopes(solid)) {
    const [feature, edge] = [part.featureByName.get(cut.feature), part.featureByName.get(slope.feature)];
    if (!feature || !edge) continue;
    yield {
      rule: 'wall/thin',
      severity: 'error',
      message: `\`${memberOf(cut)}\` runs out through the slope of \`${edge.name}\`: no wall is left between them, only two sharp edges. Make it smaller, move it in, or break the edge less.`,
      of: [memberOf(cut), edge.name],
      span: spanOf(feature, 'diameter', 'at', 'width', 'name'),
      related: [{ span: spanOf(edge, 'size', 'radius'), message: `the slope of \`${edge.name}\`` }],
      facts: { thickness_mm: 0 },
      at: [at],
    };
  }
}
