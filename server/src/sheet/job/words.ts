/** The job's paper in words: what both the Markdown and the printed page say. */
import type { BarNeed } from '../../planning/bars';
import { isPricedBar, priceOfBars } from '../../planning/cost';
import type { SawnBar } from '../../planning/cut-list/types';
import type { DayStep } from '../../planning/day-plan/types';
import { moneyText } from '../../report/costs';
import { formatLength } from '../../text/format';
import type { JobPaper } from './data';
import { boundOf, countsBars } from './json';

type Units = 'mm' | 'in';

const length = (mm: number, units: Units) => formatLength(Number(mm.toFixed(units === 'in' ? 3 : 1)), units);

/** `5 × 1000 mm: 442 + 302 + 252, nothing left` */
export function barWords({ times, lengthMm, cutsMm, leftMm }: SawnBar, units: Units): string {
  const cuts: string[] = [];
  for (let i = 0; i < cutsMm.length; ) {
    let n = 1;
    while (cutsMm[i + n] === cutsMm[i]) n++;
    cuts.push(n === 1 ? length(cutsMm[i]!, units) : `${n} × ${length(cutsMm[i]!, units)}`);
    i += n;
  }
  const left = leftMm > 0 ? `${length(leftMm, units)} left` : 'nothing left';
  return `${times} × ${length(lengthMm, units)}: ${cuts.join(' + ')}, ${left}`;
}

/** What to buy and what to take, and whether less would do. */
export function buyWords(need: BarNeed, units: Units, currency: string | undefined): readonly string[] {
  const { bought, offcuts, list } = need;
  const price = isPricedBar(need) && currency !== undefined;
  const whole = priceOfBars(need)[1];
  const buy = bought.map((b) => `${b.count} × ${length(b.lengthMm, units)}`).join(' and ');
  const rack = offcuts.map((o) => `${o.count} × ${length(o.lengthMm, units)}`).join(' and ');
  const spare = list.bars.every((b) => b.leftMm === 0) ? ['Nothing to spare: every bar is used up exactly.'] : [];
  return [
    ...(buy ? [`Buy ${buy}${price ? `, ${moneyText([whole, whole], currency)}` : ''}.`] : []),
    ...(rack ? [`Take ${rack} from the rack.`] : []),
    provenWords(need, units, currency),
    ...spare,
    ...list.unplaced.map((d) => `${d.times} × ${length(d.mm, units)}: no bar holds that.`),
  ];
}

function provenWords(need: BarNeed, units: Units, currency: string | undefined): string {
  const { list, bought } = need;
  if (list.proven) return 'No way takes less.';
  const bound = boundOf(need);
  if (countsBars(need)) return `Between ${bound} and ${bought[0]!.count} bars: no better way was found in the time.`;
  if (isPricedBar(need) && currency !== undefined)
    return `Between ${moneyText([bound, bound], currency)} and ${moneyText([list.cost, list.cost], currency)}: no better way was found in the time.`;
  return `Between ${length(bound, units)} and ${length(list.cost, units)} of bar: no better way was found in the time.`;
}

/** `change parallels, stop, z zero`; what stays is not told. */
export function changeWords({ changes }: DayStep): string {
  if (changes.includes('vise')) {
    const machine = changes.includes('machine') ? 'another machine; ' : '';
    return `${machine}set up from a bare table`;
  }
  return changes.length === 0 ? 'nothing to change' : `change ${changes.join(', ')}`;
}

/** What the order saves against part by part; nothing where it saves nothing. */
export function savedWords({ day, plain }: JobPaper): readonly string[] {
  const evenings = plain.evenings - day.evenings;
  const changes = plain.changes - day.changes;
  const [low, high] = [plain.minutes[0] - day.minutes[0], plain.minutes[1] - day.minutes[1]];
  if (evenings <= 0 && changes <= 0 && high < 1) return [];
  const count = (n: number, word: string) => `${n} ${word}${n === 1 ? '' : 's'}`;
  return [
    `Against part by part this saves ${[
      ...(evenings > 0 ? [count(evenings, 'evening')] : []),
      ...(changes > 0 ? [count(changes, 'change')] : []),
      ...(high >= 1 && evenings >= 0 ? [`${Math.max(0, low).toFixed(0)} to ${high.toFixed(0)} min`] : []),
    ].join(', ')}.`,
  ];
}
