/** hold/angle-plate – the work does not lie against the plate it is clamped to. */

import { boundaryOf } from '../../geometry/2d/boolean';
import { sheetOf } from '../../geometry/2d/indexed-region';
import { momentsOf, regionEdges } from '../../geometry/2d/moments';
import { rectLoop } from '../../geometry/2d/shape-outline';
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { FACE_AXIS, FACE_PLANE, OPPOSITE, type Place } from '../../model/model';
import { timelineOf } from '../../process/stock';
import { crossOf } from '../../process/stock/in-process-stock';
import { type AtPlate, atPlate } from '../../process/workholding/angle-plate';
import { seatingOf } from '../../process/workholding/seating';
import type { Seating } from '../../process/workholding/seating-types';
import { NEAR } from '../../tolerance';
import { change } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { setHold } from '../kit/holds';
import { figure, PRINTED_ALIKE_MM, roundDown, trimmed } from '../kit/message';
import { contactNotKnown } from '../kit/not-judged';
import type { Finding, Rule, RuleContext } from '../kit/rule';
import { setupsIn } from '../kit/setups';

/** Less than this is no surface, mm². */
const NOTHING_MM2 = 0.1;

interface Against {
  readonly seating: Seating;
  readonly at: AtPlate;
  /** What of the plate's side the work touches, and could if it were whole; undefined where an outline cannot be followed. */
  readonly touchesMm2: number | undefined;
  readonly possibleMm2: number;
  /** Across the plate, and how much of the height lies against it. */
  readonly thickMm: number;
  readonly liesMm: number;
  /** The clamp that presses farthest off the plate's side. */
  readonly off?: Off;
}

/** A clamp with nothing of the plate behind it. */
interface Off {
  readonly place: Place;
  readonly byMm: number;
}

function* againstPlates({ part, solid, shop }: RuleContext): Generator<Against> {
  if (!part.setups?.some((s) => s.hold?.type === 'angle-plate')) return;
  for (const s of timelineOf(part, solid).setups.slice(part.settled ?? 0)) {
    const seating = s.setup.hold?.type === 'angle-plate' ? seatingOf(s, part, shop) : undefined;
    const at = seating && atPlate(seating, s.setup.hold, shop);
    const off = seating && at && clampOff(seating, at);
    if (seating && at && seating.heightMm > 0) yield { ...touching(seating, at), ...(off && { off }) };
  }
}

function clampOff({ of }: Seating, { against, side: { min, max } }: AtPlate): Off | undefined {
  const [a, b] = FACE_PLANE[against].map((name) => AXIS_INDEX[name]) as [AxisIndex, AxisIndex];
  const past = (x: number, k: AxisIndex) => Math.max(0, min[k] - x, x - max[k]);
  const offs = (of.setup.hold?.clamps ?? []).map((place) => ({
    place,
    byMm: Math.hypot(past(place.u, a), past(place.v, b)),
  }));
  return offs.reduce<Off | undefined>((w, o) => (o.byMm > (w?.byMm ?? PRINTED_ALIKE_MM) ? o : w), undefined);
}

function touching(seating: Seating, at: AtPlate): Against {
  const axis = AXIS_INDEX[FACE_AXIS[at.against].axis];
  const [i, k] = [(axis + 1) % 3, (axis + 2) % 3] as [AxisIndex, AxisIndex];
  const { box, of } = seating;
  const low = (n: AxisIndex) => Math.max(box.min[n], at.side.min[n]);
  const high = (n: AxisIndex) => Math.min(box.max[n], at.side.max[n]);
  const possibleMm2 = Math.max(0, high(i) - low(i)) * Math.max(0, high(k) - low(k));
  const base = {
    seating,
    at,
    possibleMm2,
    thickMm: box.max[axis] - box.min[axis],
    liesMm: Math.max(0, high(seating.upAxis) - low(seating.upAxis)),
  };
  if (possibleMm2 < NOTHING_MM2) return { ...base, touchesMm2: 0 };
  const { regions } = crossOf(of.before, axis, at.atMm - FACE_AXIS[at.against].sign * NEAR);
  if (!regions) return { ...base, touchesMm2: undefined };
  if (regions.length === 0) return { ...base, touchesMm2: 0 };
  const plate = sheetOf(rectLoop(low(i), low(k), high(i), high(k)).edges);
  const edges = boundaryOf([sheetOf(regions.flatMap(regionEdges)), plate], []);
  return { ...base, touchesMm2: Math.max(0, momentsOf(edges).area) };
}

/** Stands out above the plate like a work that is held by too little. */
function outMost({ thickMm, liesMm }: Against, { limit }: RuleContext): number {
  return limit('out') * Math.min(thickMm, liesMm);
}

function tellOut(x: Against, context: RuleContext): Told {
  const { length, limit } = context;
  const { seating, at, thickMm, liesMm } = x;
  const { setup } = seating.of;
  const ratio = at.outMm / Math.min(thickMm, liesMm);
  const than = thickMm <= liesMm ? `the ${length(thickMm)} it is thick` : `the ${length(liesMm)} against it`;
  return {
    severity: 'warning',
    message: `Set-up ${setup.name}: ${length(at.outMm)} of the workpiece are above ${at.plate.name}, ${figure(ratio, limit('out'))} times ${than}. Over ${figure(limit('out'), ratio)} times it bends (rule of thumb). Set it lower, over an edge of the table if necessary.`,
    of: [],
    span: setup.hold?.out?.span ?? setup.hold?.anglePlate?.span ?? setup.span,
    facts: { set_up: setup.name, out_mm: at.outMm, thick_mm: thickMm, against_mm: liesMm, limit_ratio: limit('out') },
  };
}

function tellAgainst({ seating, at, touchesMm2 = 0, possibleMm2 }: Against, { length }: RuleContext): Told {
  const { setup } = seating.of;
  const where = `Set-up ${setup.name}:`;
  const { plate, against, outMm } = at;
  const message =
    possibleMm2 < NOTHING_MM2
      ? `${where} the workpiece reaches ${length(outMm)} above ${plate.name} and is ${length(seating.heightMm)} high: nothing of it is against the plate. Set it lower.`
      : touchesMm2 < NOTHING_MM2
        ? `${where} nothing flat is left of ${against} against ${plate.name}. Put ${OPPOSITE[against]} against the plate, or cut ${against} after.`
        : `${where} ${trimmed(touchesMm2, 0)} mm² of ${against} touch ${plate.name}, of ${trimmed(possibleMm2, 0)} mm²: the clamps tip it. Put ${OPPOSITE[against]} against the plate, or support the hollow.`;
  return {
    severity: touchesMm2 < NOTHING_MM2 ? undefined : 'warning',
    message,
    of: [],
    span: setup.hold?.against?.span ?? setup.span,
    facts: {
      set_up: setup.name,
      contact_mm2: touchesMm2,
      possible_mm2: possibleMm2,
      out_mm: outMm,
      height_mm: seating.heightMm,
    },
  };
}

function tellOff({ seating, at }: Against, { byMm }: Off, { about }: RuleContext): Told {
  const { setup } = seating.of;
  return {
    severity: 'warning',
    message: `Set-up ${setup.name}: a clamp presses ${about(byMm)} beyond the side of ${at.plate.name}. Nothing is behind the workpiece there: it bends or tips. Clamp it in front of the plate.`,
    of: [],
    span: setup.hold?.span ?? setup.span,
    facts: { set_up: setup.name, beyond_mm: byMm, out_mm: at.outMm },
  };
}

function isTooFarOut(x: Against, context: RuleContext): boolean {
  return x.at.outMm > outMost(x, context) + PRINTED_ALIKE_MM;
}

function isBare({ touchesMm2, possibleMm2 }: Against, { limit }: RuleContext): boolean {
  return touchesMm2 !== undefined && (possibleMm2 < NOTHING_MM2 || touchesMm2 < limit('share') * possibleMm2);
}

const sample = (against: string) => `part: bracket
material: aluminium-6061-t6
body: { x: 60, y: 30, z: 100 }
features:
  ledge: { kind: step, face: front, along: left, width: 50, depth: 8 }
  tie: { kind: hole, face: top, at: { x: 20, y: 20 }, diameter: 6, depth: 12 }
setups:
  first: { up: front, hold: { vise: mill-vise-100, jaws: [left, right], grip: 18 }, cuts: [ledge] }
  second: { up: top, hold: { angle-plate: angle-plate-100, against: ${against}, clamps: [{ x: 30, z: 30 }, { x: 30, z: 80 }] }, cuts: [tie] }
`;

export const anglePlate: Rule = defineRule({
  name: 'hold/angle-plate',
  severity: 'error',
  summary: 'A workpiece that is clamped to an angle plate is not flat against it.',
  why: 'A workpiece on end is held by the face that is flat against the plate. Where that face is cut away, or above the plate, the clamps bend it or let it tip.',
  formula:
    'The section of the workpiece within the plate is taken 0.0001 mm inside the face under `against`. It is compared with that of a whole workpiece. Less than 0.1 mm² is an error (rule of thumb), less than `share` a warning. How far it reaches above the plate is written under `out`, or as it is on the table. Over `out` times its thickness, or times what is against the plate, it is a warning. So is a clamp that presses beside the plate. The force of clamps is not known.',
  limits: [
    {
      name: 'share',
      value: 0.25,
      unit: 'ratio',
      what: 'Share of what could be against the plate that must be.',
      source: 'common practice, no source',
    },
    {
      name: 'out',
      value: 3,
      unit: 'ratio',
      what: 'How far it reaches above the plate, over its thickness or what is against the plate.',
      source: 'common practice, no source: as above the jaws of a vise, 2 to 3 times',
    },
  ],
  bad: sample('front'),
  good: sample('back'),
  mends: 'Put the other face against the plate, or set it lower.',
  *gaps(context): Generator<Finding> {
    for (const { seating, touchesMm2 } of againstPlates(context))
      if (touchesMm2 === undefined) yield contactNotKnown('hold/angle-plate', seating.of.setup, undefined);
  },
  *find(context) {
    for (const x of againstPlates(context)) if (isBare(x, context) || isTooFarOut(x, context) || x.off) yield x;
  },
  tell(x, context) {
    if (isBare(x, context)) return tellAgainst(x, context);
    return isTooFarOut(x, context) || !x.off ? tellOut(x, context) : tellOff(x, x.off, context);
  },
  keep: (x, context) => ({
    setup: x.seating.of.index,
    other: OPPOSITE[x.at.against],
    outMm: isBare(x, context) ? undefined : outMost(x, context),
    clamped: !isBare(x, context) && !isTooFarOut(x, context),
  }),
  *mend({ setup, other, outMm, clamped }, context) {
    const s = setupsIn(context)[setup];
    if (!s || clamped) return;
    if (outMm !== undefined) {
      const mm = roundDown(outMm, context.part.units);
      yield change(`Set it ${context.length(mm)} above the plate`, setHold(context, s.setup, 'out', context.write(mm)));
    } else yield change(`Put ${other} against the plate`, setHold(context, s.setup, 'against', other));
  },
});
