/** What is measured, as the pages name it, and between which limits. */
import type { MeasureRow } from '../../process/passes';
import { pair } from '../part/numbers';
import type { Saying } from './saying';

export function measuredName({ of, to, what }: MeasureRow, { called, said }: Saying): string {
  const named = to === undefined ? called(of) : said.fromTo(called(of), called(to));
  return [named, said.whats[what]].filter((t) => t !== '').join(' ');
}

export function measuredLimits({ limitsMm, thread }: MeasureRow, { said, units }: Saying): string {
  return limitsMm ? pair(limitsMm[0], limitsMm[1], units).join(' … ') : said.goNoGo(thread ?? '');
}
