/** hole/entry – a drill that starts on a slope, a curve, or half in air. */
import type { Place } from '../../process/access/column';
import { type Entry, entryOf } from '../../process/drill-path';
import type { Bored } from '../../process/drilling';
import { METRIC_DRILLS } from '../../tables/drills';
import { setField, subjectOf } from '../kit/fields';
import { fact, list, roundUp, spanOf, trimmed } from '../kit/message';
import type { Finding, Fix, Rule, RuleContext } from '../kit/rule';
import { holesThen, namesOf } from './judge';

const NAME = 'hole/entry';

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

export const entry: Rule = {
  name: NAME,
  severity: 'warning',
  summary: 'A drill starts on a slope, a curve or an edge, and walks away.',
  why: 'A drill centres itself only when both lips bite together. On a slope or a curve one lip cuts first and pushes the drill downhill: the hole ends up beside its place, bent, or the drill broken. An end mill makes a flat to start on.',
  formula:
    '`fall_mm` is how much lower the drill meets the workpiece as it is then (without set-ups: the finished part, before smaller holes that cross it, and tapped ones, are drilled) on one side of its rim than on the other, `slope_deg` the angle that makes across the hole. Broken edges do not count.',
  limits: [
    {
      name: 'slope',
      value: 5,
      unit: 'deg',
      what: 'slope of the surface a drill starts on',
      source: 'common practice, no source (5 to 10° is usual)',
    },
  ],
  bad: `part: axle
material: aluminium-6061-t6
body: { diameter: 30, length: 50, axis: x }
features:
  cotter:
    kind: hole
    face: top
    at: { x: 12, y: 21 }
    diameter: 5
    depth: through
`,
  good: `part: axle
material: aluminium-6061-t6
body: { diameter: 30, length: 50, axis: x }
features:
  cotter:
    kind: hole
    face: top
    at: { x: 12, y: 15 }
    diameter: 2.5
    depth: through
`,
  mends: 'A flat spot, milled first: a counterbore just deep enough.',
  *find(context): Generator<Finding> {
    for (const [hole, bores] of holesThen(context)) {
      if (hole.counterbore) continue;
      const slope = context.limit('slope');
      const bad = bores
        .map(({ b, place }) => ({ b, e: bestEntry(b, place, context) }))
        .filter(({ e }) => isBad(e, slope))
        .sort((x, y) => y.e.fallMm - x.e.fallMm);
      const [worst] = bad;
      if (!worst) continue;
      const { e } = worst;
      const { length } = context;
      const of = namesOf(
        hole,
        bad.map((x) => x.b),
      );
      const whose = of.length === 1 && of[0] === hole.name ? '' : ` of ${list(of)}`;
      yield {
        rule: NAME,
        severity: 'warning',
        message: `The drill${whose} meets the part ${length(e.fallMm)} lower on one side than on the other, a slope of ${trimmed(e.slopeDeg, 0)}° (over ${slope}°, a rule of thumb): it walks. Mill a flat first (a counterbore ${length(roundUp(e.fallMm, context.part.units))} deep), or drill it before the surface is cut.`,
        of,
        span: spanOf(hole, 'at', 'face'),
        related: [],
        facts: {
          fall_mm: fact(e.fallMm),
          slope_deg: Math.round(e.slopeDeg),
          limit_deg: slope,
          flat_mm: fact(roundUp(e.fallMm, context.part.units)),
        },
        at: bad.map((x) => x.b.axis),
      };
    }
  },
  *mend(finding, context): Generator<Fix> {
    const hole = subjectOf(finding, context.part);
    if (hole?.kind !== 'hole' || hole.counterbore || hole.countersink) return;
    const bores = [...holesThen(context)].find(([h]) => h === hole)?.[1] ?? [];
    const b = bores.find((x) => isBad(bestEntry(x.b, x.place, context), context.limit('slope')))?.b;
    if (!b) return;
    const wide = METRIC_DRILLS.find((d) => d.diameterMm >= hole.diameter.mm + 1)?.diameterMm;
    if (!wide) return;
    // Down to where the rim of the flat itself is all in material, counted from where the hole starts.
    const start = hole.tilt ? hole.startMm : b.startMm;
    const lowest = Math.max(...b.rim.map((r) => r.material[0]?.from ?? start)) - start;
    const depth = roundUp(lowest + 0.3, context.part.units);
    const text = `{ diameter: ${context.write(wide)}, depth: ${context.write(depth)} }`;
    const edits = setField(context.tree, hole.name, 'counterbore', text);
    if (edits) yield { title: `Mill a flat ${context.length(wide)} wide to start on`, safe: false, edits };
  },
};
