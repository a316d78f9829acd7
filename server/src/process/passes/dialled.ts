/** A place on a hand wheel without a read-out: turns from its zero, and marks beyond. */
import type { Machine } from '../../model/shop-model';

interface Dialled {
  /** Back from zero. */
  readonly back: boolean;
  readonly turns: number;
  readonly marks: number;
}

/** To the nearest mark. */
export function dialled(mm: number, { turnMm, markMm }: NonNullable<Machine['dial']>): Dialled {
  const each = Math.round(turnMm / markMm);
  const all = Math.round(Math.abs(mm) / markMm);
  return { back: mm < 0 && all > 0, turns: Math.floor(all / each), marks: all % each };
}
