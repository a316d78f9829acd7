/** tol/chain – a distance that the dimensions do not hold: the chain between its two ends is looser. */
import type { GeometricTolerance } from '../../spec/model';
import { writeLength } from '../../text/format';
import { fact, list } from '../message';
import type { Finding, Fix, Rule, RuleContext, SpanEdit } from '../rule';
import { chainBetween, type Dimensioned, dimensioned, type Link, likelyCase, worstCase } from './links';

const NAME = 'tol/chain';

interface Loose {
  readonly tolerance: GeometricTolerance;
  readonly a: Dimensioned;
  readonly b: Dimensioned;
  readonly chain: readonly Link[];
  readonly halfMm: number;
}

function* loose({ part, tree }: RuleContext): Generator<Loose> {
  for (const tolerance of part.tolerances) {
    const { characteristic, axis, of, value } = tolerance;
    const limits = value.tolerance;
    if (
      characteristic !== 'distance' ||
      !axis ||
      of.length !== 2 ||
      limits?.upperMm === undefined ||
      limits.lowerMm === undefined
    )
      continue;
    const a = dimensioned(of[0]!.name, axis, part, tree);
    const b = dimensioned(of[1]!.name, axis, part, tree);
    const chain = a && b && chainBetween(a, b, axis, part);
    const halfMm = (limits.upperMm - limits.lowerMm) / 2;
    if (chain && worstCase(chain) > halfMm + 1e-9) yield { tolerance, a, b, chain, halfMm };
  }
}

/** The other end dimensioned from the same face, at the same place. */
function fromSameFace(
  { a, b, chain }: Loose,
  { part }: RuleContext,
): { edits: readonly SpanEdit[]; title: string } | undefined {
  if (a.from === b.from || a.from === 'middle' || !b.entry?.value || chain.length < 3) return undefined;
  const high = ['right', 'back', 'top'].includes(a.from);
  const axisSize = part.size[{ left: 0, right: 0, front: 1, back: 1, bottom: 2, top: 2 }[a.from]]!;
  const value = writeLength(high ? axisSize - b.atMm : b.atMm, part.units);
  return {
    title: `Dimension ${b.name} from ${a.from}, as ${a.name} is`,
    edits: [
      { span: b.entry.key.span, newText: a.from },
      { span: b.entry.value.span, newText: value },
    ],
  };
}

export const chain: Rule = {
  name: NAME,
  severity: 'warning',
  summary: 'A toleranced distance that the dimensions between its ends do not hold.',
  why: 'Each end is dimensioned from a face of its own, and every link adds its own error. The part can be right in every single dimension and the distance that matters be wrong. Dimensioned from the same face the chain is shorter.',
  formula:
    'The links between the two ends along `axis`: each end from the face it is dimensioned from, and the body’s size where those are two faces. `worst_mm` is the sum of the links’ ±, `likely_mm` the root of the sum of their squares, both against half of the distance’s tolerance (`allowed_mm`). A warning where even the likely case is over, a hint where only the worst case is. Links without a tolerance of their own take the general tolerance; without one nothing is said.',
  limits: [],
  bad: `part: rail
units: mm
material: aluminium-6061-t6
tolerance: ISO 2768-m
body: { x: 120, y: 30, z: 12 }
features:
  fixed-end: { kind: hole, face: top, at: { left: 20, y: center }, diameter: 6, depth: through }
  free-end: { kind: hole, face: top, at: { right: 20, y: center }, diameter: 6, depth: through }
tolerances:
  - { distance: 80 ±0.5, of: [fixed-end, free-end], axis: x }
`,
  good: `part: rail
units: mm
material: aluminium-6061-t6
tolerance: ISO 2768-m
body: { x: 120, y: 30, z: 12 }
features:
  fixed-end: { kind: hole, face: top, at: { left: 20, y: center }, diameter: 6, depth: through }
  free-end: { kind: hole, face: top, at: { left: 100 ±0.03, y: center }, diameter: 6, depth: through }
tolerances:
  - { distance: 80 ±0.25, of: [fixed-end, free-end], axis: x }
`,
  mends: 'The second end dimensioned from the same face as the first, at the same place.',
  *find(context): Generator<Finding> {
    for (const found of loose(context)) {
      const { tolerance, a, b, chain: links, halfMm } = found;
      const [worst, likely] = [worstCase(links), likelyCase(links)];
      const { length } = context;
      const parts = list(links.map((l) => `${l.what} ±${length(l.halfMm)}`));
      const cure = fromSameFace(found, context)
        ? ` Dimensioned from one face, ${links.length - 1} links are left.`
        : ' Give its links tolerances of their own.';
      yield {
        rule: NAME,
        severity: likely > halfMm + 1e-9 ? 'warning' : 'hint',
        message: `The distance is to be within ±${length(halfMm)}, but between ${a.name} and ${b.name} stand ${parts}: ±${length(worst)} at worst, ±${length(likely)} likely.${cure}`,
        of: [a.name, b.name].filter((n) => context.part.featureByName.has(n)),
        span: tolerance.value.span,
        related: [a, b].flatMap((d) =>
          d.entry ? [{ span: d.entry.key.span, message: `${d.name} is dimensioned from ${d.from}` }] : [],
        ),
        facts: { allowed_mm: fact(halfMm), worst_mm: fact(worst), likely_mm: fact(likely), links: links.length },
      };
    }
  },
  *mend(finding, context): Generator<Fix> {
    const found = [...loose(context)].find((l) => l.tolerance.value.span === finding.span);
    const fix = found && fromSameFace(found, context);
    if (fix) yield { ...fix, safe: false };
  },
};
