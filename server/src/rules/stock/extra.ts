import type { Void } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { FACE_AXIS, type Face, type Feature, type Length, type Named, OPPOSITE, type Part } from '../../model/model';
import { sawnFaces, sawnOffAt } from '../../model/sawn-off';
import { stockSizeMm } from '../../model/stock';
import { isThroughContour } from '../../process/workholding/loose';
import { marginOf } from '../../process/workholding/margin';
import { LEAST_GRIP_MM } from '../../process/workholding/parallels';
import { at, entry, type Span } from '../../text/tree';
import { HAIR } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { addEntry, setLength } from '../kit/edits';
import { together } from '../kit/fields';
import { PRINTED_ALIKE_MM } from '../kit/message';
import { append } from '../kit/moves';
import type { Rule, RuleContext, SpanEdit } from '../kit/rule';
import { shortCastFaces } from './cast-faces';

/** By so much of a bar work is held. Common practice, no source. */
const HELD_BY_MM = 15;

const BAD = `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 8 }
stock:
  form: flat-bar
  sawn: [left, right]
  extra: { left: 3, right: 0.2 }
features:
  mount:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 5.5
    depth: through
`;

export const extra: Rule = defineRule({
  name: 'stock/extra',
  severity: 'warning',
  summary: 'A sawn face has too little or too much stock to clean up.',
  why: 'A sawn face is neither flat nor square. With too little stock outside the body some of it stays on the part. Too much stock costs pass after pass.',
  formula:
    'The stock outside the body on each face named under `sawn`; none where `extra` does not name it. A saw cut through a thick bar is more out of square. It needs at least `least`, or `wander` for each 100 mm of the sawn face’s longer side. Around an outline with tabs its frame may stay: the cutter’s width, `most` and `usual` together. Stock that the set-up grips may be the grip and `usual`. Of a face at which the part is sawn off last it is what the saw leaves. A casting needs half its tolerance (ISO 8062-3), or a quarter where both faces are milled.',
  limits: [
    {
      name: 'least',
      value: 0.5,
      unit: 'mm',
      what: 'Smallest stock to clean up on a sawn face.',
      source: 'common practice, no source',
    },
    {
      name: 'wander',
      value: 0.5,
      unit: 'mm',
      what: 'How far a saw cut is out of square over 100 mm of the bar.',
      source: 'common practice, from memory: a band saw 0.2 to 0.5 mm',
    },
    {
      name: 'most',
      value: 6,
      unit: 'mm',
      what: 'Largest stock to clean up on a sawn face; more is a hint.',
      source: 'common practice, no source',
    },
    {
      name: 'usual',
      value: 3,
      unit: 'mm',
      what: 'What the fix leaves on a sawn face.',
      source: 'common practice, no source',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['right: 0.2', 'right: 3']),
  when: 'text',
  *find(context) {
    const { stock } = context.part;
    if (!stock.written) return;
    for (const { face, given, leastMm, source } of shortCastFaces(context.part)) {
      const usual = Math.ceil(2 * leastMm + 1) / 2;
      yield { face, span: given.span, given, mm: given.mm, least: leastMm, most: given.mm, usual, cast: source };
    }
    for (const { name: face, span } of sawnFaces(context.part)) {
      const off = sawnOffAt(face, context.part);
      // Nothing is left on it: it stays as sawn.
      if (off && !off.leave) continue;
      const least = leastOn(face, context);
      // What holds the work is no more to clean up than it has to be.
      const held = off ? 0 : Math.max(framesFor(face, context), grippedOn(face, context));
      const most = Math.max(context.limit('most'), held);
      const usual = Math.max(context.limit('usual'), held);
      const given = off?.leave ?? stock.extra[face];
      const mm = given?.mm ?? 0;
      // A negative extra leaves no room for the body at all: stock/too-small.
      if (mm >= 0 && (mm < least - PRINTED_ALIKE_MM || mm > most + PRINTED_ALIKE_MM))
        yield { face, span, given, mm, least, most, usual, cast: undefined };
    }
  },
  tell({ face, span, given, mm, least, most, usual, cast }, context) {
    const { length, about } = context;
    const little = mm < least;
    return {
      severity: little ? 'warning' : 'hint',
      message: cast
        ? `The ${face} face of the casting has ${length(mm)} to clean up. By ${cast} it may be ${about(least)} short there. Leave ${length(usual)}.`
        : little
          ? `The ${face} face is sawn and has ${mm > 0 ? `only ${length(mm)} of` : 'no'} stock to clean up. Under ${about(least)} the saw marks stay on the part (rule of thumb). Leave ${length(usual)}.`
          : `The ${face} face is sawn and has ${length(mm)} of stock to clean up. Over ${length(most)} is wasted (rule of thumb). Leave ${length(usual)}${orHoldBy(face, mm, context)}.`,
      has: length(mm),
      needs: length(usual),
      of: [face],
      span: writtenAt(given, span),
      related: [given && !given.from && !cast ? { span, message: 'sawn here' } : undefined],
      facts: { extra_mm: mm, limit_mm: little ? least : most, usual_mm: usual },
    };
  },
  mends: 'Leave the usual allowance, and face it in a set-up where none does yet.',
  keep: ({ face, usual }, { part }) => ({ face, usual, facedIn: facingSetups(face, part) }),
  *mend({ face, usual, facedIn }, context) {
    const title = `Leave ${context.length(usual)} on the ${face} face`;
    const leave = sawnOffAt(face, context.part)?.leave;
    if (leave) return yield change(title, setLength(leave, usual, context.part));
    const left = setExtra(face, usual, context);
    for (const setup of facedIn)
      yield change(`${title} and cut it in ${setup}`, together(left, append(context, setup, face)));
    yield change(title, left);
  },
});

/** Set-ups that could take what is left on a face, with it up first; none where one takes it already, or nobody planned yet. */
function facingSetups(face: Face, { setups = [] }: Part): readonly string[] {
  if (setups.some(({ cuts }) => cuts.some(({ name }) => name === face))) return [];
  const could = setups.filter(({ up }) => up && up.name !== OPPOSITE[face]);
  return [...could].sort((a, b) => Number(b.up?.name === face) - Number(a.up?.name === face)).map((s) => s.name);
}

/**
 * Stock outside an outline that is left on tabs is its frame: the cutter's width, what the tabs lead to, and what a saw
 * leaves. The widest mill where none is written. 0 where no tabs hold that face.
 */
function framesFor(face: Face, { part, shop, limit }: RuleContext): number {
  const beside = (part.setups ?? []).filter(
    (s) => s.hold?.type === 'tabs' && s.up && FACE_AXIS[s.up.name].axis !== FACE_AXIS[face].axis,
  );
  const mills = shop.tools.filter((t) => t.kind === 'end-mill');
  const widths = beside.flatMap((s) => {
    const asked = mills.filter((m) => s.tools.some(({ tool }) => tool.name === m.name));
    return (asked.length > 0 ? asked : mills).map((m) => m.diameterMm);
  });
  return widths.length > 0 ? Math.max(...widths) + limit('most') + limit('usual') : 0;
}

/** What so much stock could be for, where no set-up says it yet. */
function orHoldBy(face: Face, mm: number, { part, limit }: RuleContext): string {
  if (mm >= HELD_BY_MM) return ', or grip the workpiece by it and saw it off last';
  if (part.setups || mm < LEAST_GRIP_MM + limit('usual')) return '';
  const along = (f: Feature) => isThroughContour(f) && FACE_AXIS[f.face].axis !== FACE_AXIS[face].axis;
  return part.features.some(along)
    ? ', or keep it as the frame of tabs'
    : ', or grip the workpiece by it and face it off last';
}

/**
 * Stock below the work that the jaws grip while all round it is milled, and that is faced off when it is turned over: as
 * much as lies between the jaws, and what is usual for a cutter to stay clear of them. 0 where no set-up holds it so.
 */
function grippedOn(face: Face, context: RuleContext): number {
  const { part, shop, limit } = context;
  const grips = (part.setups ?? []).flatMap(({ up, hold, cuts }) => {
    if (up?.name !== OPPOSITE[face] || !hold?.vise || !hold.grip) return [];
    // Where enough of the sides that the jaws touch is left, they could grip the part itself.
    const deepest = Math.max(0, ...cuts.map(({ name }) => deepBeside(name, up.name, hold.jaws ?? [], context)));
    const { axis } = FACE_AXIS[face];
    const leftMm = part.size[AXIS_INDEX[axis]] - deepest - marginOf(shop);
    return leftMm < Math.min(hold.grip.mm, HELD_BY_MM) ? [hold.grip.mm] : [];
  });
  return grips.length > 0 ? Math.max(...grips) + limit('usual') : 0;
}

/** How far down a side that a jaw touches is cut away, mm. */
function deepBeside(name: string, up: Face, jaws: readonly Named[], { part, solid }: RuleContext): number {
  const { min, max } = solid.body.box;
  const i = AXIS_INDEX[FACE_AXIS[up].axis];
  const whole = max[i] - min[i];
  if (jaws.some((jaw) => jaw.name === name)) return whole;
  if (!part.featureByName.has(name)) return 0;
  const opens = (v: Void) =>
    jaws.some((jaw) => {
      const { axis, sign } = FACE_AXIS[jaw.name as Face];
      const k = AXIS_INDEX[axis];
      return v.role !== 'edge' && (sign > 0 ? v.bounds.max[k] > max[k] - HAIR : v.bounds.min[k] < min[k] + HAIR);
    });
  const depths = solid.voidsOf(name).filter(opens);
  const deep = (v: Void) => (FACE_AXIS[up].sign > 0 ? max[i] - v.bounds.min[i] : v.bounds.max[i] - min[i]);
  return Math.min(whole, Math.max(0, ...depths.map(deep)));
}

/** Through a large section the saw wanders farther than it does through a small one. */
function leastOn(face: Face, { part, limit }: RuleContext): number {
  const along = 'xyz'.indexOf(FACE_AXIS[face].axis);
  const sides = stockSizeMm(part).filter((_, i) => i !== along);
  return Math.max(limit('least'), (limit('wander') * Math.max(...sides)) / 100);
}

function writtenAt(given: Length | undefined, sawn: Span): Span {
  return given && !given.from ? given.span : sawn;
}

/** Writes the extras of several faces: as one new entry where none is written yet, else each where it fits. */
export function setExtras(
  faces: readonly { readonly face: Face; readonly mm: number }[],
  context: RuleContext,
): readonly SpanEdit[] | undefined {
  const { part, tree, write } = context;
  const stock = at(tree.root, 'stock');
  if (
    faces.length > 1 &&
    stock?.type === 'map' &&
    !entry(stock, 'extra') &&
    faces.every((f) => !part.stock.extra[f.face])
  ) {
    const one = addEntry(
      tree,
      stock,
      'extra',
      `{ ${faces.map(({ face, mm }) => `${face}: ${write(mm)}`).join(', ')} }`,
    );
    return one && [one];
  }
  return together(...faces.map(({ face, mm }) => setExtra(face, mm, context)));
}

/** Writes the extra of a face, wherever it fits: over its value, beside the others, or as a new entry of `stock`. */
export function setExtra(face: Face, mm: number, { part, tree, write }: RuleContext) {
  const given = part.stock.extra[face];
  if (given && !given.from) return setLength(given, mm, part);
  const stock = at(tree.root, 'stock');
  const extras = entry(stock, 'extra')?.value;
  if (extras?.type === 'map' && extras.entries.length > 0) return addEntry(tree, extras, face, write(mm));
  return stock?.type === 'map' ? addEntry(tree, stock, 'extra', `{ ${face}: ${write(mm)} }`) : undefined;
}
