import { meetings } from '../../geometry/2d/intersect';
import { pathLine, pathLoop } from '../../geometry/2d/path-outline';
import type { Edge, Point2 } from '../../geometry/types';
import { homeOf } from '../../model/feature-kinds';
import type { WrittenPath } from '../../model/feature-kinds/kind';
import { FACE_PLANE, type Feature, type PathCorner } from '../../model/model';
import { type Span, samePlace } from '../../text/tree';
import { SAME } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { setLength } from '../kit/edits';
import { roundDown } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';

const BAD = `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 8 }
features:
  window:
    kind: pocket
    face: top
    path:
      - { x: 10, y: 10, round: 4 }
      - { x: 50, y: 30, round: 4 }
      - { x: 50, y: 10, round: 4 }
      - { x: 10, y: 30, round: 4 }
    depth: through
`;

export const selfCrossing: Rule = defineRule({
  name: 'form/self-crossing',
  severity: 'error',
  summary: 'A path that crosses itself, or a rounding that does not fit between its corners.',
  why: 'An outline that crosses itself has no inside, so it is not clear what stays. A rounding that is longer than its sides cannot be cut, and the corner would stay sharp.',
  formula:
    'Every pair of sides is intersected, roundings included. A rounding beside an arc must touch both sides within their lengths.',
  limits: [],
  bad: BAD,
  good: edited(
    BAD,
    ['      - { x: 50, y: 30, round: 4 }\n', ''],
    [
      '      - { x: 50, y: 10, round: 4 }\n',
      '      - { x: 50, y: 10, round: 4 }\n      - { x: 50, y: 30, round: 4 }\n',
    ],
  ),
  when: 'text',
  *find(context): Generator<Crossing> {
    for (const feature of context.part.features) {
      for (const path of homeOf(feature).paths(feature)) {
        yield* tooRound(feature, path, context);
        yield* crossing(feature, path, context);
      }
    }
  },
  tell: ({ report: told }) => told,
  mends: 'Put two corners in the other order, or use the largest rounding that fits.',
  keep: ({ feature, corner }) => ({ feature: feature.name, corner }),
  *mend({ feature: name, corner }, context) {
    const { part, length } = context;
    const feature = part.featureByName.get(name);
    if (!feature) return;
    for (const { corners } of homeOf(feature).paths(feature)) {
      if (corner === undefined) yield* swaps(corners, context);
      const round = corners.find((c) => samePlace(c.round?.span, corner))?.round;
      for (const share of round ? [0.75, 0.5, 0.25] : []) {
        const mm = roundDown(round!.mm * share, part.units);
        if (mm > 0) yield change(`Make it ${length(mm)}, which fits`, setLength(round, mm, part));
      }
    }
  },
});

interface Crossing {
  readonly feature: Feature;
  readonly report: Told;
  /** Where the rounding that does not fit is written. */
  readonly corner?: Span;
}

/** A path that crosses itself once is cured by walking the stretch between the crossing sides the other way. */
function* swaps(corners: readonly PathCorner[], { tree }: RuleContext) {
  const texts = corners.map((c) => {
    const { start, end } = tree.locate(c.span);
    return tree.text.slice(start, end);
  });
  for (let i = 1; i < corners.length; i++) {
    const j = (i + 1) % corners.length;
    yield change(`Swap corners ${Math.min(i, j) + 1} and ${Math.max(i, j) + 1}`, [
      { span: corners[i]!.span, newText: texts[j]! },
      { span: corners[j]!.span, newText: texts[i]! },
    ]);
  }
}

function* crossing(
  feature: Feature,
  { corners, closed, span }: WrittenPath,
  { write }: RuleContext,
): Generator<Crossing> {
  const edges = closed ? (pathLoop(corners)?.edges ?? []) : pathLine(corners);
  for (let i = 0; i < edges.length; i++) {
    for (let j = i + 1; j < edges.length; j++) {
      const shared = sharedEnds(edges, i, j, closed);
      const p = meetings(edges[i]!, edges[j]!).find((m) => !shared.some((s) => near(s, m)));
      if (!p) continue;
      const [u, v] = FACE_PLANE[feature.face];
      const base = feature.places[0] ?? { u: 0, v: 0 };
      const [a, b] = [edges[i]!.corner, edges[j]!.corner];
      const sides =
        a !== undefined && b !== undefined
          ? `the sides from corner ${a + 1} and from corner ${b + 1} meet`
          : 'two of its sides meet';
      const told: Told = {
        message: `The path crosses itself: ${sides} at ${u} = ${write(p.u + base.u)}, ${v} = ${write(p.v + base.v)}. Put the corners in the order of the outline.`,
        of: [feature.name],
        span: corners[b ?? -1]?.span ?? span,
        related: a !== undefined && corners[a] ? [{ span: corners[a].span, message: 'the side that begins here' }] : [],
        facts: { [`${u}_mm`]: p.u + base.u, [`${v}_mm`]: p.v + base.v },
      };
      yield { feature, report: told };
      return;
    }
  }
}

/** Where neighbours in the chain join; no crossing. */
function sharedEnds(edges: readonly Edge[], i: number, j: number, closed: boolean): readonly Point2[] {
  const ends: Point2[] = [];
  if (j === i + 1) ends.push(edges[i]!.b);
  if (closed && i === 0 && j === edges.length - 1) ends.push(edges[0]!.a);
  return ends;
}
const near = (a: Point2, b: Point2) => Math.hypot(a.u - b.u, a.v - b.v) < SAME;

/**
 * A rounding beside an arc for which there is no place: no circle of that radius touches both sides within their
 * lengths. (Between straight sides the spec tells, before there is a feature.)
 */
function* tooRound(feature: Feature, { corners, closed }: WrittenPath, { length }: RuleContext): Generator<Crossing> {
  const edges = closed ? (pathLoop(corners)?.edges ?? []) : pathLine(corners);
  for (const [i, corner] of corners.entries()) {
    const inside = closed || (i > 0 && i < corners.length - 1);
    if (!inside || !corner.round || corner.round.mm <= 0) continue;
    const radius = corner.round.mm;
    const drawn = edges.some((e) => e.type === 'arc' && e.corner === i && Math.abs(e.radius - radius) < SAME);
    if (drawn) continue;
    const told: Told = {
      message: `The rounding of ${length(radius)} does not fit at corner ${i + 1}. No circle of that radius touches both sides there. Make it smaller.`,
      of: [feature.name],
      span: corner.round.span,
      related: [{ span: corner.span, message: 'the corner' }],
      facts: { radius_mm: radius, corner: i + 1 },
    };
    yield { feature, report: told, corner: corner.round.span };
  }
}
