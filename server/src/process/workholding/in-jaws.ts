/** How a set-up holds the work: the seat in the vise, what the jaws touch, before and after every cut. */

import { memo } from '../../memo';
import type { Hold, Part } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import type { PartInShop } from '../part-in-shop';
import { timelineOf } from '../stock';
import type { SetupInTime } from '../stock/types';
import { type Contact, contactOf, gripOf } from './contact';
import { type InVise, type Seating, seatingOf } from './seating';

export { contactOf, touches } from './contact';

export interface InJaws {
  readonly inTime: SetupInTime;
  readonly seating: Seating;
  readonly hold: Hold;
  readonly inVise: InVise;
  /** Between the jaws in height, and standing above them when the set-up begins. */
  readonly gripMm: number;
  readonly aboveMm: number;
  /** What the jaws touch when the set-up begins. */
  readonly contact: Contact;
}

/** Undefined where no vise holds it, or the text does not say enough. */
export function inJaws(s: SetupInTime, part: Part, shop: Shop): InJaws | undefined {
  const seating = seatingOf(s, part, shop);
  return seating && held(seating);
}

const held = memo((seating: Seating): InJaws | undefined => {
  const { of: s, held: h } = seating;
  const { hold } = s.setup;
  if (!h || !hold) return undefined;
  const gripMm = gripOf(seating, h);
  const contact = contactOf(s.before, seating, h);
  return { inTime: s, seating, hold, inVise: h, gripMm, aboveMm: seating.heightMm - gripMm, contact };
});

/** Of every set-up that is held in a vise; those that are settled left out. */
export function heldOf({ part, solid, shop }: PartInShop): readonly InJaws[] {
  if (!part.setups) return [];
  return timelineOf(part, solid)
    .setups.slice(part.settled ?? 0)
    .flatMap((s) => inJaws(s, part, shop) ?? []);
}
