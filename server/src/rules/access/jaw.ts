/** access/jaw – cutter, shank or holder would run into a jaw, the stop, a parallel or a clamp. */

import { FACES, OPPOSITE } from '../../model/model';
import type { FixtureMeets, Verdict } from '../../process/access';
import { heldOf } from '../../process/workholding/in-jaws';
import { LEAST_GRIP_MM } from '../../process/workholding/parallels';
import { seatingOf } from '../../process/workholding/seating';
import { setLength } from '../kit/edits';
import { otherJaws } from '../kit/holds';
import { fact, roundDown, wouldDo } from '../kit/message';
import { clampedElsewhere, inSoftJaws, laidDown } from '../kit/other-holds';
import type { Finding, Fix, Rule, RuleContext, SpanEdit } from '../kit/rule';
import { movesFor, placesTold, setupOf, verdictFor, verdictsIn } from '../kit/verdicts';

const NAME = 'access/jaw';

function findingOf(v: Verdict, { tool, clash }: FixtureMeets, context: RuleContext): Finding {
  const { length } = context;
  const { setup, up } = setupOf(v, context);
  const hold = setup.hold;
  const below = -clash.heightAboveMm;
  const what = clash.with.what;
  const above =
    what === 'clamp'
      ? 'its top'
      : what === 'stop'
        ? 'its top'
        : what === 'parallel'
          ? 'their tops'
          : 'the tops of the jaws';
  const places = placesTold(v, context);
  const [own] = places === '' && !context.counting ? heldOtherwise(v, { tool, clash }, context) : [];
  const message = `In ${setup.name} (${up} up) the ${clash.by === 'cutter' ? 'cutter' : `${clash.by} of the cutter`} ${tool.name} would run ${length(clash.overlapMm)} into the ${what}: its tip goes ${length(below)} below ${above}.${wouldDo([own])}${places}`;
  return {
    rule: NAME,
    severity: clash.by === 'holder' && context.shop.builtIn ? 'warning' : 'error',
    message,
    of: [v.cut.name],
    span: v.cut.span,
    related: hold?.grip
      ? [{ span: hold.grip.span, message: 'how deep it is held' }]
      : hold
        ? [{ span: hold.span, message: 'how it is held' }]
        : [],
    facts: {
      height_above_jaws_mm: fact(clash.heightAboveMm),
      overlap_mm: fact(clash.overlapMm),
      meets: what,
      by: clash.by,
      tool: tool.name,
      ...(hold?.grip && { grip_mm: fact(hold.grip.mm) }),
    },
    at: [clash.at],
  };
}

/** So much less in the jaws, with a pair of parallels on hand where one is written. */
function lessGrip(v: Verdict, { clash }: FixtureMeets, context: RuleContext): Fix | undefined {
  const { part, shop, solid, length } = context;
  const s = setupOf(v, context);
  const hold = s.setup.hold;
  const seating = seatingOf(s, part, shop);
  if (!hold?.grip || !seating?.held || solid.body === undefined) return undefined;
  const most = hold.grip.mm + clash.heightAboveMm;
  const { jawHeightMm } = seating.held.vise;
  // A pair on hand that leaves no more than that in the jaws.
  const grips = shop.parallelsMm.map((p) => jawHeightMm - p).filter((g) => g <= most + 1e-6 && g >= LEAST_GRIP_MM);
  const grip = Math.max(...grips);
  const to = grips.length > 0 ? grip : roundDown(most, part.units);
  if (!(to >= LEAST_GRIP_MM)) return undefined;
  const edits: SpanEdit[] = [];
  const edit = setLength(hold.grip, to, part);
  if (!edit) return undefined;
  edits.push(edit);
  if (hold.parallels) {
    const other = setLength(hold.parallels, jawHeightMm - to, part);
    if (!other) return undefined;
    edits.push(other);
  }
  return { title: `Hold it by ${length(to)}`, safe: false, edits };
}

/** What is in the way put somewhere else: less in the jaws, the stop at the other end, the clamps where nothing is cut. */
function* heldOtherwise(v: Verdict, fixture: FixtureMeets, context: RuleContext): Generator<Fix> {
  const { what } = fixture.clash.with;
  const s = setupOf(v, context);
  const hold = s.setup.hold;
  if (what === 'fixed jaw' || what === 'moving jaw' || what === 'parallel') {
    const fix = lessGrip(v, fixture, context);
    if (fix) yield fix;
  }
  if (what === 'clamp') {
    const seating = seatingOf(s, context.part, context.shop);
    if (seating) yield* clampedElsewhere(seating, context);
  }
  const stop = FACES.find((f) => f === hold?.stop?.name);
  // With the stop at an end that is cut, the work cannot stand out of the jaws there.
  if ((what === 'stop' || what.endsWith('jaw')) && hold?.stop && stop && !s.cuts.some((c) => c.face === OPPOSITE[stop]))
    yield {
      title: `Put the stop against ${OPPOSITE[stop]}`,
      safe: false,
      edits: [{ span: hold.stop.span, newText: OPPOSITE[stop] }],
    };
}

export const jaw: Rule = {
  name: NAME,
  severity: 'error',
  summary: 'Cutter or holder would run into a jaw, the stop, a parallel or a clamp.',
  why: 'A cut that runs out through the side of the work takes the cutter past it, and there stand the jaws. A cutter that meets a hardened jaw breaks, and may throw its pieces; the jaw is spoiled as well.',
  formula:
    'The cutter stands along every wall of the cut, its radius off it, to the ends of the wall; its cut, its shank and its holder are cylinders above its tip. `height_above_jaws_mm` is how far the tip stays above the top of what it meets (negative: below), `overlap_mm` how far the two would run into each other. Jaws are as wide as the vise’s and touch the farthest surfaces of the work within the grip; the work lies centred between their ends, or pushed out at an end that is milled, or cut back below the tops of the jaws, if the stop is not there; the stop is a pin near the fixed jaw no higher than the jaws; a clamp a strap 25 mm wide. A holder is a matter of the stick-out: as the shop says, else as far as it can be. Every tool that fits and reaches is tried.',
  limits: [],
  bad: `part: stop-block
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
stock: { form: block, extra: { left: 2 } }
features:
  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 30, y: 20 }, corner-radius: 6, depth: 8 }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, stop: left }
    zero: { x: right, y: back, z: parallels }
    cuts: [left, seat]
`,
  good: `part: stop-block
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
stock: { form: block, extra: { left: 2 } }
features:
  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 30, y: 20 }, corner-radius: 6, depth: 8 }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, stop: right }
    zero: { x: right, y: back, z: parallels }
    cuts: [left, seat]
`,
  mends:
    'Less in the jaws, on parallels that are on hand; the stop at the other end; the cut moved to where nothing is in its way.',
  *find(context) {
    for (const v of verdictsIn(context)) if (v.fixture) yield findingOf(v, v.fixture, context);
  },
  *mend(finding, context): Generator<Fix> {
    const v = verdictFor(finding, context);
    if (!v?.fixture) return;
    yield* heldOtherwise(v, v.fixture, context);
    yield* movesFor(v, context);
    const s = setupOf(v, context);
    const x = heldOf(context.part, context.solid, context.shop).find((h) => h.s === s);
    const turned = x && otherJaws(x, context);
    if (turned) yield turned;
    if (x) yield* inSoftJaws(x, context);
    if (x) yield* laidDown(x, context);
  },
};
