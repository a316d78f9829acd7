/** setup/tilts – put back for another set-up, the work seats a little tilted: more than an orientation tolerance allows. */

import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { featureNameOf } from '../../model/member-name';
import { FACE_AXIS, type Face, type GeometricTolerance, OPPOSITE } from '../../model/model';
import type { SetupInTime } from '../../process/stock/types';
import { heldOf } from '../../process/workholding/in-jaws';
import { blockOf } from '../../process/workholding/prying';
import { isFace } from '../../process/workholding/references';
import { seatingOf } from '../../process/workholding/seating';
import { change } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { moveCut } from '../kit/moves';
import type { Rule, RuleContext } from '../kit/rule';
import { cutsNamed, setupsIn } from '../kit/setups';
import { measuredFrom } from '../kit/tolerances';

const TURNED = new Set(['parallelism', 'perpendicularity', 'angularity']);
const AXES = [0, 1, 2] as const;

/** The way that a face looks, or a hole or pocket goes, and how far it reaches along each part axis, mm. */
interface Directed {
  readonly along: AxisIndex;
  readonly flat: boolean;
  readonly size: readonly number[];
}

function directedOf(name: string, { part, solid }: RuleContext): Directed | undefined {
  if (isFace(name)) return { along: AXIS_INDEX[FACE_AXIS[name].axis], flat: true, size: part.size };
  const feature = part.featureByName.get(name);
  // What leans is set up at its own angle, and stands to nothing of the vise.
  if (!feature || feature.tilt) return undefined;
  const voids = solid.voidsOf(name);
  if (voids.length === 0) return undefined;
  const { box } = solid.body;
  // The longest of a pattern's members, and only what of it lies in the body.
  const size = AXES.map((i) =>
    Math.max(0, ...voids.map((v) => Math.min(v.bounds.max[i], box.max[i]) - Math.max(v.bounds.min[i], box.min[i]))),
  );
  return { along: AXIS_INDEX[FACE_AXIS[feature.face].axis], flat: feature.kind !== 'hole', size };
}

/** Over how much of the work an error of its seat turns it about each part axis, mm: the longer of what guides it. */
function basesOf(s: SetupInTime, context: RuleContext): readonly number[] | undefined {
  const { part, shop } = context;
  const seating = seatingOf(s, part, shop);
  if (!seating) return undefined;
  const { min, max } = seating.box;
  const size = AXES.map((i) => max[i] - min[i]);
  const bases = [0, 0, 0];
  const { held, upAxis } = seating;
  const x = held && heldOf(context).find((h) => h.inTime === s);
  if (!held || !x) {
    // On a table or plate: over all of the lower side; about the upright, over its longer side.
    const [a, b] = AXES.filter((i) => i !== upAxis) as [AxisIndex, AxisIndex];
    bases[a] = size[b]!;
    bases[b] = size[a]!;
    bases[upAxis] = Math.max(size[a]!, size[b]!);
    return bases;
  }
  const { pair, jawAxis, alongAxis } = held;
  const supported = Math.min(held.workToMm, held.jawToMm) - Math.max(held.workFromMm, held.jawFromMm);
  bases[jawAxis] = supported;
  bases[alongAxis] = Math.max(x.gripMm, pair ? pair.at[1][1] - pair.at[0][0] : held.openingMm);
  bases[upAxis] = blockOf(x).longMm;
  return bases;
}

interface Turn {
  readonly setup: number;
  /** How far over the feature's length one error of the seat tilts it, about every axis that matters, mm. */
  readonly mm: number;
  readonly overMm: number;
}

/** How one putting back turns a feature against what its tolerance is to. */
function turnOf(setup: number, of: Directed, to: Directed, context: RuleContext): Turn | undefined {
  const bases = basesOf(setupsIn(context)[setup]!, context);
  if (!bases) return undefined;
  const square = of.along !== to.along;
  const seat = context.limit('seat');
  let worst = Number.POSITIVE_INFINITY;
  const shares = AXES.flatMap((about) => {
    // About its own direction nothing tilts; of two that stand square to each other only the angle between them counts.
    if (about === of.along || (square && about === to.along)) return [];
    const across = (3 - about - of.along) as AxisIndex;
    const base = bases[about]!;
    if (!(base > 0)) return [];
    worst = Math.min(worst, base);
    return [(seat * of.size[of.flat ? across : of.along]!) / base];
  });
  return shares.length > 0 ? { setup, mm: Math.hypot(...shares), overMm: worst } : undefined;
}

interface Tilted {
  readonly t: GeometricTolerance;
  readonly feature: string;
  readonly other: string;
  readonly at: number;
  readonly from: number | undefined;
  readonly turns: readonly Turn[];
  readonly mm: number;
}

function* tilted(context: RuleContext): Generator<Tilted> {
  const { part } = context;
  if (!part.setups) return;
  for (const t of part.tolerances) {
    if (!TURNED.has(t.characteristic)) continue;
    let worst: Tilted | undefined;
    for (const feature of t.of.map((n) => featureNameOf(n.name)))
      for (const other of measuredFrom(t, feature, part)) {
        const found = between(t, feature, other, context);
        if (found && found.mm > (worst?.mm ?? t.value.mm)) worst = found;
      }
    if (worst) yield worst;
  }
}

function between(t: GeometricTolerance, feature: string, other: string, context: RuleContext): Tilted | undefined {
  const here = cutsNamed(feature, context).map((c) => c.setup);
  const there = cutsNamed(other, context).map((c) => c.setup);
  const at = here.at(-1);
  if (at === undefined || there.some((i) => here.includes(i))) return undefined;
  const from = there.at(-1);
  if (from === undefined && !isFace(other)) return undefined;
  const [of, to] = [directedOf(feature, context), directedOf(other, context)];
  if (!of || !to) return undefined;
  // What is cut later lying on the other, or with it against the fixed jaw, is turned by that putting back alone.
  const later = Math.max(at, from ?? at);
  const first = later === at ? other : feature;
  const guided = from === undefined || guides(setupsIn(context)[later]!).includes(first as Face);
  const turns = (guided ? [later] : [Math.min(at, from), later]).map((s) => turnOf(s, of, to, context));
  const known = turns.filter((x) => x !== undefined);
  if (known.length === 0) return undefined;
  return { t, feature, other, at, from, turns: known, mm: Math.hypot(...known.map((x) => x.mm)) };
}

/** Faces that tell how the work is turned. */
function guides({ setup, up }: SetupInTime): readonly Face[] {
  const fixed = setup.hold?.jaws?.[0]?.name;
  return [...(up ? [OPPOSITE[up]] : []), ...(fixed ? [fixed] : [])];
}

function tellTilted({ t, feature, other, at, from, turns, mm }: Tilted, context: RuleContext): Told {
  const { length, limit, about } = context;
  const name = (i: number) => setupsIn(context)[i]!.setup.name;
  const cut = setupsIn(context)[at]!.cuts.find((c) => c.name === feature)!;
  const where =
    from === undefined
      ? `${feature} is cut in ${name(at)}, and ${other} in none`
      : `${feature} is cut in ${name(at)}, ${other} in ${name(from)}`;
  return {
    message: `The ${t.characteristic} of ${feature} to ${other} has a tolerance of ${length(t.value.mm)}. Feature ${where}: putting it back may tilt it by ${about(mm, t.value.mm)}. Cut both in one set-up, or use an indicator.`,
    has: about(mm, t.value.mm),
    needs: length(t.value.mm),
    of: [feature],
    span: t.span,
    related: [{ span: cut.span, message: `${feature} is cut here` }],
    facts: {
      set_up: name(at),
      from_set_up: from === undefined ? undefined : name(from),
      other,
      allowed_mm: t.value.mm,
      tilt_mm: mm,
      seat_mm: limit('seat'),
      over_mm: Math.min(...turns.map((x) => x.overMm)),
    },
  };
}

const sample = (tolerance: string) => `part: guide
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
features:
  pivot: { kind: hole, face: top, at: { x: 20, y: center }, diameter: 8, depth: through }
  pin: { kind: hole, face: top, at: { x: 40, y: center }, diameter: 6, depth: through }
  spot: { kind: hole, face: bottom, at: { x: 50, y: center }, diameter: 5, depth: 8 }
datums: { A: pivot }
tolerances:
  - { parallelism: ${tolerance}, of: pin, datums: [A] }
setups:
  first: { up: top, hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22, stop: left }, cuts: [pivot] }
  second: { up: bottom, hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22, stop: left }, cuts: [spot, pin] }
`;

export const tilts: Rule = defineRule({
  name: 'setup/tilts',
  severity: 'warning',
  summary: 'An orientation tolerance between two set-ups is closer than putting the workpiece back allows.',
  why: 'Each time the workpiece is put back it is a little tilted: a chip, a burr, a jaw that lifts. Cut what must be parallel or square by less than that without moving the workpiece. Or true it up with an indicator.',
  formula:
    'One end of the workpiece may be higher than the other by `seat`, over the length that guides it. Along the jaws that is what is between them. Across them it is the pair of parallels from outside to outside, or the grip where that is more. About the upright axis it is what both jaws touch. That slope is taken times the length of the feature, about every axis in which the two can tilt. The root of the sum of squares is compared with the width of the tolerance zone. It is one set-up alone where the workpiece rests on the datum, or has it at the fixed jaw. Machines are taken as square.',
  limits: [
    {
      name: 'seat',
      value: 0.01,
      unit: 'mm',
      what: 'How much higher one end of the workpiece may be than the other, on parallels or at the fixed jaw.',
      source: 'common practice, no source: deburred, wiped and knocked down, the parallels tight at all ends',
    },
  ],
  bad: sample('0.008'),
  good: sample('0.01'),
  mends: 'Cut both in one set-up.',
  find: tilted,
  tell: tellTilted,
  keep: ({ feature, other, at, from }) => (from === undefined ? undefined : { feature, other, at, from }),
  *mend(kept, context) {
    const { feature, other } = kept;
    const [at, from] = [setupsIn(context)[kept.at]?.setup, setupsIn(context)[kept.from]?.setup];
    if (!at || !from) return;
    yield change(`Cut ${feature} in ${from.name}`, moveCut(context, at, from, feature));
    yield change(`Cut ${other} in ${at.name}`, moveCut(context, from, at, other));
  },
});
