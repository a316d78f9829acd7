/** tol/chain – a distance that the dimensions do not hold: the chain between its two ends is looser. */

import type { Axis, Face, GeometricTolerance } from '../../model/model';
import { axisOfDistance } from '../../process/stackup/distance-axis';
import { chainBetween, type Dimensioned, dimensioned } from '../../process/stackup/drawn';
import { addingOf } from '../../process/stackup/errors';
import { budgetMm, type Link, likelyMm, worstMm } from '../../process/stackup/types';
import { ROUNDING } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { together } from '../kit/fields';
import { list } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { linkFacts } from './link-facts';
import { canBeWritten, fromFace, plusMinus, withTolerance } from './redatum';

interface Loose {
  readonly tolerance: GeometricTolerance;
  readonly axis: Axis;
  readonly a: Dimensioned;
  readonly b: Dimensioned;
  readonly chain: readonly Link[];
  readonly halfMm: number;
}

function* loose({ part }: RuleContext): Generator<Loose> {
  for (const tolerance of part.tolerances) {
    const { characteristic, of, value } = tolerance;
    const axis = characteristic === 'distance' ? axisOfDistance(tolerance, part) : undefined;
    const limits = value.tolerance;
    if (!axis || of.length !== 2 || limits?.upperMm === undefined || limits.lowerMm === undefined) continue;
    const a = dimensioned(of[0]!.name, axis, part);
    const b = dimensioned(of[1]!.name, axis, part);
    const chain = a && b && chainBetween(a, b, axis, part);
    const halfMm = (limits.upperMm - limits.lowerMm) / 2;
    if (chain && worstMm(chain) > halfMm + ROUNDING) yield { tolerance, axis, a, b, chain, halfMm };
  }
}

/** Which end can be dimensioned from which face, so that fewer links are left: the second end first. */
function shorter(
  a: Dimensioned,
  b: Dimensioned,
  links: number,
): readonly { readonly moved: Dimensioned; readonly to: Face }[] {
  return [
    { moved: b, other: a },
    { moved: a, other: b },
  ].flatMap(({ moved, other }) => {
    const to = other.from;
    if (to === 'middle' || moved.from === to || !moved.written) return [];
    const left = other.link ? 2 : 1;
    return left < links ? [{ moved, to }] : [];
  });
}

function cure(found: Loose): string {
  const [way] = shorter(found.a, found.b, found.chain.length);
  if (!way) return ' Give its links closer tolerances.';
  const other = way.moved === found.b ? found.a : found.b;
  const left = other.link ? 'two dimensions are left' : 'one dimension is left';
  return ` Dimension ${way.moved.name} from ${way.to}: ${left}.`;
}

const BAD = `part: rail
units: mm
material: aluminium-6061-t6
tolerance: ISO 2768-m
body: { x: 120, y: 30, z: 12 }
features:
  fixed-end: { kind: hole, face: top, at: { left: 20, y: center }, diameter: 6, depth: through }
  free-end: { kind: hole, face: top, at: { right: 20, y: center }, diameter: 6, depth: through }
tolerances:
  - { distance: 80 ±0.5, of: [fixed-end, free-end], axis: x }
`;

export const chain: Rule = defineRule({
  name: 'tol/chain',
  severity: 'warning',
  summary: 'The dimensions between the ends of a distance do not hold its tolerance.',
  why: 'Each end is dimensioned from a face of its own, and every link adds its own error. The part can be right in every dimension while the distance is wrong. Dimensioned from the same face the chain is shorter.',
  formula:
    'The links between the two ends along `axis` are each end from its face, and the body between two faces. At worst is the sum of the links’ ±, likely the root of the sum of their squares. Both are compared with half of the distance’s tolerance. A warning where the likely case is over, a hint where only the worst case is. A shop that counts the worst case (`worst-case` of tol/as-set-up) has a warning for both. Links without a tolerance have the general tolerance; without one nothing is reported.',
  bounds: 'The tolerances in the part, and its general tolerance (ISO 2768-1).',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['{ right: 20, y: center }', '{ left: 100 ±0.03, y: center }'], ['80 ±0.5', '80 ±0.25']),
  mends:
    'Dimension one end from the same face as the other, at the same place: the chain is then shortest. Or give the links tolerances that hold the distance at worst.',
  find: loose,
  tell(found, { part, shop, length }) {
    const { tolerance, a, b, chain: links, halfMm } = found;
    const adding = addingOf(shop);
    const [worst, likely] = [worstMm(links), likelyMm(links)];
    const parts = list(links.map((l) => `${l.what} ±${length(l.halfMm)}`));
    return {
      severity: budgetMm(links, adding) > halfMm + ROUNDING ? 'warning' : 'hint',
      message: `The distance from ${a.name} to ${b.name} is ±${length(halfMm)}. Its links are ${parts}. They come to ±${length(worst)} at worst, ±${length(likely)} likely.${cure(found)}`,
      has: `±${length(worst)} at worst`,
      needs: `±${length(halfMm)}`,
      of: [a.name, b.name].filter((n) => part.featureByName.has(n)),
      span: tolerance.value.span,
      related: [a, b].map(
        (d) => d.written && { span: d.written.keySpan, message: `${d.name} is dimensioned from ${d.from}` },
      ),
      facts: {
        allowed_mm: halfMm,
        worst_mm: worst,
        likely_mm: likely,
        judged_by: adding,
        links: links.length,
        ...linkFacts(links),
      },
    };
  },
  keep: ({ axis, a, b, chain: links, halfMm }) => ({
    axis,
    ends: [a.name, b.name] as const,
    links: links.length,
    halfMm,
  }),
  *mend({ axis, ends, links, halfMm }, { part }) {
    const [a, b] = ends.map((name) => dimensioned(name, axis, part));
    if (!a || !b) return;
    const ways = shorter(a, b, links);
    for (const { moved, to } of ways)
      yield change(`Dimension ${moved.name} from ${to}, at the same place`, fromFace(moved, to, part));
    for (const { moved, to } of ways) {
      const other = moved === b ? a : b;
      const each = plusMinus(halfMm / (other.link ? 2 : 1), part);
      const edits = together(fromFace(moved, to, part, each), other.link ? withTolerance(other, each) : []);
      if (canBeWritten(halfMm / 2, part)) yield change(`Dimension ${moved.name} from ${to}, ${each}`, edits);
    }
    const own = [a, b].filter((d) => d.written && d.link);
    if (ways.length > 0 || own.length !== links || !canBeWritten(halfMm / own.length, part)) return;
    const each = plusMinus(halfMm / own.length, part);
    yield change(`Allow each link ${each}`, together(...own.map((d) => withTolerance(d, each))));
  },
});
