/** hole/crosses – a hole runs into another cavity from the side. */

import type { Vec3, Void } from '../../geometry/types';
import type { Feature } from '../../model/model';
import { isDrilledBefore } from '../../process/drill-order';
import { crossedBores, sideOpenings } from '../../process/drill-path';
import { type Bored, boresOf, parallel } from '../../process/drilling';
import type { BoredInSetup } from '../../process/drilling-in-setup';
import { dot, minus } from '../../process/section';
import { isForScrewOnto, setScrewDepthMm } from '../../process/set-screw';
import { SAME } from '../../tolerance';
import { edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { count, memberOf, memberPhrase, PRINTED_ALIKE_MM, roundUp, spanOf, subjectOf, trimmed } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { holesInSetup } from './bores';

/** Distance between the axes of two bores that are not parallel, mm. */
function offset(a: Bored, v: Void): number {
  const [d, e] = [a.of.frame.w, v.frame.w];
  const n = [d[1] * e[2] - d[2] * e[1], d[2] * e[0] - d[0] * e[2], d[0] * e[1] - d[1] * e[0]] as const;
  const size = Math.hypot(...n);
  const edge = v.region.outer.edges[0];
  const [u, q] = edge?.type === 'arc' ? [edge.centre.u, edge.centre.v] : [0, 0];
  const { origin, u: fu, v: fv } = v.frame;
  const axis = [0, 1, 2].map((i) => origin[i]! + u * fu[i]! + q * fv[i]!) as unknown as readonly [
    number,
    number,
    number,
  ];
  return Math.abs(dot(minus(axis, a.axis), n)) / size;
}

const BAD = `part: manifold
material: aluminium-6061-t6
body: { x: 60, y: 30, z: 30 }
features:
  gallery: { kind: hole, face: left, at: { y: center, z: center }, diameter: 8, depth: 50 }
  port: { kind: hole, face: top, at: { x: 30, y: 19.5 }, diameter: 6, depth: 20 }
`;

export const crosses: Rule = defineRule({
  name: 'hole/crosses',
  severity: 'warning',
  summary: 'A hole breaks into another cavity from the side: the drill drifts, and a burr stays inside.',
  why: 'Where one side of a drill cuts air while the other cuts metal, it is drawn to the open side. It may break. Of two holes that cross near their middles, drill the smaller one second. The burr between them needs a tool that gets there.',
  formula:
    'For crossing holes: the distance between the axes against a quarter of the larger diameter. Beyond it a warning, else a hint. For other cavities: the length over which the hole is half in them, against half its diameter. With set-ups, only cavities that are there when it is drilled count.',
  limits: [
    {
      name: 'offset',
      value: 0.25,
      unit: 'ratio',
      what: 'Distance between the axes of crossing holes that a drill withstands, as a share of the larger diameter.',
      source: 'common practice, no source',
    },
    {
      name: 'half-open',
      value: 0.5,
      unit: 'ratio',
      what: 'Length over which a hole may be half in a cavity, as a share of its diameter.',
      source: 'common practice, no source',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['y: center, z: center', 'y: 9, z: center'], ['y: 19.5', 'y: 21']),
  *find(context): Generator<Met> {
    for (const [hole, bores] of holesInSetup(context)) {
      if (hole.tilt) continue;
      const met = new Map<string, Met>();
      for (const then of bores) {
        for (const found of meetings(then, context)) {
          const known = met.get(found.other.name);
          if (!known) met.set(found.other.name, { ...found, more: 0 });
          else met.set(found.other.name, { ...(isWorse(found, known) ? found : known), more: known.more + 1 });
        }
      }
      yield* met.values();
    }
  },
  tell: ({ b, to, other, at, message, facts, severity, more }) => ({
    severity,
    message: more > 0 ? message.replace('. ', `, and so do ${count(more, 'more pair')} of their members. `) : message,
    facts: { ...facts, more: more > 0 ? more : undefined },
    of: [memberOf(b.of), memberOf(to)],
    span: spanOf(b.hole, 'at', 'depth'),
    related: [{ span: other.nameSpan, message: `${memberOf(to)}, which it breaks into` }],
    at: [at],
  }),
});

interface Meeting extends Judged {
  readonly b: Bored;
  readonly to: Void;
  readonly other: Feature;
  readonly at: Vec3;
}
type Met = Meeting & { readonly more: number };

/** Each cavity one bore runs into and that is worth a word. */
function* meetings({ b }: BoredInSetup, context: RuleContext): Generator<Meeting> {
  const { solid, part } = context;
  // A cavity that is cut later is not there yet; where two bores cross, a burr stays whichever was first.
  const openings = sideOpenings(b).flatMap((o) => (o.to ? [{ ...o, to: o.to }] : []));
  const bores = crossedBores(finishedOf(b, context)).map((to) => ({ to, lengthMm: 0, at: b.axis }));
  for (const { to, lengthMm, at } of [...openings, ...bores]) {
    const other = part.featureByName.get(to.feature);
    if (!other || b.hole.from?.name === to.feature || other.from?.name === b.hole.name) continue;
    const found = judge(b, to, lengthMm, context);
    // Of two holes that cross, the one that is drilled second is told of.
    const first = to.role === 'bore' && other.kind === 'hole' && isDrilledBefore(b.hole, other, part, solid);
    if (found && !first) yield { ...found, b, to, other, at };
  }
}

/** The same bore on the finished part. */
function finishedOf(b: Bored, { part, solid }: RuleContext): Bored {
  return boresOf(b.hole, part, solid).find((x) => x.of.member === b.of.member) ?? b;
}

function isWorse(a: Meeting, b: Meeting): boolean {
  const rank = ({ severity, facts }: Meeting) =>
    (severity === 'warning' ? 1e6 : 0) + Number(facts.offset_mm ?? facts.half_open_mm ?? 0);
  return rank(a) > rank(b) + SAME;
}

type Judged = Pick<Told, 'severity' | 'message'> & { readonly facts: NonNullable<Told['facts']> };

function judge(b: Bored, to: Void, lengthMm: number, context: RuleContext): Judged | undefined {
  const { limit, about, part } = context;
  const d = b.hole.diameter.mm;
  const [it, other] = [subjectOf(part, memberOf(b.of)), memberPhrase(part, memberOf(to))];
  const edge = to.region.outer.edges[0];
  if (to.role === 'bore' && !parallel(b.of, to) && edge?.type === 'arc') {
    const by = offset(b, to);
    const larger = Math.max(d, 2 * edge.radius);
    const most = limit('offset') * larger;
    const bad = by > most + SAME;
    return {
      severity: bad ? 'warning' : 'hint',
      message:
        `${it} crosses ${other} ${by < 5e-4 ? 'axis through axis' : `with their axes ${about(by, most)} apart`}. ` +
        (bad
          ? `Over ${about(most)} (${trimmed(limit('offset'), 2)} of the larger diameter, a rule of thumb) the drill is drawn aside. Move the axes nearer together, or the holes apart.`
          : cureFor(b, to, context)),
      facts: { offset_mm: by, limit_mm: most, limit_ratio: limit('offset'), diameter_mm: d },
    };
  }
  const most = limit('half-open') * d;
  if (lengthMm <= most) return undefined;
  return {
    severity: 'warning',
    message: `${it} runs half in ${other} over ${about(lengthMm, most)}. Over half its diameter (${about(most)}, a rule of thumb) the drill is drawn to the open side. Drill it before ${to.feature} is cut, move it, or mill it.`,
    facts: { half_open_mm: lengthMm, limit_mm: most, diameter_mm: d },
  };
}

/** What is tapped into a plain bore from the side is for the screw that holds what lies in it: it meets the bore it is for. */
function cureFor(b: Bored, to: Void, context: RuleContext): string {
  if (!isForScrewOnto(b.hole, to, context.part))
    return 'A burr is left inside. Drill the smaller hole second, and deburr inside.';
  const short = stopsShort(b, context);
  if (short)
    return `Its thread ends ${context.about(short.byMm)} before ${to.feature}: no screw in it gets there. Make the thread ${context.length(short.meetsMm)} deep.`;
  return `A screw in it presses on what is in ${to.feature}. Drill and tap it first, and finish ${to.feature} last: that cuts the burr off.`;
}

/** How deep its thread must be to let a screw out, and how far it stops before that. */
function stopsShort({ hole }: Bored, { part, solid }: RuleContext) {
  const leastMm = setScrewDepthMm(hole, part, solid);
  if (leastMm === undefined || !hole.threadDepth) return undefined;
  const meetsMm = roundUp(leastMm, part.units);
  const byMm = meetsMm - hole.threadDepth.mm;
  return byMm > PRINTED_ALIKE_MM ? { meetsMm, byMm } : undefined;
}
