/** hole/sloped-start – a drill that starts on a slope, a curve, or half in air. */
import type { Hole } from '../../model/model';
import type { Place } from '../../process/column';
import { type Entry, entryOf } from '../../process/drill-path';
import type { Bored } from '../../process/drilling';
import { screwByDiameter } from '../../process/tolerances/intent';
import { METRIC_DRILLS } from '../../tables/drills';
import { counterboreFor } from '../../tables/heads';
import { change, edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { setField } from '../kit/fields';
import { list, memberPhrase, roundUp, spanOf, trimmed } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { holesInSetup, namesOf } from './bores';

interface Sloping {
  readonly hole: Hole;
  /** Its bores that start badly, the worst first. */
  readonly bad: readonly { readonly b: Bored; readonly e: Entry }[];
  /** How deep the first of them, in the pattern's order, must be milled for a flat that is all in material, mm. */
  readonly flatMm: number;
}

/** The better of the faces a hole may be drilled from. */
function bestEntry(b: Bored, place: Place, { limit }: RuleContext): Entry {
  const all = b.faces.map((face) => entryOf(b, place, face));
  const bad = (e: Entry) => (isBad(e, limit('slope')) ? 1 : 0);
  return all.sort((a, c) => bad(a) - bad(c) || a.slopeDeg - c.slopeDeg)[0]!;
}

function isBad(e: Entry, slopeDeg: number): boolean {
  // What meets nothing at all all round is no hole; what never meets material on one side breaks out, and is told of there.
  return e.inAir < 1 && e.slopeDeg > slopeDeg;
}

const BAD = `part: axle
material: aluminium-6061-t6
body: { diameter: 30, length: 50, axis: x }
features:
  cotter:
    kind: hole
    face: top
    at: { x: 12, y: 21 }
    diameter: 5
    depth: through
`;

export const slopedStart: Rule = defineRule({
  name: 'hole/sloped-start',
  severity: 'warning',
  summary: 'A drill starts on a slope, a curve or an edge, and wanders.',
  why: 'A drill centres itself only when both lips cut together. On a slope or a curve one lip cuts first and pushes the drill downhill. The hole ends up beside its place or bent, or the drill breaks. An end mill makes a flat to start on.',
  formula:
    'The drill meets the workpiece lower on one side of its rim. By how much counts, and the angle of that. The workpiece is as it is when the hole is drilled. Without set-ups it is the finished part before smaller crossing holes and tapped ones are drilled. Broken edges do not count.',
  limits: [
    {
      name: 'slope',
      value: 5,
      unit: 'deg',
      what: 'Slope of the surface that a drill may start on.',
      source: 'common practice, no source (5 to 10° is usual)',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['y: 21', 'y: 15'], ['diameter: 5', 'diameter: 2.5']),
  mends: 'Mill a flat first: a counterbore just deep enough, as wide as the head of its screw.',
  *find(context): Generator<Sloping> {
    const slope = context.limit('slope');
    for (const [hole, bores] of holesInSetup(context)) {
      if (hole.counterbore) continue;
      const bad = bores
        .map(({ b, place }) => ({ b, e: bestEntry(b, place, context) }))
        .filter(({ e }) => isBad(e, slope));
      if (bad.length > 0)
        yield { hole, flatMm: flatUnder(hole, bad[0]!.b), bad: bad.sort((x, y) => y.e.fallMm - x.e.fallMm) };
    }
  },
  tell({ hole, bad }, { part, limit, length, about }): Told {
    const { e } = bad[0]!;
    const slope = limit('slope');
    const of = namesOf(
      hole,
      bad.map((x) => x.b),
    );
    const whose = of.length === 1 ? memberPhrase(part, of[0]!) : list(of);
    const flatMm = roundUp(e.fallMm, part.units);
    return {
      message: `The drill for ${whose} starts on a slope of ${trimmed(e.slopeDeg, 0)}°, ${about(e.fallMm)} lower on one side. Over ${slope}° it wanders (rule of thumb). Mill a flat first (a counterbore ${length(flatMm)} deep), or drill it before the surface is cut.`,
      has: `${trimmed(e.slopeDeg, 0)}°`,
      needs: `${slope}° or less`,
      of,
      span: spanOf(hole, 'at', 'face'),
      facts: { fall_mm: e.fallMm, slope_deg: Math.round(e.slopeDeg), limit_deg: slope, flat_mm: flatMm },
      at: bad.map((x) => x.b.axis),
    };
  },
  keep: ({ hole, flatMm }) => ({ of: hole.name, flatMm }),
  *mend({ of, flatMm }, { part, tree, write, length }) {
    const hole = part.featureByName.get(of);
    if (hole?.kind !== 'hole' || hole.countersink) return;
    // A head that would lie on the flat goes into it.
    const screw = hole.thread ? undefined : (hole.clearance?.screw ?? screwByDiameter(hole));
    const wide =
      (screw && counterboreFor(screw)?.diameterMm) ??
      METRIC_DRILLS.find((d) => d.diameterMm >= hole.diameter.mm + 1)?.diameterMm;
    if (!wide) return;
    const text = `{ diameter: ${write(wide)}, depth: ${write(roundUp(flatMm + 0.3, part.units))} }`;
    yield change(`Mill a flat ${length(wide)} wide to start on`, setField(tree, of, 'counterbore', text));
  },
});

/** Down to where the rim of the flat itself is all in material, counted from where the hole starts, mm. */
function flatUnder(hole: Hole, b: Bored): number {
  const start = hole.tilt ? hole.startMm : b.startMm;
  return Math.max(...b.rim.map((r) => r.material[0]?.from ?? start)) - start;
}
