/** The workpiece at a moment of its set-ups, and each set-up as it is drawn: how it lies, what holds the work, where zero is. */
import type { Void } from '../../geometry/types';
import { memo } from '../../memo';
import type { Plan } from '../../planning/plan';
import { knownPlan } from '../../planning/plan-cache';
import type { PartInShop } from '../../process/part-in-shop';
import { timelineOf } from '../../process/stock';
import type { Workpiece } from '../../process/stock/types';
import { seatingOf } from '../../process/workholding/seating';
import type { CheckedPart } from '../../rules/checked-part';
import { rangeOf } from '../lsp';
import type { PartSnapshot } from '../snapshot';
import { aroundOf, lengthsOf } from './around';
import { frameOf, writtenZero } from './lie';
import type { Moment, PictureSetup } from './protocol';

/** What is done of one cut, in its set-up's order: all of it, or some of its volumes by their places in the list. */
export interface Done {
  readonly order: number;
  readonly some?: readonly number[];
}

/** The part with its own set-ups, or with those of the plan that is known. */
export function madeBy(checked: CheckedPart, planned: boolean): PartInShop | undefined {
  if (!planned) return checked;
  const plan = knownPlan(checked);
  return plan && asPlanned(checked, plan);
}

const asPlanned = memo(({ part, solid, shop }: CheckedPart, plan: Plan): PartInShop => {
  const setups = plan.setups.map((s) => s.setup);
  return { part: { ...part, setups }, solid, shop };
});

/** Undefined where there is no such set-up. `done`: of its cuts, where not all or none is. */
export function workAt(
  { part, solid }: PartInShop,
  { setup, when }: Moment,
  done?: readonly Done[],
): Pick<Workpiece, 'body' | 'voids'> | undefined {
  const made = timelineOf(part, solid).setups[setup];
  if (!made || !done) return made?.[when];
  const { body, voids } = made.before;
  const gone = new Set<Void>(voids);
  for (const { order, some } of done) {
    const removes = made.cuts.find((c) => c.order === order)?.removes ?? [];
    for (const [i, v] of removes.entries()) if (!some || some.includes(i)) gone.add(v);
  }
  return { body, voids: [...gone] };
}

export function setupsOf(snapshot: PartSnapshot, of: PartInShop, planned: boolean): PictureSetup[] {
  const { part, solid, shop } = of;
  return timelineOf(part, solid).setups.map((made): PictureSetup => {
    const { setup } = made;
    const seating = seatingOf(made, part, shop);
    const around = seating ? aroundOf(seating, setup.hold, shop) : [];
    const lengths = seating && setup.hold ? lengthsOf(made, seating, part, shop) : [];
    const zero = seating && writtenZero(made, seating, part, solid);
    const begin = { line: 0, character: 0 };
    return {
      name: setup.name,
      ...(setup.up ? { up: setup.up.name } : {}),
      cuts: setup.cuts.map((c) => c.name),
      range: planned ? { start: begin, end: begin } : rangeOf(snapshot, setup.whole),
      ...(seating && { frame: frameOf(made, seating, part, solid) }),
      ...(around.length > 0 ? { around } : {}),
      ...(lengths.length > 0 ? { lengths } : {}),
      ...(zero ? { zero } : {}),
    };
  });
}
