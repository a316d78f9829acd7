/**
 * What places the workpiece in rotation when it is put in again: round stock turns in a V, in jaws and under clamps, and a
 * plain block under clamps lies as it was laid. It matters where something that is not about the axis was cut before, and
 * something that is not is cut now.
 */

import type { Void } from '../../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { FACE_AXIS, type Hole, type Part, type Setup } from '../../model/model';
import { ROUNDING, SAME } from '../../tolerance';
import type { PartInShop } from '../part-in-shop';
import { timelineOf } from '../stock';
import type { Cut, SetupInTime } from '../stock/types';
import { type InJaws, inJaws, touches } from './in-jaws';
import { isFace } from './references';
import { roundBarOf } from './v-block';

export interface Clocking {
  readonly s: SetupInTime;
  /** It turns about this part axis; of round stock its own. */
  readonly about: AxisIndex;
  readonly round: boolean;
  /** Cut before, and cut now, of what is not about that axis. */
  readonly earlier: readonly string[];
  readonly here: readonly string[];
  readonly by: 'flat' | 'shape' | 'screws' | 'stop' | 'written' | 'nothing';
  /** What is written is not there by then. */
  readonly notYet?: boolean;
}

/** Undefined where nothing depends on it. */
export function clockingOf(s: SetupInTime, { part, solid, shop }: PartInShop): Clocking | undefined {
  const { hold } = s.setup;
  if (!s.up || !hold || s.index === 0) return undefined;
  const { body } = s.before;
  const round = body.form === 'round';
  if (!round && hold.type !== 'clamps') return undefined;
  const about = round ? body.axis : AXIS_INDEX[FACE_AXIS[s.up].axis];
  const turned = (cuts: readonly Cut[]) => [
    ...new Set(cuts.filter((c) => c.feature && !isAbout(c.removes, about, s)).map((c) => c.name)),
  ];
  const before = timelineOf(part, solid)
    .setups.slice(0, s.index)
    .flatMap((o) => o.cuts);
  const earlier = turned(before);
  const here = turned(s.cuts);
  if (earlier.length === 0 || here.length === 0) return undefined;
  const { clock } = s.setup;
  const base = { s, about, round, earlier, here };
  if (clock) {
    const there = before.some((c) => c.name === clock.of.name) || (!round && clock.of.name in FACE_AXIS);
    return { ...base, by: 'written', ...(!there && { notYet: true }) };
  }
  return { ...base, by: placedBy(s.setup, round, inJaws(s, part, shop), before) };
}

function placedBy({ hold }: Setup, round: boolean, x: InJaws | undefined, before: readonly Cut[]): Clocking['by'] {
  // Against a face of round stock it still turns.
  if (hold?.stop && (!round || !isFace(hold.stop.name))) return 'stop';
  if (hold?.type === 'screws') return 'screws';
  if (!x) return 'nothing';
  const voids = before.flatMap((c) => (c.feature ? c.removes : []));
  if (hold?.type === 'soft-jaws') return voids.some((v) => touches(v, x.seating, x.inVise)) ? 'shape' : 'nothing';
  return onFlat(voids, x) ? 'flat' : 'nothing';
}

/** The fixed jaw lies on something flat that was milled: on the inner side of what was taken, not at its mouth. */
function onFlat(voids: readonly Void[], { inVise: h }: InJaws): boolean {
  const { jawAxis, fixed, fixedAtMm: at } = h;
  const inner = FACE_AXIS[fixed].sign > 0 ? 'min' : 'max';
  return voids.some((v) => Math.abs(v.bounds[inner][jawAxis] - at) < SAME);
}

/** Every one of them is a bore or turning about the axis of round stock: however that is turned, it is the same. */
function isAbout(voids: readonly Void[], about: AxisIndex, { before }: SetupInTime): boolean {
  const bar = roundBarOf(before.body);
  if (!bar) return false;
  const across = [0, 1, 2].filter((i) => i !== about);
  return voids.every(
    ({ frame, bounds, region }) =>
      Math.abs(frame.w[about]) > 1 - ROUNDING &&
      region.outer.edges.every((e) => e.type === 'arc') &&
      across.every((i) => Math.abs((bounds.min[i]! + bounds.max[i]!) / 2 - bar.middle[i]!) < SAME),
  );
}

export type ClockWay = 'indicator' | 'pin' | 'square';

interface Way {
  readonly by: ClockWay;
  readonly of: string;
}

/** Too thin a hole for a pin, mm. Common practice, no source. */
const PIN_MM = 2;

/** How it could be turned to what was cut before: an indicator along something milled, else a pin in a hole; of a block along a side. */
export function waysToClock({ s, round, earlier, about }: Clocking, part: Part): readonly Way[] {
  if (!round && s.up) {
    const zero = Object.values(s.setup.zero).map((z) => z.name);
    const sides = (['back', 'left', 'bottom', 'front', 'right', 'top'] as const).filter(
      (f) => AXIS_INDEX[FACE_AXIS[f].axis] !== about && !s.cuts.some((c) => c.face === f),
    );
    return sides
      .toSorted((a, b) => Number(zero.includes(b)) - Number(zero.includes(a)))
      .slice(0, 2)
      .map((of) => ({ by: 'indicator', of }));
  }
  const features = earlier.flatMap((name) => part.featureByName.get(name) ?? []);
  const holes = features.filter((f): f is Hole => f.kind === 'hole' && f.diameter.mm >= PIN_MM);
  return [
    ...features.filter((f) => f.kind !== 'hole').map(({ name }) => ({ by: 'indicator' as const, of: name })),
    ...holes.map(({ name }) => ({ by: 'pin' as const, of: name })),
  ];
}
