/** Edits of how a set-up holds the work: another grip on a pair that is on hand, other jaws, another vise. */

import { FACE_AXIS, type Face, OPPOSITE, type Setup } from '../../model/model';
import { heldOf, type InJaws } from '../../process/workholding/in-jaws';
import { roundMiddleMm } from '../../process/workholding/round-between';
import { setText } from '../../text/edit';
import { at, type MapNode, type TextNode } from '../../text/tree';
import { ROUNDING } from '../../tolerance';
import type { Fix, RuleContext, SpanEdit } from './rule';

/** A map inside a set-up's text: itself, `hold`, `zero`. */
export function setupMap({ tree }: RuleContext, setup: Setup, ...path: readonly string[]): MapNode | undefined {
  const node = ['setups', setup.name, ...path].reduce<TextNode | undefined>((here, key) => at(here, key), tree.root);
  return node?.type === 'map' ? node : undefined;
}

/** `key: text` written under a set-up's `hold`; undefined where there is none. */
export function setHold(context: RuleContext, setup: Setup, key: string, text: string): SpanEdit[] | undefined {
  const map = setupMap(context, setup, 'hold');
  const edits = map ? setText(context.tree, map, key, text) : [];
  return edits.length > 0 ? edits : undefined;
}

/** Grips that the pairs on hand give in this vise, rising; no less than `leastMm`, nor than the middle of round work, and below the top of the work. */
export function gripsOnHand(held: InJaws, { shop }: RuleContext, leastMm: number): readonly number[] {
  const { inVise: h, seating } = held;
  // Below its middle the jaws push a round bar up and out.
  const least = Math.max(leastMm, roundMiddleMm(seating, h) ?? 0);
  const grips = [0, ...shop.parallelsMm].map((p) => h.vise.jawHeightMm - p);
  return [...new Set(grips)]
    .filter((g) => g >= least - ROUNDING && g < seating.heightMm - ROUNDING)
    .sort((a, b) => a - b);
}

/** The grip set, and with it the pair, where one is written. */
export function gripFix(held: InJaws, gripMm: number, context: RuleContext): Fix | undefined {
  const { hold, inTime: s, inVise: h } = held;
  const grip = setHold(context, s.setup, 'grip', context.write(gripMm));
  if (!grip) return undefined;
  const pairMm = h.vise.jawHeightMm - gripMm;
  const pair = hold.parallels ? setHold(context, s.setup, 'parallels', context.write(pairMm)) : [];
  if (!pair) return undefined;
  const on = pairMm > 0 ? `on the ${context.length(pairMm)} parallels` : 'on the vise bed';
  return { title: `Grip ${context.length(gripMm)} ${on}`, safe: false, edits: [...grip, ...pair] };
}

/** The other pair of sides clamped; the stop goes where it can. */
export function otherJaws(held: InJaws, context: RuleContext): Fix | undefined {
  const { inVise: h, inTime: s, seating } = held;
  const now = FACE_AXIS[h.fixed].axis;
  const fixed = (['back', 'left', 'bottom'] as const).find((f) => {
    const { axis } = FACE_AXIS[f];
    return axis !== now && axis !== FACE_AXIS[seating.up].axis;
  }) as Face;
  const jaws = setHold(context, s.setup, 'jaws', `[${fixed}, ${OPPOSITE[fixed]}]`);
  const stop = s.setup.hold?.stop;
  const moved = stop && FACE_AXIS[stop.name as Face]?.axis === FACE_AXIS[fixed].axis;
  const other = moved ? setHold(context, s.setup, 'stop', h.fixed) : [];
  if (!jaws || !other) return undefined;
  return { title: `Grip ${fixed} and ${OPPOSITE[fixed]}`, safe: false, edits: [...jaws, ...other] };
}

/** How a set-up holds the work, by its name. */
export function heldIn(setup: string, context: RuleContext): InJaws | undefined {
  return heldOf(context).find((x) => x.inTime.setup.name === setup);
}
