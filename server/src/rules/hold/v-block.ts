/** hold/v-block – round stock that lies in no V, or in one that does not hold it. */

import type { VBlock } from '../../model/shop-model';
import { isMaterial, timelineOf } from '../../process/stock';
import type { Workpiece } from '../../process/stock/types';
import { seatingOf } from '../../process/workholding/seating';
import type { Seating } from '../../process/workholding/seating-types';
import {
  blocksAlong,
  diametersIn,
  fitsIn,
  placesTouched,
  type RoundBar,
  roundBarOf,
  vBlockOf,
} from '../../process/workholding/v-block';
import { change } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { setHold } from '../kit/holds';
import { list, roundDown, roundUp } from '../kit/message';
import { inVBlocks } from '../kit/other-holds';
import type { Rule, RuleContext } from '../kit/rule';
import { setupsIn } from '../kit/setups';

interface Trouble {
  readonly seating: Seating;
  readonly bar?: RoundBar;
  readonly block?: VBlock;
  readonly kind: 'not-round' | 'upright' | 'lying' | 'size' | 'few' | 'bare' | 'cut' | 'rolls';
  /** What cuts away the place that it lies on. */
  readonly cut?: string;
}

function* troubles({ part, solid, shop, limit }: RuleContext): Generator<Trouble> {
  for (const s of timelineOf(part, solid).setups.slice(part.settled ?? 0)) {
    const { hold } = s.setup;
    const inVise = hold?.type === 'vise' && hold.vBlock !== undefined;
    if (hold?.type !== 'v-block' && hold?.type !== 'clamps' && !inVise) continue;
    const seating = seatingOf(s, part, shop);
    const bar = roundBarOf(s.before.body);
    if (!seating || !(seating.heightMm > 0)) continue;
    if (hold.type === 'clamps') {
      if (bar && bar.axis !== seating.upAxis && liesRound(seating, bar)) yield { seating, bar, kind: 'rolls' };
      continue;
    }
    const block = vBlockOf(hold, shop);
    if (!block) continue;
    const found = troubleIn(seating, bar, block, limit('share'));
    if (found) yield { seating, block, ...(bar && { bar }), ...found };
  }
}

/** What it would lie on is still round: no flat was milled there. */
function liesRound({ of, upAxis, upSign, lowestMm }: Seating, bar: RoundBar): boolean {
  return Math.abs(lowestMm - (bar.middle[upAxis] - upSign * bar.radiusMm)) < 0.01 && of.before.body.form === 'round';
}

function troubleIn(
  seating: Seating,
  bar: RoundBar | undefined,
  block: VBlock,
  share: number,
): Pick<Trouble, 'kind' | 'cut'> | undefined {
  const { of, upAxis } = seating;
  const hold = of.setup.hold!;
  if (!bar) return { kind: 'not-round' };
  const stands = bar.axis === upAxis;
  if (hold.type === 'v-block' && stands) return { kind: 'upright' };
  if (hold.type === 'vise' && !stands) return { kind: 'lying' };
  if (!fitsIn(block, 2 * bar.radiusMm)) return { kind: 'size' };
  if (hold.type === 'vise') return undefined;
  const spans = blocksAlong(seating, hold, block, bar);
  if (spans.length > block.count) return { kind: 'few' };
  const places = spans.map((span) => placesTouched(seating, block, bar, span));
  const bare = (w: Workpiece) => places.some((at) => at.filter((p) => isMaterial(w, p)).length < share * at.length);
  if (bare(of.before)) return { kind: 'bare' };
  const cut = of.cuts.find((c) => bare(c.after));
  return cut && { kind: 'cut', cut: cut.name };
}

function messageOf({ seating, bar, block, kind, cut }: Trouble, { length, part, shop }: RuleContext): string {
  const where = `Set-up ${seating.of.setup.name}:`;
  const name = block?.name ?? '';
  switch (kind) {
    case 'not-round':
      return `${where} the workpiece is not round, and ${name} holds round stock only. Clamp it flat on the table, or use a vise.`;
    case 'upright':
      return `${where} the round stock is upright, and in ${name} on the table it lies. Hold it in a vise, with the V-block at the moving jaw.`;
    case 'lying':
      return `${where} the round stock lies between the jaws, and ${name} at a jaw holds it upright. Put it in V-blocks on the table.`;
    case 'size': {
      const [least, most] = diametersIn(block!);
      const others = shop.vBlocks.filter((v) => fitsIn(v, 2 * bar!.radiusMm)).map((v) => v.name);
      return `${where} the stock has a diameter of ${length(2 * bar!.radiusMm)}. ${name} holds ${length(roundUp(least, part.units))} to ${length(roundDown(most, part.units))}. ${others.length > 0 ? `Use ${list(others, 'or')}.` : 'Use soft jaws milled to its shape.'}`;
    }
    case 'few':
      return `${where} the outermost clamps are over two V-blocks, and the shop has one ${name}. Move the clamps together over it.`;
    case 'bare':
      return `${where} the round side that lies in ${name} is already cut away there. Move the clamps, and the V-blocks under them, to where the stock is round.`;
    case 'cut':
      return `${where} ${cut} cuts away the round side that lies in ${name}. Move the clamps, and the V-blocks under them.`;
    case 'rolls':
      return `${where} round stock lies on the flat table. It touches along one line and rolls under the cut. Put it in V-blocks, and clamp it over them.`;
    default:
      return kind satisfies never;
  }
}

function tellTrouble(t: Trouble, context: RuleContext): Told {
  const { setup } = t.seating.of;
  const hold = setup.hold!;
  const [least, most] = t.block ? diametersIn(t.block) : [];
  return {
    message: messageOf(t, context),
    of: t.cut ? [t.cut] : [],
    span: hold.vBlock?.span ?? hold.span,
    facts: {
      set_up: setup.name,
      trouble: t.kind,
      v_block: t.block?.name,
      diameter_mm: t.bar && 2 * t.bar.radiusMm,
      least_mm: least,
      most_mm: most,
    },
  };
}

const sample = (hold: string, diameter = 20) => `part: shaft
material: steel-c45
body: { diameter: ${diameter}, length: 120, axis: x }
stock: { form: round-bar, diameter: ${diameter}, axis: x }
features:
  key: { kind: slot, face: top, ends: [{ x: 46, y: center }, { x: 66, y: center }], width: 6, depth: 3.5 }
setups:
  first:
    up: top
    hold: ${hold}
    cuts: [key]
`;

export const vBlock: Rule = defineRule({
  name: 'hold/v-block',
  severity: 'error',
  summary: 'Round stock lies in no V-block, or in one of the wrong size.',
  why: 'A bar on a flat table touches along one line, and rolls away under the cutter. In a V it touches along two, and a clamp over it presses it home. A bar that is too thick rests on the edges of the V. With one that is too thin the clamp presses on the block.',
  formula:
    'The V has the included angle 2 a and the width W. A bar touches its sides up to the diameter W / cos a. Its crown is above the V from the diameter W / (tan a · (1 + 1 / sin a)) on. The blocks are under the outermost clamps. There, `share` of the round side must be left, before and after each cut of the set-up.',
  limits: [
    {
      name: 'share',
      value: 0.5,
      unit: 'ratio',
      what: 'Share of the two lines between bar and V that must be there.',
      source: 'common practice, no source',
    },
  ],
  bad: sample('{ clamps: [{ x: 12, y: center }, { x: 108, y: center }], on: table }'),
  good: sample('{ v-block: v-block-45, clamps: [{ x: 12, y: center }, { x: 108, y: center }], on: table }'),
  mends: 'Use V-blocks of the shop that hold this diameter, under the same clamps.',
  find: troubles,
  tell: tellTrouble,
  keep: ({ seating, bar }) => (bar ? { setup: seating.of.index, diameterMm: 2 * bar.radiusMm } : undefined),
  *mend({ setup, diameterMm }, context) {
    const s = setupsIn(context)[setup];
    const hold = s?.setup.hold;
    if (!s || !hold) return;
    for (const v of context.shop.vBlocks.filter((b) => fitsIn(b, diameterMm)))
      yield hold.vBlock
        ? change(`Use ${v.name}`, setHold(context, s.setup, 'v-block', v.name))
        : inVBlocks(s.setup, v.name, context);
  },
});
