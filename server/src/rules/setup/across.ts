/** setup/across – a tolerance between what two set-ups cut is tighter than putting the work back allows. */

import { featureNameOf } from '../../model/member-name';
import { FACE_AXIS, type GeometricTolerance, type Setup } from '../../model/model';
import { type Way, wayToZero } from '../../process/stackup/zeros';
import { machineOf } from '../../process/workholding/forces';
import { isFace } from '../../process/workholding/references';
import { setText } from '../../text/edit';
import { change } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { setupMap } from '../kit/holds';
import { moveCut } from '../kit/moves';
import type { Fix, Rule, RuleContext } from '../kit/rule';
import { cutsNamed, saysOfTolerance, setupsIn, setZero } from '../kit/setups';
import { allowedMm, measuredFrom } from '../kit/tolerances';

/** Where something is, as against how it is shaped or turned. */
const PLACES = new Set(['position', 'concentricity', 'symmetry', 'distance', 'runout', 'total-runout']);

interface Across {
  readonly t: GeometricTolerance;
  readonly feature: string;
  readonly other: string;
  /** Set-ups, by index: that of the feature, and that of the other, where one cuts it. */
  readonly at: number;
  readonly from: number | undefined;
  readonly terms: readonly Way[];
  readonly mm: number;
}

function* acrosses(context: RuleContext): Generator<Across> {
  const { part } = context;
  if (!part.setups || part.setups.length < 2) return;
  for (const t of part.tolerances) {
    if (!PLACES.has(t.characteristic)) continue;
    let worst: Across | undefined;
    const ofs = t.characteristic === 'distance' ? t.of.slice(0, 1) : t.of;
    for (const feature of ofs.map((n) => featureNameOf(n.name))) {
      for (const other of measuredFrom(t, feature, part)) {
        const found = between(t, feature, other, context);
        if (found && found.mm > (worst?.mm ?? allowedMm(t))) worst = found;
      }
    }
    if (worst) yield worst;
  }
}

function between(t: GeometricTolerance, feature: string, other: string, context: RuleContext): Across | undefined {
  const here = cutsNamed(feature, context).map((c) => c.setup);
  const there = cutsNamed(other, context).map((c) => c.setup);
  const at = here.at(-1);
  if (at === undefined || there.some((i) => here.includes(i))) return undefined;
  const from = there.at(-1);
  // A face that nothing cuts is found where it is: one finding. What another set-up cut was found by its own zero as well.
  if (from === undefined && !isFace(other)) return undefined;
  const setups = setupsIn(context);
  const own = wayToZero(setups[at]!.setup, context.shop);
  if (!own) return undefined;
  const direct = Object.values(setups[at]!.setup.zero).some((z) => z?.name === other);
  const before = from !== undefined && !direct ? wayToZero(setups[from]!.setup, context.shop) : undefined;
  const terms = before ? [before, own] : [own];
  return { t, feature, other, at, from, terms, mm: Math.hypot(...terms.map((r) => r.mm)) };
}

function tellAcross({ t, feature, other, at, from, terms, mm }: Across, context: RuleContext): Told {
  const { length, about } = context;
  const setups = setupsIn(context);
  const name = (i: number) => setups[i]!.setup.name;
  const cut = setups[at]!.cuts.find((c) => c.name === feature)!;
  const where =
    from === undefined
      ? `${feature} is cut in ${name(at)}, and ${other} in none`
      : `${feature} is cut in ${name(at)}, ${other} in ${name(from)}`;
  return {
    message: `The ${t.characteristic} of ${feature} to ${other} has a tolerance of ±${length(allowedMm(t))}. Feature ${where}: setting zero again costs ±${about(mm, allowedMm(t))}. ${cureTold(other, at, context)}`,
    has: `±${about(mm, allowedMm(t))}`,
    needs: `±${length(allowedMm(t))}`,
    of: [feature],
    span: t.span,
    related: [{ span: cut.span, message: `${feature} is cut here` }],
    facts: {
      set_up: name(at),
      from_set_up: from === undefined ? undefined : name(from),
      other,
      allowed_mm: allowedMm(t),
      relocating_mm: mm,
      methods: terms.map((r) => r.method).join(' '),
    },
    says: [saysOfTolerance(t.value.span)],
  };
}

/** A bore that was cut before and can be looked into with this face up: a dial indicator swept round it finds its middle. */
function isIndicated(other: string, at: number, context: RuleContext): boolean {
  const feature = context.part.featureByName.get(other);
  const { up } = setupsIn(context)[at]!;
  if (feature?.kind !== 'hole' || feature.places.length !== 1 || feature.tilt || !up) return false;
  const upright = FACE_AXIS[feature.face].axis === FACE_AXIS[up].axis;
  return upright && (feature.depth.through || feature.face === up);
}

function cureTold(other: string, at: number, context: RuleContext): string {
  if (isIndicated(other, at, context))
    return `Indicate ${other} in ${setupsIn(context)[at]!.setup.name} with a dial indicator, or cut both in one set-up.`;
  const hole = context.part.featureByName.get(other)?.kind === 'hole';
  const bore = hole ? ` with ${other} right through` : `, set zero on it`;
  return `Cut both in one set-up${bore}, or use a finer method.`;
}

/** Zero on the bore itself. */
function indicated(other: string, at: number, context: RuleContext): Fix | undefined {
  const { setup, up } = setupsIn(context)[at]!;
  if (!up || !isIndicated(other, at, context)) return undefined;
  const axes = (['x', 'y', 'z'] as const).filter((a) => a !== FACE_AXIS[up].axis && setup.zero[a]);
  const edits = axes.flatMap((a) => setZero(context, setup, a, other) ?? []);
  const map = setupMap(context, setup);
  const method = map ? setText(context.tree, map, 'method', 'indicator') : [];
  return axes.length === 2 && edits.length > 0
    ? change(`Indicate ${other} in ${setup.name}`, [...edits, ...method])
    : undefined;
}

/** Zero of these set-ups by the finest method that the machine has. */
function finer(setups: readonly Setup[], context: RuleContext): Fix | undefined {
  const errors = machineOf(setups[0]!, context.shop)?.zeroErrorMm ?? {};
  const finest = Object.entries(errors).sort((a, b) => a[1] - b[1])[0]?.[0];
  if (!finest) return undefined;
  const edits = setups.flatMap((s) => {
    const map = setupMap(context, s);
    return s.method?.name !== finest && map ? setText(context.tree, map, 'method', finest) : [];
  });
  return change(`Locate zero by ${finest}`, edits);
}

const sample = (first: string, second: string) => `part: guide
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
features:
  pivot: { kind: hole, face: top, at: { x: 20, y: center }, diameter: 8, depth: through }
  pin: { kind: hole, face: top, at: { x: 40, y: center }, diameter: 6, depth: through }
tolerances:
  - { distance: 20 ±0.015, of: [pin, pivot], axis: x }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22, stop: left }
    zero: { x: left, y: back, z: parallels }
    method: edge-finder
    cuts: ${first}
  second:
    up: bottom
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22, stop: left }
    zero: { x: left, y: back, z: parallels }
    method: edge-finder
    cuts: ${second}
`;

export const across: Rule = defineRule({
  name: 'setup/across',
  severity: 'warning',
  summary: 'A tolerance between two set-ups is closer than setting zero again allows.',
  why: 'Each time the workpiece is put back, its zero is set again, a few hundredths off. Cut what must be close to each other without moving the workpiece. Or locate one by the other.',
  formula:
    'Setting zero again costs √(r₁² + r₂²), by how well each set-up sets zero (the machine’s `zero-error`). It is compared with half of the tolerance along one axis. It is one term where zero is set on the other feature or face itself. Without a `method` it is an edge finder. A dimension cut from its own datum has the error of the process alone. Every change of datum adds its own (Britton, Notes on Tolerance Planning and Control, 2000).',
  bounds: 'The tolerance in the part, and the `zero-error` of the machine in the shop file.',
  limits: [],
  bad: sample('[pivot]', '[pin]'),
  good: sample('[pivot, pin]', '[bottom]'),
  mends: 'Cut both in one set-up, or use a finer method.',
  find: acrosses,
  tell: tellAcross,
  keep: ({ feature, other, at, from }) => ({ feature, other, at, from }),
  *mend({ feature, other, at: cutIn, from: foundIn }, context) {
    const setups = setupsIn(context);
    const at = setups[cutIn]?.setup;
    const from = setups[foundIn ?? -1]?.setup;
    if (!at) return;
    if (from) {
      yield change(`Cut ${feature} in ${from.name}`, moveCut(context, at, from, feature));
      yield change(`Cut ${other} in ${at.name}`, moveCut(context, from, at, other));
    }
    yield indicated(other, cutIn, context);
    yield finer(from ? [at, from] : [at], context);
  },
});
