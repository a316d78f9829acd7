/** hold/on-sawn – a sawn face as the reference for a tolerance it cannot hold. */

import { featureNameOf } from '../../model/member-name';
import { FACE_AXIS, type Face, OPPOSITE, type Part, type SawCut } from '../../model/model';
import { sawnFaces } from '../../model/sawn-off';
import type { Toleranced } from '../../process/stackup';
import { tolerancedOf } from '../../process/stackup/toleranced';
import { timelineOf } from '../../process/stock';
import { facesTakenOff } from '../../process/stock/taken-off';
import type { SetupInTime } from '../../process/stock/types';
import { isFace, type Reference, referencesOf, stateOf } from '../../process/workholding/references';
import { SAWN_MM } from '../../tables/holding.data';
import type { Span } from '../../text/tree';
import { change } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { setHold } from '../kit/holds';
import { PRINTED_ALIKE_MM } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { setZero } from '../kit/setups';
import { allowedMm, measuredFrom } from '../kit/tolerances';

/** Of the shape of one surface alone: needs no reference. */
const FORM = new Set(['flatness', 'straightness', 'roundness', 'cylindricity', 'circularity']);

/** What is to be held of a feature, and what it is measured from. */
interface Close {
  readonly what: string;
  readonly allowedMm: number;
  readonly span: Span;
  readonly feature: string;
  readonly from: readonly string[];
}

interface Poor {
  readonly s: SetupInTime;
  readonly ref: Reference;
  readonly close: Close;
}

/** Tolerances under `tolerances:`, and those of places and depths where they stand. */
function closeIn(part: Part): readonly Close[] {
  const ruled = part.tolerances
    .filter((t) => !FORM.has(t.characteristic))
    .flatMap((t) =>
      t.of.map(({ name }): Close => {
        const feature = featureNameOf(name);
        const { characteristic: what, span } = t;
        return { what, allowedMm: allowedMm(t), span, feature, from: measuredFrom(t, feature, part) };
      }),
    );
  const placed = [...tolerancedOf(part)]
    .filter((t) => t.given !== 'distance')
    .flatMap(({ ends, allowedMm: mm, span }) =>
      ends.flatMap((end, i): Close[] => {
        const other = ends[1 - i]!;
        return isFace(end) ? [] : [{ what: 'distance', allowedMm: mm, span, feature: end, from: [other] }];
      }),
    );
  return [...ruled, ...placed];
}

function* poor({ part, solid, limit }: RuleContext): Generator<Poor> {
  if (!part.setups || sawnFaces(part).length === 0) return;
  const close = closeIn(part).filter((c) => c.allowedMm < limit('sawn') - PRINTED_ALIKE_MM);
  if (close.length === 0) return;
  for (const s of timelineOf(part, solid).setups) {
    const said = new Set<string>();
    for (const one of close)
      for (const ref of sawnUnder(s, one, { part, solid })) {
        if (said.has(`${ref.face} ${one.feature}`)) continue;
        said.add(`${ref.face} ${one.feature}`);
        yield { s, ref, close: one };
      }
  }
}

/** What a set-up lies on or against that is still sawn where it cuts the feature, and that the tolerance is measured along. */
function sawnUnder(
  s: SetupInTime,
  { feature, from: measured }: Close,
  { part, solid }: Pick<RuleContext, 'part' | 'solid'>,
): readonly Reference[] {
  const own = { part, solid };
  if (isFace(feature)) return measured.flatMap((d) => (isFace(d) ? squareTo(s, feature, d, own) : []));
  const cut = s.cuts.find((c) => c.name === feature && c.feature);
  if (!cut) return [];
  const here = new Set(s.cuts.flatMap((c) => [c.name, ...facesTakenOff(c, part)]));
  const from = measured.filter((d) => !here.has(d));
  const axes = from.flatMap((d) => (isFace(d) ? [FACE_AXIS[d].axis] : []));
  return referencesOf(s).filter(
    (ref) => axes.includes(ref.axis) && stateOf(ref.face, s, cut.order, part, solid) === 'sawn',
  );
}

/** One face cut here by another that was milled before: which is which turns on the order, not on the tolerance. */
function squareTo(s: SetupInTime, one: Face, other: Face, own: Pick<RuleContext, 'part' | 'solid'>) {
  return [
    [one, other],
    [other, one],
  ].flatMap(([x, y]) => {
    const cut = s.cuts.find((c) => c.face === x);
    if (!cut || stateOf(y!, s, cut.order, own.part, own.solid) !== 'cut') return [];
    // What the workpiece stands square by: an end that only touches a stop, or gives a zero, turns nothing.
    return referencesOf(s).filter(
      (ref) =>
        (ref.as === 'seat' || ref.as === 'fixed jaw') &&
        ref.axis === FACE_AXIS[y!].axis &&
        stateOf(ref.face, s, cut.order, own.part, own.solid) === 'sawn',
    );
  });
}

/** What a saw leaves to be milled. Common practice, no source. */
const LEAVE_MM = 1;

/** A size that ends at a face where the part is sawn off, which nothing mills then. */
interface Ended {
  readonly sawn: SawCut;
  readonly size: Toleranced;
}

function* ended({ part, limit }: RuleContext): Generator<Ended> {
  for (const { sawnOff: sawn } of part.setups ?? []) {
    if (!sawn || sawn.leave) continue;
    if (part.setups!.some((s) => s.cuts.some((c) => c.name === sawn.name))) continue;
    for (const size of tolerancedOf(part))
      if (size.ends.some((e) => e === sawn.name) && size.allowedMm < limit('sawn') - PRINTED_ALIKE_MM)
        yield { sawn, size };
  }
}

function tellEnded({ sawn, size }: Ended, { length, limit }: RuleContext): Told {
  return {
    message: `The part is sawn off at ${sawn.name}, and nothing mills that face. A sawn face is off by about ${length(limit('sawn'))} (rule of thumb); ${size.text} allows ±${length(size.allowedMm)}. Leave ${length(LEAVE_MM)} at the saw, and face ${sawn.name} last.`,
    has: `±${length(limit('sawn'))}`,
    needs: `±${length(size.allowedMm)}`,
    of: [sawn.name],
    span: sawn.span,
    related: [{ span: size.span, message: 'the tolerance' }],
    facts: { face: sawn.name, as: 'end', allowed_mm: size.allowedMm, sawn_mm: limit('sawn') },
  };
}

function tellPoor({ s, ref, close: { what, allowedMm: allowed, span, feature } }: Poor, context: RuleContext): Told {
  const { length, limit } = context;
  const as = {
    seat: `rests on ${ref.face}`,
    'fixed jaw': `has ${ref.face} against the fixed jaw`,
    stop: `has ${ref.face} against the stop`,
    zero: `sets ${ref.axis} zero on ${ref.face}`,
  }[ref.as];
  return {
    message: `Set-up ${s.setup.name} ${as}, which is still sawn. A sawn face is off by about ${length(limit('sawn'))} (rule of thumb); ${feature} has a ${what} of ±${length(allowed)}. Face ${ref.face} first, or use a milled face.`,
    thing: `set-up ${s.setup.name}`,
    has: `±${length(limit('sawn'))}`,
    needs: `±${length(allowed)}`,
    of: [feature],
    span: ref.span,
    related: [{ span, message: 'the tolerance' }],
    facts: {
      set_up: s.setup.name,
      face: ref.face,
      as: ref.as,
      allowed_mm: allowed,
      sawn_mm: limit('sawn'),
    },
  };
}

const sample = (zero: string, stop: string) => `part: link
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
stock: { form: flat-bar, sawn: [left, right], extra: { right: 2 } }
features:
  tie: { kind: hole, face: top, at: { x: 20, y: center }, diameter: 6, depth: 12 }
datums: { A: bottom, B: right }
tolerances:
  - { position: 0.2, of: tie, datums: [A, B] }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22${stop} }
    zero: { x: ${zero}, y: back, z: parallels }
    cuts: [right]
  second:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22${stop} }
    zero: { x: ${zero}, y: back, z: parallels }
    cuts: [tie]
`;

export const onSawn: Rule = defineRule({
  name: 'hold/on-sawn',
  severity: 'warning',
  summary: 'A sawn face is the reference for a tolerance that it cannot hold.',
  why: 'A saw leaves an end rough and out of square. Whatever rests on it or is measured from it is off by as much, and differently on every piece.',
  formula:
    'Half of the tolerance of what is cut, against `sawn`. It counts along the axis of a sawn face that the set-up uses: as seat, fixed jaw, stop or zero. A face that was cut before does not count. Of two faces the one that is milled later counts, by its seat and fixed jaw. So does a size that ends where the part is sawn off, if nothing mills that face.',
  limits: [
    {
      name: 'sawn',
      value: SAWN_MM.value,
      unit: 'mm',
      what: 'How far a sawn face is off.',
      source: SAWN_MM.source,
    },
  ],
  bad: sample('left', ''),
  good: sample('right', ''),
  mends: 'Put zero or the stop at the opposite face.',
  *find(context): Generator<Poor | Ended> {
    yield* poor(context);
    yield* ended(context);
  },
  tell: (hit, context) => ('ref' in hit ? tellPoor(hit, context) : tellEnded(hit, context)),
  keep: (hit) => ('ref' in hit ? { setup: hit.s.index, face: hit.ref.face } : undefined),
  *mend({ setup: index, face }, context) {
    const setup = context.part.setups?.[index];
    if (!setup) return;
    const other = OPPOSITE[face];
    const { axis } = FACE_AXIS[face];
    const byZero = setup.zero[axis]?.name === face ? (setZero(context, setup, axis, other) ?? []) : [];
    const byStop = setup.hold?.stop?.name === face ? (setHold(context, setup, 'stop', other) ?? []) : [];
    yield change(`Use ${other} instead of ${face}`, [...byZero, ...byStop]);
  },
});
