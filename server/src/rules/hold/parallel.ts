/** hold/parallel – the jaws have no flat, opposed faces to press on. */

import { heldOf, type InJaws } from '../../process/workholding/in-jaws';
import { isRoundBetween, roundMiddleMm } from '../../process/workholding/round-between';
import { SAME } from '../../tolerance';
import { defineRule, type Told } from '../kit/define';
import { gripFix, gripsOnHand, heldIn, otherJaws } from '../kit/holds';
import { trimmed } from '../kit/message';
import { inSoftJaws, inVee, laidDown } from '../kit/other-holds';
import type { Fix, Rule, RuleContext } from '../kit/rule';

/** Less than this is no surface: an edge, the crumbs of a corner. mm². */
const NOTHING_MM2 = 0.1;
/** Less than this share of what the jaws could touch is a line: what lies against them is round. */
const LINE_SHARE = 0.02;

type Trouble =
  | { readonly kind: 'round-low'; readonly middleMm: number }
  | { readonly kind: 'round' | 'bare' | 'apart' | 'line' | 'little' };

/** A round bar whose side lies between the jaws touches each along a line. */
function roundBetween({ inVise: h, seating, gripMm }: InJaws): Trouble | undefined {
  if (!isRoundBetween(seating, h)) return undefined;
  const middleMm = roundMiddleMm(seating, h);
  return middleMm !== undefined && gripMm < middleMm - SAME ? { kind: 'round-low', middleMm } : { kind: 'round' };
}

/** Upright against a V-block round work is touched along three lines, and does not turn. */
function standsInVee({ inTime: s, hold, seating }: InJaws): boolean {
  const { body } = s.before;
  return hold.vBlock !== undefined && body.form === 'round' && body.axis === seating.upAxis;
}

function troubleOf(x: InJaws, { limit }: RuleContext): Trouble | undefined {
  if (x.gripMm <= 0 || x.hold.type === 'soft-jaws' || standsInVee(x)) return undefined;
  const round = roundBetween(x);
  if (round) return round;
  const { fixed, moving, opposed, possibleMm2, known } = x.contact;
  if (!known) return undefined;
  if (fixed.areaMm2 < NOTHING_MM2 || moving.areaMm2 < NOTHING_MM2) return { kind: 'bare' };
  if (opposed.areaMm2 < NOTHING_MM2) return { kind: 'apart' };
  if (opposed.areaMm2 < LINE_SHARE * possibleMm2) return { kind: 'line' };
  if (opposed.areaMm2 < limit('share') * possibleMm2) return { kind: 'little' };
  return undefined;
}

function tellTrouble(x: InJaws, trouble: Trouble, context: RuleContext): Told {
  const { length } = context;
  const { inTime: s, inVise: h, hold, contact, gripMm } = x;
  const { fixed, moving, opposed, possibleMm2 } = contact;
  const area = (mm2: number) => `${trimmed(mm2, mm2 < 10 ? 1 : 0)} mm²`;
  const where = `Set-up ${s.setup.name}:`;
  const bare = fixed.areaMm2 < NOTHING_MM2 ? h.fixed : h.moving;
  const message = {
    'round-low': () =>
      `Set-up ${s.setup.name} grips a round side ${length(gripMm)} high, below its centre (${length((trouble as { middleMm: number }).middleMm)}). The jaws push the workpiece up and out. Grip more than half, or use a vee block or soft jaws.`,
    round: () =>
      `${where} the jaws touch the round side along one line each. In plain jaws it turns and is dented. Use a vee block, or soft jaws milled to its shape.`,
    bare: () =>
      `${where} no flat surface of ${bare} is left for its jaw within the grip of ${length(gripMm)}. Grip other faces, or cut this one later.`,
    apart: () =>
      `${where} the jaws press past each other: ${area(fixed.areaMm2)} of ${h.fixed}, ${area(moving.areaMm2)} of ${h.moving}. They would tip the workpiece. Grip other faces, or grip more.`,
    line: () =>
      `${where} the jaws touch ${h.fixed} or ${h.moving} along a line only: almost nothing flat is left there. The workpiece turns and is dented. Grip other faces, or use soft jaws milled to its shape.`,
    little: () =>
      `${where} the jaws press on ${area(opposed.areaMm2)} of ${area(possibleMm2)}: the rest of ${h.fixed} or ${h.moving} is cut away. The workpiece may tip or be dented. Grip other faces, or move this set-up earlier.`,
  }[trouble.kind]();
  const error = trouble.kind === 'bare' || trouble.kind === 'apart' || trouble.kind === 'round-low';
  return {
    severity: error ? undefined : 'warning',
    message,
    thing: `set-up ${s.setup.name}`,
    of: [],
    span: hold.jaws?.[0]?.span ?? hold.span,
    facts: {
      set_up: s.setup.name,
      contact_mm2: opposed.areaMm2,
      fixed_mm2: fixed.areaMm2,
      moving_mm2: moving.areaMm2,
      possible_mm2: possibleMm2,
      grip_mm: gripMm,
      middle_mm: trouble.kind === 'round-low' ? trouble.middleMm : undefined,
    },
  };
}

const sample = (jaws: string) => `part: guide
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
features:
  ledge: { kind: step, face: top, along: back, width: 10, depth: 12 }
  under: { kind: step, face: bottom, along: front, width: 10, depth: 12 }
  tie: { kind: hole, face: top, at: { x: center, y: center }, diameter: 5, depth: 5 }
setups:
  first: { up: top, hold: { vise: mill-vise-100, jaws: [back, front], grip: 6, parallels: 26 }, cuts: [ledge] }
  second: { up: bottom, hold: { vise: mill-vise-100, jaws: [back, front], grip: 6, parallels: 26 }, cuts: [under] }
  third: { up: top, hold: { vise: mill-vise-100, jaws: ${jaws}, grip: 14, parallels: 18 }, cuts: [tie] }
`;

export const parallel: Rule = defineRule({
  name: 'hold/parallel',
  severity: 'error',
  summary: 'The jaws have no flat, parallel, opposite faces to press on.',
  why: 'Jaws hold only what is flat, parallel and opposite. Where one presses on nothing, or beside the other, the workpiece tips as the vise is closed. Or it leaves the vise in the cut.',
  formula:
    'The section of the workpiece is taken 0.0001 mm inside each jaw’s plane when the set-up begins. What of the two sections is opposite counts, as a share of that of a whole workpiece. Under 2 % of it the jaws touch a line (rule of thumb). Soft jaws milled to a shape are not checked.',
  limits: [
    {
      name: 'share',
      value: 0.25,
      unit: 'ratio',
      what: 'Share of what the jaws could touch that they must touch.',
      source: 'common practice, no source',
    },
  ],
  bad: sample('[back, front]'),
  good: sample('[left, right]'),
  mends:
    'Grip the other pair of faces, or more or less on parallels in the shop. Or use a V-block, soft jaws, clamps or screws.',
  *find(context) {
    for (const x of heldOf(context)) {
      const trouble = troubleOf(x, context);
      if (trouble) yield { x, trouble };
    }
  },
  tell: ({ x, trouble }, context) => tellTrouble(x, trouble, context),
  keep: ({ x }) => x.inTime.setup.name,
  *mend(setup, context): Generator<Fix | undefined> {
    const x = heldIn(setup, context);
    if (!x) return;
    yield otherJaws(x, context);
    for (const g of gripsOnHand(x, context, 3).toReversed())
      if (Math.abs(g - x.gripMm) >= SAME) yield gripFix(x, g, context);
    yield* inVee(x, context);
    yield* inSoftJaws(x, context);
    yield* laidDown(x, context);
  },
});
