/** What every part of a set-up's page is told: the set-up, its words, and how numbers and names are written. */
import type { Units } from '../../model/model';
import type { SetupPasses, Station } from '../../process/passes';
import { mmPer } from '../../text/format';
import type { SheetWords } from '../language/en';
import type { HoldWords } from '../language/hold-en';
import type { SetupWords } from '../language/setup-en';
import { num } from '../part/numbers';
import { turnsOf } from '../words';

export interface Saying {
  readonly passes: SetupPasses;
  readonly units: Units;
  readonly words: SheetWords;
  readonly said: SetupWords;
  readonly hold: HoldWords;
  readonly quantity: number;
  /** A feature's letter, a face's word. */
  readonly called: (name: string) => string;
}

/** As the read-out shows it: hundredths, or ten-thousandths of an inch. */
export function shown(mm: number, units: Units): string {
  const text = (mm / mmPer(units)).toFixed(units === 'in' ? 4 : 2);
  return (Number(text) === 0 ? text.replace('-', '') : text).replace('-', '−');
}

/** A size with no more digits than it has, to a hundredth (a thousandth of an inch). */
export function size(mm: number, units: Units, digits = units === 'in' ? 3 : 2): string {
  const by = mmPer(units);
  const rounded = Number((mm / by).toFixed(digits)) * by;
  return num(rounded, units);
}

/** For hand wheels without a read-out: turns and marks behind a place; nothing elsewhere. */
export function turnsText(mm: number, { passes, said }: Saying): string {
  const { dial } = passes;
  return dial ? turnsOf(mm, dial, { setup: said }) : '';
}

/** A place, and on hand wheels the turns to it. */
export function stationTold(at: Station, s: Saying): string {
  const turns = s.passes.dial ? ` (X ${turnsText(at[0], s)}, Y ${turnsText(at[1], s)})` : '';
  return `${stationText(at, s.units)}${turns}`;
}

export function stationText([x, y]: Station, units: Units): string {
  return `X ${shown(x, units)} Y ${shown(y, units)}`;
}
