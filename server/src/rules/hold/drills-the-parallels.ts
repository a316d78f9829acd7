/** hold/drills-the-parallels – a through cut ends in a parallel or the bed of the vise. */

import type { Cut } from '../../process/stock/types';
import { heldOf, type InJaws } from '../../process/workholding/in-jaws';
import { isThroughContour } from '../../process/workholding/loose';
import { LEAST_GRIP_MM } from '../../process/workholding/parallels';
import { pairOf } from '../../process/workholding/parallels-position';
import { fromJaw, overlaps, PAIR, PAIR_RULE, throughCuts } from '../../process/workholding/seating';
import { change } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { gripFix, gripsOnHand, heldIn, otherJaws } from '../kit/holds';
import { moveCut } from '../kit/moves';
import { laidDown } from '../kit/other-holds';
import type { Fix, Rule, RuleContext } from '../kit/rule';
import { verdictsIn } from '../kit/verdicts';
import { held } from './samples';

interface Struck {
  readonly x: InJaws;
  readonly cut: Cut;
  /** `moved`: over where the parallels lie by custom, and clear of where they can lie. */
  readonly what: 'bed' | 'parallel' | 'moved';
  /** How far it reaches over a parallel against a jaw, at most, mm. */
  readonly overMm: number;
}

function* struck(context: RuleContext): Generator<Struck> {
  for (const x of heldOf(context)) {
    const { seating, inVise: h, hold } = x;
    if (hold.type !== 'vise') continue;
    const { pair } = h;
    if (pair?.lies === 'against the jaws') continue;
    const [low, high] = [Math.min(h.fixedAtMm, h.movingAtMm), Math.max(h.fixedAtMm, h.movingAtMm)];
    for (const { cut, spans } of throughCuts(seating, h)) {
      if (!pair) {
        yield { x, cut, what: 'bed', overMm: 0 };
        continue;
      }
      const custom = [
        [low, low + pair.widthMm],
        [high - pair.widthMm, high],
      ] as const;
      const over = spans.flatMap((s) =>
        custom.flatMap((p) => (overlaps(s, p) ? [Math.min(s[1], p[1]) - Math.max(s[0], p[0])] : [])),
      );
      if (over.length > 0)
        yield { x, cut, what: pair.lies === 'moved in' ? 'moved' : 'parallel', overMm: Math.max(...over) };
    }
  }
}

/** On pairs that are on hand, the deepest grip first; an outline that goes through lets go of itself on any. */
function* onParallels({ x, cut }: Pick<Struck, 'x' | 'cut'>, context: RuleContext): Generator<Fix> {
  if (isThroughContour(cut.feature)) return;
  for (const g of gripsOnHand(x, context, LEAST_GRIP_MM).toReversed()) {
    const fix = g < x.inVise.vise.jawHeightMm ? gripFix(x, g, context) : undefined;
    if (fix) yield fix;
  }
}

/** That parallels would do, where a pair that is on hand is clear of what goes through. */
function raised({ x, cut }: Pick<Struck, 'x' | 'cut'>, context: RuleContext): string {
  if (onParallels({ x, cut }, context).next().done) return '';
  const lies = pairOf(x.seating, { ...x.inVise, parallelsMm: 1 }, context.shop)?.lies;
  if (lies === 'against the jaws') return ' Put parallels under the workpiece.';
  return lies === 'moved in' ? ' Put parallels under the workpiece, moved in clear of it.' : '';
}

function messageOf({ x, cut, what, overMm }: Struck, context: RuleContext): string {
  const { length, about } = context;
  const { inTime: s, inVise: h } = x;
  const does = cut.feature?.kind === 'hole' ? 'drill' : 'cutter';
  const begins = `Set-up ${s.setup.name}: ${cut.name} goes through`;
  const { pair } = h;
  if (what === 'bed' || !pair)
    return `${begins}, and the workpiece rests on the vise bed. The ${does} would go into ${h.vise.name}.${raised({ x, cut }, context) || ' Hold it another way, or cut it in another set-up.'}`;
  const over = `${begins} ${about(overMm)} over a ${length(h.parallelsMm)} parallel (${length(pair.widthMm)} wide) against a jaw`;
  if (what === 'moved')
    return `${over}. Move the pair in: ${about(fromJaw(h, 'fixed', pair))} from the fixed jaw and ${about(fromJaw(h, 'moving', pair))} from the moving jaw.`;
  const narrow =
    pair.wouldDoMm === undefined
      ? 'Hold it another way, or cut it in another set-up'
      : `Use a pair up to ${length(pair.wouldDoMm)} wide`;
  return `${over}. The ${does} would go into it, and no other place between the jaws is clear. ${narrow}.`;
}

function tellStruck(found: Struck, context: RuleContext): Told {
  const { x, cut, what, overMm } = found;
  const { inTime: s, inVise: h, hold } = x;
  const { pair } = h;
  const movedIn = what === 'moved' ? pair : undefined;
  return {
    severity: what === 'bed' ? 'error' : what === 'moved' ? 'hint' : 'warning',
    message: messageOf(found, context),
    of: [cut.name],
    span: cut.span,
    related: [{ span: hold.parallels?.span ?? hold.span, message: 'what it lies on' }],
    facts: {
      set_up: s.setup.name,
      meets: what,
      parallels_mm: h.parallelsMm,
      grip_mm: h.gripMm,
      over_mm: pair && overMm,
      wide_mm: pair?.widthMm,
      would_do_mm: pair?.wouldDoMm,
      fixed_mm: movedIn && fromJaw(h, 'fixed', movedIn),
      moving_mm: movedIn && fromJaw(h, 'moving', movedIn),
    },
  };
}

const FEATURES = '  tie: { kind: hole, face: top, at: { x: center, y: center }, diameter: 8, depth: through }\n';

export const drillsTheParallels: Rule = defineRule({
  name: PAIR_RULE,
  severity: 'warning',
  mayBeError: true,
  summary: 'A through cut ends in a parallel or in the vise bed.',
  why: 'A drill goes through the workpiece and on by the length of its point. Below it is hardened steel or the vise itself. The drill breaks, or the parallel is spoiled.',
  formula:
    'What the cut takes of the lowest surface of the workpiece is an outline. Below it is the bed or a parallel. A pair of parallels is along the jaws, one against each. Each is `width` wide, at most half the opening. If the pair can be moved in clear of all through cuts, it is a hint that says where. If not, it is a warning with the widest pair that fits. The bed cannot be moved: an error.',
  limits: [
    {
      name: 'width',
      value: PAIR.width,
      unit: 'mm',
      what: 'Width of the parallels of the shop.',
      source: 'a common size, no source',
    },
    {
      name: 'clear',
      value: PAIR.clear,
      unit: 'mm',
      what: 'Distance between a parallel that is moved in and what is cut through.',
      source: 'common practice, no source',
    },
    {
      name: 'spread',
      value: PAIR.spread,
      unit: 'ratio',
      what: 'Share of the width between the jaws that the pair must span, so that the workpiece does not rock.',
      source: 'common practice, no source',
    },
  ],
  bad: held({
    body: '{ x: 60, y: 40, z: 36 }',
    features: FEATURES,
    hold: '{ vise: mill-vise-100, jaws: [back, front], grip: 32, parallels: 0 }',
    cuts: '[tie]',
  }),
  good: held({
    body: '{ x: 60, y: 40, z: 36 }',
    features: FEATURES,
    hold: '{ vise: mill-vise-100, jaws: [back, front], grip: 14, parallels: 18 }',
    cuts: '[tie]',
  }),
  mends:
    'Use a pair of parallels in the shop, grip other faces, or move the cut to another set-up. Or use clamps or screws.',
  *find(context) {
    let said: Set<Cut> | undefined;
    for (const found of struck(context)) {
      said ??= new Set(verdictsIn(context).flatMap((v) => (v.fixture?.clash.with.what === 'parallel' ? [v.cut] : [])));
      if (found.what === 'moved' || !said.has(found.cut)) yield found;
    }
  },
  tell: tellStruck,
  keep: ({ x, cut, what }) => ({ setup: x.inTime.setup.name, of: cut.name, what }),
  *mend({ setup, of, what }, context): Generator<Fix | undefined> {
    const x = heldIn(setup, context);
    const cut = x?.inTime.cuts.find((c) => c.name === of);
    if (!x || !cut) return;
    if (what === 'bed') yield* onParallels({ x, cut }, context);
    yield otherJaws(x, context);
    for (const to of context.part.setups ?? [])
      if (to !== x.inTime.setup) yield change(`Cut it in ${to.name}`, moveCut(context, x.inTime.setup, to, of));
    if (what !== 'moved') yield* laidDown(x, context);
  },
});
