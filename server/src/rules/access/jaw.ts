/** access/jaw – cutter, shank or holder would run into a jaw, the stop, a parallel or a clamp. */

import { featureNameOf } from '../../model/member-name';
import { FACES, OPPOSITE, type Setup } from '../../model/model';
import type { Tool } from '../../model/shop-model';
import type { FixtureMeets, Verdict } from '../../process/access';
import type { Near } from '../../process/access/collision';
import { heldOf } from '../../process/workholding/in-jaws';
import { MARGIN_MM } from '../../process/workholding/margin';
import { LEAST_GRIP_MM } from '../../process/workholding/parallels';
import { roundMiddleMm } from '../../process/workholding/round-between';
import { seatingOf } from '../../process/workholding/seating';
import type { Obstacle } from '../../process/workholding/seating-types';
import { SAME } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { setLength } from '../kit/edits';
import { together } from '../kit/fields';
import { otherJaws, setHold } from '../kit/holds';
import { list, roundDown, wouldDo } from '../kit/message';
import { clampedElsewhere, inSoftJaws, LEAST_SCREWS, laidDown } from '../kit/other-holds';
import type { Fix, Rule, RuleContext } from '../kit/rule';
import { cutOf, movesFor, placesTold, setupOf, verdictAt, verdictsIn } from '../kit/verdicts';

function tellClash(v: Verdict, fixture: FixtureMeets, context: RuleContext): Told {
  const { tool, clash } = fixture;
  const { about } = context;
  const { setup, up } = setupOf(v, context);
  const { hold } = setup;
  const { what } = clash.with;
  const above = what === 'parallel' ? 'their tops' : what.endsWith('jaw') ? 'the jaw tops' : 'its top';
  const places = placesTold(v, context);
  const [own] = places === '' && !context.counting ? heldOtherwise(v, clash, context) : [];
  return {
    severity: clash.by === 'holder' && context.shop.builtIn ? 'warning' : undefined,
    message: `Set-up ${setup.name} (${up} up): the ${clash.by === 'cutter' ? 'cutter' : `${clash.by} of the cutter`} ${tool.name} would run ${about(clash.overlapMm)} into the ${named(what)}. Its tip goes ${about(-clash.heightAboveMm)} below ${above}.${`${wouldDo([own])}${places}` || OTHERWISE}`,
    of: [v.cut.name],
    span: v.cut.span,
    related: [
      hold?.grip
        ? { span: hold.grip.span, message: 'how deep it is held' }
        : hold && { span: hold.span, message: 'how it is held' },
    ],
    facts: {
      height_above_jaws_mm: clash.heightAboveMm,
      overlap_mm: clash.overlapMm,
      meets: what,
      by: clash.by,
      tool: tool.name,
      grip_mm: hold?.grip?.mm,
    },
    at: [clash.at],
  };
}

const OTHERWISE = ' Hold it another way, or cut it in another set-up.';
const NAMED: Partial<Record<Obstacle['what'], string>> = {
  screw: 'head of a screw',
  nut: 'nut of a clamp',
  'other piece': 'other piece in the vise',
};
const named = (what: Obstacle['what']) => NAMED[what] ?? what;

interface Passing {
  readonly tool: Tool;
  readonly near: Near;
}

/** What passes nearer than the margin, and which tool. */
function nearOf(v: Verdict): Passing | undefined {
  let worst: Passing | undefined;
  for (const { tool, near } of v.uses)
    if (near && (!worst || near.clearMm < worst.near.clearMm)) worst = { tool, near };
  return worst;
}

/** Nearer than is told in figures. */
const CONTACT_MM = 5e-4;

function isContact({ clearMm }: Near): boolean {
  return clearMm < CONTACT_MM;
}

function tellNear(v: Verdict, { tool, near }: Passing, context: RuleContext): Told {
  const { length, limit, about } = context;
  const { setup, up } = setupOf(v, context);
  const { hold } = setup;
  const { clearMm, heightAboveMm } = near;
  const margin = limit('clear');
  const [own] = context.counting ? [] : fartherOff(v, near, context);
  const who = near.by === 'cutter' ? `cutter ${tool.name}` : `${near.by} of ${tool.name}`;
  const how = clearMm < CONTACT_MM ? 'touches the' : `passes ${about(clearMm)} from the`;
  return {
    // Contact is a crash that has not happened yet: with nothing between them what stands in the text goes wrong at the machine.
    severity: isContact(near) && !(near.by === 'holder' && context.shop.builtIn) ? 'error' : 'warning',
    message: `Set-up ${setup.name} (${up} up): the ${who} ${how} ${named(near.with.what)}. It must stay ${length(margin)} clear${near.with.what === 'other piece' ? '' : ' of hardened steel'}.${wouldDo([own]) || OTHERWISE}`,
    of: [v.cut.name],
    span: v.cut.span,
    related: [hold && { span: hold.grip?.span ?? hold.span, message: 'how it is held' }],
    facts: {
      clear_mm: clearMm,
      margin_mm: margin,
      height_above_jaws_mm: heightAboveMm,
      meets: near.with.what,
      by: near.by,
      tool: tool.name,
      grip_mm: hold?.grip?.mm,
    },
    at: [near.at],
  };
}

/** Less in the jaws, where it passes over them; pushed out farther, where it passes their ends; the stop, the clamps elsewhere. */
function* fartherOff(v: Verdict, near: Near, context: RuleContext): Generator<Fix> {
  const over = near.heightAboveMm >= -SAME;
  if (over) {
    const fix = lessGrip(v, near.heightAboveMm - context.limit('clear'), context);
    if (fix) yield fix;
  }
  yield* heldOtherwise(v, near, context);
}

/** So much less in the jaws (a negative height), with a pair of parallels on hand where one is written. */
function lessGrip(v: Verdict, byMm: number, context: RuleContext): Fix | undefined {
  const { part, shop, solid, length } = context;
  const s = setupOf(v, context);
  const hold = s.setup.hold;
  const seating = seatingOf(s, part, shop);
  if (!hold?.grip || !seating?.held || solid.body === undefined) return undefined;
  const most = hold.grip.mm + byMm;
  const { jawHeightMm } = seating.held.vise;
  const least = Math.max(LEAST_GRIP_MM, roundMiddleMm(seating, seating.held) ?? 0);
  // A pair on hand that leaves no more than that in the jaws.
  const grips = shop.parallelsMm.map((p) => jawHeightMm - p).filter((g) => g <= most + SAME && g >= least);
  const grip = Math.max(...grips);
  const to = grips.length > 0 ? grip : roundDown(most, part.units);
  if (!(to >= least)) return undefined;
  const other = hold.parallels ? setLength(hold.parallels, jawHeightMm - to, part) : [];
  return change(`Grip ${length(to)}`, together(setLength(hold.grip, to, part), other));
}

/** What is in the way put somewhere else: less in the jaws, the stop at the other end, the clamps where nothing is cut. */
function* heldOtherwise(
  v: Verdict,
  meets: Pick<Near, 'with' | 'heightAboveMm'> & Partial<Near>,
  context: RuleContext,
): Generator<Fix> {
  const { what } = meets.with;
  const s = setupOf(v, context);
  const hold = s.setup.hold;
  if (what === 'fixed jaw' || what === 'moving jaw' || what === 'parallel') {
    const fix =
      meets.heightAboveMm < 0 ? lessGrip(v, meets.heightAboveMm - context.limit('clear'), context) : undefined;
    if (fix) yield fix;
  }
  if (what === 'clamp' || what === 'nut') {
    const seating = seatingOf(s, context.part, context.shop);
    if (seating) yield* clampedElsewhere(seating, context);
  }
  if (what === 'screw') yield* screwedElsewhere(s.setup, context);
  if (what === 'other piece') yield* fartherApart(v, meets, context);
  const stop = FACES.find((f) => f === hold?.stop?.name);
  // With the stop at an end that is cut, the work cannot stand out of the jaws there.
  if (
    (what === 'stop' || what.endsWith('jaw')) &&
    hold?.stop &&
    stop &&
    !s.cuts.some((c) => c.face === OPPOSITE[stop])
  ) {
    const fix = change(`Put the stop against ${OPPOSITE[stop]}`, { span: hold.stop.span, newText: OPPOSITE[stop] });
    if (fix) yield fix;
  }
}

/** Two pieces so far apart that the cutter passes between them: by what is wanting, else by the whole cutter. */
function* fartherApart(v: Verdict, meets: Partial<Near>, context: RuleContext): Generator<Fix> {
  const s = setupOf(v, context);
  const pieces = s.setup.hold?.pieces;
  if (!pieces) return;
  const margin = context.limit('clear');
  const widest = Math.max(0, ...v.uses.map((u) => u.tool.diameterMm), v.fixture?.tool.diameterMm ?? 0);
  const wanting = (v.fixture?.clash.overlapMm ?? 0) + margin - (meets.clearMm ?? 0);
  for (const mm of [pieces.gapMm + wanting, widest + 2 * margin]) {
    const gap = Math.ceil(mm - SAME);
    const fix = change(
      `Put the pieces ${context.length(gap)} apart`,
      setHold(context, s.setup, 'gap', context.write(gap)),
    );
    if (fix && gap > pieces.gapMm) yield fix;
  }
}

/** Down through all but one of its holes, while two are left. */
function* screwedElsewhere(setup: Setup, context: RuleContext): Generator<Fix> {
  const screws = setup.hold?.screws ?? [];
  for (const { name } of screws) {
    const others = screws.filter((x) => x.name !== name).map((x) => x.name);
    const places = others.reduce((n, x) => n + placesIn(x, context), 0);
    const edits = setHold(context, setup, 'screws', `[${others.join(', ')}]`);
    const fix = places >= LEAST_SCREWS ? change(`Screw it down only through ${list(others)}`, edits) : undefined;
    if (fix) yield fix;
  }
}

function placesIn(name: string, { part }: RuleContext): number {
  const hole = part.featureByName.get(featureNameOf(name));
  return name.includes('[') || !hole || !('places' in hole) ? 1 : hole.places.length;
}

const BAD = `part: stop-block
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
`;

export const jaw: Rule = defineRule({
  name: 'access/jaw',
  severity: 'error',
  summary: 'Cutter or holder would hit a jaw, the stop, a parallel, a clamp or a screw.',
  why: 'A cut that runs out through the side of the workpiece takes the cutter past it, into the jaws. A cutter that hits a hardened jaw breaks, and its pieces may fly. The jaw is spoiled too.',
  formula:
    'The cutter moves along every wall of the cut, its radius away, to the ends of the wall. Cut, shank and holder are cylinders above its tip. The message says how far the two would run into each other, and the height of the tip. Jaws are as wide as the vise’s and touch the outermost surfaces within the grip. The workpiece is centred between their ends. It is moved out at an end that is milled, unless the stop is there. The stop is a pin near the fixed jaw, no higher than the jaws. A clamp is a strap 25 mm wide and high (rule of thumb). The nut of its M12 stud is beyond the edge of the workpiece (17 mm high, ISO 4032 on ISO 7089). Over each screw hole is the largest cap screw that fits (ISO 4762). Of two pieces the other has the same cut. A slot along the row is one stroke through both. The stick-out is as the shop file says, else the most there is. Every tool that fits and reaches is tried. One that passes closer than `clear` is a warning, one that touches an error.',
  limits: [
    {
      name: 'clear',
      value: MARGIN_MM,
      unit: 'mm',
      what: 'Clearance of cutter and holder to jaws, stop, clamps, nuts and screw heads.',
      source: 'common practice, no source',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['stop: left', 'stop: right']),
  mends:
    'Grip less, on parallels in the shop, or put the stop at the other end. Or use other holes for the screws, or move the cut.',
  *find(context) {
    for (const v of verdictsIn(context)) {
      const passing = nearOf(v);
      if (v.fixture || passing) yield { v, fixture: v.fixture, passing };
    }
  },
  tell: ({ v, fixture, passing }, context) =>
    fixture ? tellClash(v, fixture, context) : tellNear(v, passing!, context),
  keep: ({ v }) => cutOf(v),
  *mend(cut, context): Generator<Fix | undefined> {
    const v = verdictAt(cut, context);
    const near = v && nearOf(v)?.near;
    if (!v || !(v.fixture || near)) return;
    if (v.fixture) yield* heldOtherwise(v, v.fixture.clash, context);
    else if (near) yield* fartherOff(v, near, context);
    yield* movesFor(v, context);
    const s = setupOf(v, context);
    const x = heldOf(context).find((h) => h.inTime === s);
    if (!x) return;
    yield otherJaws(x, context);
    yield* inSoftJaws(x, context);
    yield* laidDown(x, context);
  },
});
