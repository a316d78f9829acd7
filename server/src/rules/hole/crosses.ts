/** hole/crosses – a hole runs into another cavity from the side. */
import type { Vec3, Void } from '../../geometry/types';
import type { Feature, Part } from '../../model/model';
import { isDrilledBefore } from '../../process/drill-order';
import { crossedBores, sideOpenings } from '../../process/drill-path';
import { type Bored, boresOf, parallel } from '../../process/drilling';
import type { BoredThen } from '../../process/drilling-in-setup';
import { dot, minus } from '../../process/section';
import { edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { count, memberOf, spanOf, trimmed } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { holesThen } from './bores';

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
  summary: 'A hole runs into another cavity from the side: the drill drifts, and a burr stays inside.',
  why: 'Where one side of a drill meets air while the other still cuts, it is drawn to the open side and may break. Of two holes that cross near their middles the smaller one is drilled second, and the burr between them needs a tool that gets there.',
  formula:
    'For crossing holes, `offset_mm` between the axes against a quarter of the larger diameter: beyond it a warning, else a hint. For other cavities, the length over which the hole is half in them, `half_open_mm`, against half its diameter; with set-ups only cavities that are there when it is drilled.',
  limits: [
    {
      name: 'offset',
      value: 0.25,
      unit: 'ratio',
      what: 'distance between the axes of crossing holes, of the larger diameter, that a drill bears',
      source: 'common practice, no source',
    },
    {
      name: 'half-open',
      value: 0.5,
      unit: 'ratio',
      what: 'length over which a hole may be half in a cavity, of its diameter',
      source: 'common practice, no source',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['y: center, z: center', 'y: 9, z: center'], ['y: 19.5', 'y: 21']),
  *find(context): Generator<Met> {
    for (const [hole, bores] of holesThen(context)) {
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
    message:
      more > 0
        ? `${message} ${count(more, 'more pair')} of their members ${more === 1 ? 'does' : 'do'} the same.`
        : message,
    facts: { ...facts, more: more > 0 ? more : undefined },
    of: [memberOf(b.of), memberOf(to)],
    span: spanOf(b.hole, 'at', 'depth'),
    related: [{ span: other.nameSpan, message: `${memberOf(to)}, which it runs into` }],
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
function* meetings({ b, place }: BoredThen, context: RuleContext): Generator<Meeting> {
  const { solid, part } = context;
  // A cavity that is cut later is not there yet; where two bores cross, a burr stays whichever was first.
  const openings = sideOpenings(b, place).flatMap((o) => (o.to ? [{ ...o, to: o.to }] : []));
  const bores = crossedBores(finishedOf(b, context), solid).map((to) => ({ to, lengthMm: 0, at: b.axis }));
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
  return rank(a) > rank(b) + 1e-6;
}

type Judged = Pick<Told, 'severity' | 'message'> & { readonly facts: NonNullable<Told['facts']> };

function judge(b: Bored, to: Void, lengthMm: number, { limit, length, part }: RuleContext): Judged | undefined {
  const d = b.hole.diameter.mm;
  const it = b.hole.pattern ? memberOf(b.of) : 'It';
  const edge = to.region.outer.edges[0];
  if (to.role === 'bore' && !parallel(b.of, to) && edge?.type === 'arc') {
    const by = offset(b, to);
    const larger = Math.max(d, 2 * edge.radius);
    const most = limit('offset') * larger;
    const bad = by > most + 1e-6;
    return {
      severity: bad ? 'warning' : 'hint',
      message:
        `${it} crosses ${memberOf(to)}, ${by < 5e-4 ? 'axis through axis' : `their axes ${length(by)} apart`}` +
        (bad
          ? `: more than ${length(most)} (${trimmed(limit('offset'), 2)} of the larger diameter, a rule of thumb), so the drill is drawn aside. Bring the axes nearer, or part the holes.`
          : `: ${cureFor(b, to, part)}`),
      facts: { offset_mm: by, limit_mm: most, limit_ratio: limit('offset'), diameter_mm: d },
    };
  }
  const most = limit('half-open') * d;
  if (lengthMm <= most) return undefined;
  return {
    severity: 'warning',
    message: `${it} runs half in ${memberOf(to)} over ${length(lengthMm)}, more than half its diameter (${length(most)}, a rule of thumb): the drill is drawn to the open side. Drill it before ${to.feature} is cut, move it, or mill it.`,
    facts: { half_open_mm: lengthMm, limit_mm: most, diameter_mm: d },
  };
}

/** What is tapped into a plain bore from the side is for the screw that holds what lies in it: it meets the bore it is for. */
function cureFor({ hole }: Bored, to: Void, part: Part): string {
  const other = part.featureByName.get(to.feature);
  return hole.thread && other?.kind === 'hole' && !other.thread
    ? `as for a set screw. Drill and tap it before ${to.feature} is finished to size, or clear the burr out of it.`
    : 'drill it second, and plan for the burr inside.';
}
