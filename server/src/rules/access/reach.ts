/** access/reach – no tool on hand is thin enough and long enough. */

import { isChannel } from '../../model/feature-kinds';
import { type Face, type Feature, type Hole, OPPOSITE, type Setup } from '../../model/model';
import type { Tool } from '../../model/shop-model';
import type { Verdict } from '../../process/access';
import { boreSize } from '../../process/bore-size';
import { choiceForOutline } from '../../process/choice';
import { endMills, makersOf, pointBelowMm, reachOf, SAME_MM, SAME_REACH_MM } from '../../process/cutters';
import { boresOf, endsFlat } from '../../process/drilling';
import { type MilledVoid, milledVoids } from '../../process/milling';
import { operationsOf } from '../../process/operations';
import { discOperation } from '../../process/operations/disc-cuts';
import { PLAIN_MM } from '../../process/operations/hole-makers';
import { LEAST_STOCK_MM } from '../../process/room';
import { tapsOfHole } from '../../process/tapping';
import { threadMillsOf } from '../../process/thread-milling';
import { lengthsIn } from '../../text/format';
import type { Span } from '../../text/tree';
import { change, edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { setLength } from '../kit/edits';
import { setField } from '../kit/fields';
import { memberOf, roundDown, spanOf, subjectOf, wouldDo } from '../kit/message';
import { append } from '../kit/moves';
import type { Fix, Rule, RuleContext } from '../kit/rule';
import {
  cutOf,
  type ListedCut,
  movesFor,
  placesTold,
  saysOfCorners,
  setupOf,
  verdictAt,
  verdictsIn,
} from '../kit/verdicts';

interface Lack {
  readonly feature: Feature;
  readonly what: string;
  readonly neededMm: number;
  readonly longest?: { readonly name: string; readonly mm: number } | undefined;
  /** Of a hole: how much of it is in the work. */
  readonly spanMm?: number | undefined;
  /** Of that the drill's point, below the full diameter. */
  readonly pointMm?: number;
  /** The opening, where the tool must leave stock to finish both of its walls. */
  readonly neckMm?: number | undefined;
}

/** On the finished part. */
interface Short extends Lack {
  readonly of: string;
  /** The widest tool that fits, mm. */
  readonly gapMm?: number;
  /** Half from each side would reach. */
  readonly fromBoth: boolean;
  /** Set-ups are written that cut it. */
  readonly written?: boolean;
  readonly span: Span;
}

/** On the work as it is in its set-up. */
interface ShortThen {
  readonly v: Verdict;
  readonly short: NonNullable<Verdict['short']>;
}

function* shortOnes(context: RuleContext): Generator<Short> {
  for (const feature of context.part.features) {
    // Where set-ups cut it, what stands there then decides.
    const then = verdictsIn(context).filter((v) => v.cut.feature === feature && (v.uses.length > 0 || troubled(v)));
    if (then.length > 0 && !then.some((v) => v.short)) continue;
    const written = then.length > 0;
    if (feature.kind === 'hole') yield* asWritten(shortHole(feature, context), written);
    else if (feature.kind === 'engraving') {
      const had = context.shop.tools.some(
        (t) => (t.kind === 'engraver' || t.kind === 'end-mill') && t.diameterMm <= feature.stroke.mm + SAME_MM,
      );
      if (!had && context.shop.tools.length > 0)
        yield {
          feature,
          of: feature.name,
          what: 'engraver or end mill',
          neededMm: feature.depth.mm,
          gapMm: feature.stroke.mm,
          fromBoth: false,
          span: spanOf(feature, 'stroke', 'text'),
        };
    } else yield* asWritten(shortOutline(feature, context), written);
  }
}

/** Where set-ups cut it, they are what this shop cannot do, whatever others could. */
function* asWritten(shorts: Iterable<Short>, written: boolean): Generator<Short> {
  for (const s of shorts) yield { ...s, written };
}

const troubled = (v: Verdict) => v.short !== undefined || v.holder !== undefined || v.fixture !== undefined;

/** Long enough for the finished part, but not against what still stands there when it is cut. */
function* shortThen(context: RuleContext, onFinished: ReadonlySet<Feature>): Generator<ShortThen> {
  for (const v of verdictsIn(context)) {
    const { short, cut } = v;
    if (short && !(cut.feature && onFinished.has(cut.feature))) yield { v, short };
  }
}

function tellThen({ v, short }: ShortThen, context: RuleContext): Told {
  const { length, about } = context;
  const { cut } = v;
  const { setup, up } = setupOf(v, context);
  const { neededMm, longest, gapMm, cornerMm } = short;
  const thin = gapMm === undefined ? '' : ` up to ${length(gapMm)}`;
  const has = longest
    ? `The longest ${short.what}${thin}, ${longest.name}, reaches ${length(longest.mm)}`
    : `The shop has no ${short.what}${thin}`;
  return {
    message: `Set-up ${setup.name} (${up} up): ${cornerMm ? `a corner of radius ${about(cornerMm)} in ` : ''}${cut.name} needs a reach of ${about(neededMm, longest?.mm)} past the material there. ${has}.${placesTold(v, context) || ' Use a longer tool, or another set-up.'}`,
    of: [cut.name],
    span: cut.span,
    related: [cut.feature && { span: cut.feature.nameSpan, message: 'what is cut' }],
    facts: factsOf(short),
    ...(cornerMm && { says: [saysOfCorners(cut.name, context.shop.builtIn ? 'warning' : 'error')] }),
  };
}

function factsOf({ neededMm, longest, gapMm }: Pick<Short, 'neededMm' | 'longest' | 'gapMm'>): Told['facts'] {
  return {
    needed_mm: neededMm,
    longest_mm: longest?.mm,
    tool: longest?.name,
    missing_mm: longest && neededMm - longest.mm,
    gap_mm: gapMm,
  };
}

function* shortOutline(feature: Feature, context: RuleContext): Generator<Short> {
  const { part, solid, shop } = context;
  for (const m of milledVoids(feature, part, solid)) {
    const choice = choiceForOutline(m, solid, shop);
    if (choice.reaching || reachesFromTheSide(m, context)) continue;
    const neededMm = choice.neededMm();
    const { longest } = choice;
    yield {
      feature,
      of: memberOf(m.of),
      what: 'end mill',
      neededMm,
      ...(longest && { longest: { name: longest.name, mm: longest.reachMm } }),
      ...(Number.isFinite(m.widestMm) && { gapMm: m.widestMm }),
      ...(m.widestMm < m.neckMm && { neckMm: m.neckMm }),
      fromBoth: m.bothSides && longest !== undefined && longest.reachMm >= neededMm / 2 + 1,
      span: longest ? spanOf(feature, 'depth') : spanOf(feature, 'width', 'depth'),
    };
    return;
  }
}

/** A step is also cut from the side it opens to, where it is as deep as it is wide; a slit is sawn. */
function reachesFromTheSide({ feature }: MilledVoid, context: RuleContext): boolean {
  const { shop } = context;
  if (isChannel(feature)) return operationsOf(feature, context).some((o) => o.does === 'slot');
  if (feature.kind !== 'step' || feature.floorRadius.mm > 0) return false;
  const longest = Math.max(0, ...endMills(shop).map((m) => m.reachMm));
  return feature.widths.some((w) => w.mm <= longest);
}

function* shortHole(hole: Hole, { part, solid, shop, limit }: RuleContext): Generator<Short> {
  const bores = boresOf(hole, part, solid);
  const worst = bores.reduce<(typeof bores)[number] | undefined>(
    (w, b) => (w && w.spanMm >= b.spanMm ? w : b),
    undefined,
  );
  if (!worst) return;
  const makers = makersOf(shop, boreSize(hole, part, limit('plain')));
  const base = { feature: hole, of: memberOf(worst.of), span: spanOf(hole, 'depth'), spanMm: worst.spanMm };
  const needed = (t: Tool) => worst.spanMm + pointBelowMm(t, endsFlat(worst));
  if (makers.length > 0 && !makers.some((t) => reachOf(t) >= needed(t) - SAME_REACH_MM)) {
    const nearest = makers.reduce((best, t) => (reachOf(t) - needed(t) > reachOf(best) - needed(best) ? t : best));
    const longest = { name: nearest.name, mm: reachOf(nearest) };
    const neededMm = needed(nearest);
    const fromBoth = worst.faces.length > 1 && longest.mm >= neededMm - worst.spanMm / 2 + 1;
    yield {
      ...base,
      what: 'drill, reamer or bore of its size',
      neededMm,
      pointMm: neededMm - worst.spanMm,
      longest,
      fromBoth,
    };
    return;
  }
  if (!hole.thread?.spec) return;
  const [taps, mills] = [tapsOfHole(hole, shop), threadMillsOf(hole, shop)];
  const threading = [...taps, ...mills];
  const neededMm = Math.min(hole.threadDepth?.mm ?? worst.spanMm, worst.spanMm);
  if (threading.length === 0 || threading.some((t) => t.reachMm >= neededMm - SAME_REACH_MM)) return;
  const longest = longestOf(threading)!;
  yield {
    ...base,
    span: spanOf(hole, 'threadDepth', 'depth'),
    what: taps.length > 0 ? `${hole.thread.spec.designation} tap` : 'thread mill',
    neededMm,
    longest,
    // Two threads from two sides do not meet in step.
    fromBoth: false,
  };
}

function longestOf(tools: readonly Tool[]): { name: string; mm: number } | undefined {
  let best: { name: string; mm: number } | undefined;
  for (const t of tools) {
    const mm = reachOf(t as Parameters<typeof reachOf>[0]);
    if (!best || mm > best.mm) best = { name: t.name, mm };
  }
  return best;
}

/** Less depth and more width, as far as the text can say them. */
function curesTold(short: Short, context: RuleContext): string {
  return wouldDo([shallower(short, context), wider(short, context)]) || ' Use a longer tool, or less depth.';
}

/** So deep that the longest tool that fits reaches. */
function shallower({ feature, longest, neededMm, what, spanMm }: Lack, context: RuleContext): Fix | undefined {
  const { part, length, tree, write } = context;
  if (!longest) return undefined;
  if (what.endsWith(' tap') || what === 'thread mill') {
    const edits = setField(tree, feature.name, 'thread-depth', write(roundDown(longest.mm, part.units)));
    return change(`Make the thread ${length(longest.mm)} deep`, edits);
  }
  const depth = 'depth' in feature ? feature.depth : undefined;
  if (!depth?.length || depth.through) return undefined;
  // What is deeper than the work is thick goes through, and only what is in the work counts.
  const from = Math.min(depth.mm, spanMm ?? depth.mm);
  const allowed = roundDown(from - (neededMm - longest.mm), part.units);
  if (allowed <= 0) return undefined;
  const title = `Make it ${length(allowed)} deep, within reach of ${longest.name}`;
  return change(title, setLength(depth.length, allowed, part));
}

/** As wide as the thinnest end mill that reaches; of a channel, where there is one. */
function wideEnough({ feature, neededMm, neckMm }: Lack, { shop }: RuleContext) {
  if (!isChannel(feature)) return undefined;
  const mill = [...endMills(shop)].reverse().filter((m) => m.diameterMm > feature.width.mm && m.reachMm >= neededMm)[0];
  // Both walls are finished after it.
  return mill && { feature, mill, mm: mill.diameterMm + (neckMm === undefined ? 0 : 2 * LEAST_STOCK_MM) };
}

function wider(lack: Lack, context: RuleContext): Fix | undefined {
  const wide = wideEnough(lack, context);
  if (!wide) return undefined;
  const title = `Make it ${context.length(wide.mm)} wide, for ${wide.mill.name}`;
  return change(title, setLength(wide.feature.width, wide.mm, context.part));
}

/** A through cut listed in the set-up that holds the opposite face up as well. */
function* fromBothSides({ name }: Feature, context: RuleContext): Generator<Fix | undefined> {
  const setups = context.part.setups ?? [];
  const has = (s: Setup) => s.cuts.some((c) => c.name === name);
  const ups = setups.filter(has).map((s) => s.up?.name);
  for (const s of setups) {
    if (has(s) || !ups.some((up) => up && OPPOSITE[up as Face] === s.up?.name)) continue;
    yield change(`Cut it in ${s.name} as well`, append(context, s.name, name));
  }
}

/** A slit deeper than so many of its widths is sawn rather than milled. Common practice, no source. */
const SLIT_RATIO = 5;

/** Half from each side would reach: told of all but a deep slit, which a saw cuts better. */
function fromBothTold(s: Short, context: RuleContext): string {
  const slit = isChannel(s.feature) && s.neededMm > SLIT_RATIO * s.feature.width.mm;
  return (slit && sawTold(s, context)) || ' Cut half from each side.';
}

/** What cuts from its side what no mill is thin enough for. */
function sawTold({ feature }: Short, context: RuleContext): string {
  const { part } = context;
  const cut = isChannel(feature) ? discOperation(feature, context) : undefined;
  if (!cut) return '';
  return cut.does === 'missing'
    ? ` Use a ${lengthsIn(cut.wanted, part.units)}, from its side.`
    : ` Use ${cut.tool.name}, which cuts it ${cut.how}.`;
}

function tellShort(s: Short, context: RuleContext): Told {
  const { length, shop, about } = context;
  const { neededMm, longest, gapMm, neckMm } = s;
  const named = subjectOf(context.part, s.of);
  const leaving = neckMm === undefined ? '' : ` (leaves stock on both walls of ${length(neckMm)})`;
  const thin = gapMm === undefined ? '' : ` up to ${length(gapMm)}${leaving}`;
  const message = longest
    ? `${named} needs a reach of ${about(neededMm, longest.mm)}${s.pointMm ? ` (${about(s.pointMm)} of it the drill’s point)` : ''}. The longest ${s.what}${thin}, ${longest.name}, reaches ${length(longest.mm)}.` +
      (s.fromBoth ? fromBothTold(s, context) : curesTold(s, context))
    : `${named} needs ${/^[aeiou]/.test(s.what) ? 'an' : 'a'} ${s.what}${thin}. The ${shop.builtIn ? 'built-in ' : ''}shop has none.${sawTold(s, context) || ' Make it wider, or add one to the shop file.'}`;
  return {
    severity: s.fromBoth && !s.written ? 'warning' : undefined,
    message,
    of: [s.of],
    span: s.span,
    facts: { ...factsOf(s), wide_mm: wideEnough(s, context)?.mm },
  };
}

interface Kept {
  /** Where it is listed, if what stands there then is too high. */
  readonly cut?: ListedCut;
  readonly lack?: (Omit<Lack, 'feature'> & { readonly of: string }) | undefined;
  readonly fromBoth?: boolean;
}

const BAD = `part: comb
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 40 }
features:
  gap:
    kind: slot
    face: top
    ends: [{ x: 15, y: center }, { x: 45, y: center }]
    width: 3
    depth: 28
`;

export const reach: Rule = defineRule({
  name: 'access/reach',
  severity: 'error',
  mildByBuiltIn: true,
  summary: 'No tool in the shop that fits is long enough.',
  why: 'The tool must get down to the deepest place. Its shank and holder must not touch what is beside it. A longer tool of the same diameter bends with the cube of its length.',
  formula:
    'The reach needed is from the highest material within the shank’s radius down to the floor. It is taken of the finished part; with set-ups, of the workpiece before that cut. For a hole it is from the first material. It is compared with the longest tool in the shop that fits. An end mill must fit the narrowest place. Where the opening is not a plain slot, 0.1 mm a side is left for finishing (rule of thumb). A hole needs a drill, reamer, boring head or smaller end mill, a thread its tap. A warning where half from each side would reach and no set-ups are written. With the built-in shop it is a warning.',
  limits: [
    {
      name: 'plain',
      value: PLAIN_MM,
      unit: 'mm',
      what: '± of a hole for which neither it nor the part says a tolerance',
      source: 'ISO 2768-1 class m for sizes to 6 mm',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['width: 3', 'width: 6'], ['depth: 28', 'depth: 18']),
  under: ['corner/inside-radius'],
  mends: 'Make it as deep as the longest tool reaches, or a slot as wide as a tool that reaches. Or move the cut.',
  *find(context): Generator<Short | ShortThen> {
    const shorts = [...shortOnes(context)];
    yield* shorts;
    yield* shortThen(context, new Set(shorts.map((s) => s.feature)));
  },
  tell: (hit, context) => ('v' in hit ? tellThen(hit, context) : tellShort(hit, context)),
  keep(hit): Kept {
    if (!('v' in hit)) {
      const { feature, what, neededMm, longest, spanMm, neckMm, fromBoth } = hit;
      return { lack: { of: feature.name, what, neededMm, longest, spanMm, neckMm }, fromBoth };
    }
    const { what, neededMm, longest } = hit.short;
    const of = hit.v.cut.feature?.name;
    return { cut: cutOf(hit.v), lack: of === undefined ? undefined : { of, what, neededMm, longest } };
  },
  *mend({ cut, lack, fromBoth }, context): Generator<Fix | undefined> {
    const v = cut && verdictAt(cut, context);
    if (v) yield* movesFor(v, context);
    const feature = lack && context.part.featureByName.get(lack.of);
    if (!feature) return;
    yield shallower({ ...lack, feature }, context);
    if (cut) return;
    yield wider({ ...lack, feature }, context);
    if (fromBoth) yield* fromBothSides(feature, context);
  },
});
