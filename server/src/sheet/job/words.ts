/** The job's paper in words: what both the Markdown and the printed page say. */
import type { BarNeed } from '../../planning/bars';
import { isPricedBar, priceOfBars } from '../../planning/cost';
import type { SawnBar } from '../../planning/cut-list/types';
import type { DayStep } from '../../planning/day-plan/types';
import type { ReadyStock } from '../../planning/ready';
import { moneyText } from '../../report/costs';
import { formatLength } from '../../text/format';
import type { Words } from '../language';
import type { SheetWords } from '../language/en';
import type { JobWords } from '../language/job-en';
import { toolTitle } from '../part/bring';
import type { JobPaper } from './data';
import { boundOf, countsBars } from './json';

type Units = 'mm' | 'in';

const length = (mm: number, units: Units) => formatLength(Number(mm.toFixed(units === 'in' ? 3 : 1)), units);

/** `5 × 1000 mm: 442 + 302 + 252, nothing left` */
export function barWords({ times, lengthMm, cutsMm, leftMm, offcut }: SawnBar, units: Units, said: JobWords): string {
  const cuts: string[] = [];
  for (let i = 0; i < cutsMm.length; ) {
    let n = 1;
    while (cutsMm[i + n] === cutsMm[i]) n++;
    cuts.push(n === 1 ? length(cutsMm[i]!, units) : `${n} × ${length(cutsMm[i]!, units)}`);
    i += n;
  }
  const left = leftMm > 0 ? said.left(length(leftMm, units)) : said.nothingLeft;
  const bar = offcut ? said.offcutOf(length(lengthMm, units)) : length(lengthMm, units);
  return `${times} × ${bar}: ${cuts.join(' + ')}, ${left}`;
}

/** What to buy and what to take, and whether less would do. */
export function buyWords(need: BarNeed, { job: { units }, currency }: JobPaper, said: JobWords): readonly string[] {
  const { bought, offcuts, list } = need;
  const price = isPricedBar(need) && currency !== undefined;
  const whole = priceOfBars(need)[1];
  const listed = (bars: readonly { readonly count: number; readonly lengthMm: number }[]) =>
    bars.map((b) => `${b.count} × ${length(b.lengthMm, units)}`).join(said.and);
  return [
    ...(bought.length > 0
      ? [said.buyBars(listed(bought), price ? moneyText([whole, whole], currency) : undefined)]
      : []),
    ...(offcuts.length > 0 ? [said.fromRack(listed(offcuts))] : []),
    provenWords(need, units, currency, said),
    ...(list.bars.every((b) => b.leftMm === 0) ? [said.nothingSpare] : []),
    ...list.unplaced.map((d) => said.noBar(`${d.times} × ${length(d.mm, units)}`)),
  ];
}

function provenWords(need: BarNeed, units: Units, currency: string | undefined, said: JobWords): string {
  const { list, bought } = need;
  if (list.proven) return said.proven;
  const bound = boundOf(need);
  if (countsBars(need)) return said.between(String(bound), said.bars(bought[0]!.count));
  if (isPricedBar(need) && currency !== undefined)
    return said.between(moneyText([bound, bound], currency), moneyText([list.cost, list.cost], currency));
  return said.between(length(bound, units), said.ofBar(length(list.cost, units)));
}

/** `change parallels, stop, zero Z`; what stays is not told. */
export function changeWords({ changes }: DayStep, said: JobWords): string {
  if (changes.includes('vise'))
    return changes.includes('machine') ? `${said.otherMachine}; ${said.bareTable}` : said.bareTable;
  return changes.length === 0 ? said.nothingToChange : said.change(changes.map((c) => said.changes[c]).join(', '));
}

/** What the order saves against part by part, and what is to be known of it; nothing where there is nothing to say. */
export function orderWords({ day, plain }: JobPaper, said: JobWords): readonly string[] {
  const evenings = plain.evenings - day.evenings;
  const changes = plain.changes - day.changes;
  const [low, high] = [plain.minutes[0] - day.minutes[0], plain.minutes[1] - day.minutes[1]];
  const saved = [
    ...(evenings > 0 ? [said.evenings(evenings)] : []),
    ...(changes > 0 ? [said.changesCount(changes)] : []),
    ...(high >= 1 && evenings >= 0 ? [said.minutes(Math.max(0, low).toFixed(0), high.toFixed(0))] : []),
  ];
  return [
    ...(saved.length > 0 ? [said.saves(saved.join(', '))] : []),
    ...(day.proven ? [] : [said.notProven]),
    ...(day.tooLong.length > 0 ? [said.tooLong(day.tooLong.join(', '))] : []),
  ];
}

/** `end mill ⌀16 (em-16)`: what it is, and what the shop calls it. */
export function toolWords({ tool, name }: JobPaper['tools'][number], units: Units, words: SheetWords): string {
  return tool ? `${toolTitle(tool, units, words)} (${name})` : name;
}

/** `2 pieces from flat bar 40 × 16 mm aluminium-6061-t6` */
export function piecesWords({ pieces, what, form }: BarNeed, { job, part }: Pick<Words, 'job' | 'part'>): string {
  return job.from(pieces, what.replace(form, part.forms[form]));
}

/** `2 × blank arm.part.yaml, for arm-wired` */
export function readyWords(
  { pieces, form, file, parts }: ReadyStock,
  { job, part }: Pick<Words, 'job' | 'part'>,
): string {
  return job.ready(pieces, [part.forms[form], file].filter(Boolean).join(' '), parts.join(', '));
}

/** `kerf 2 mm, the saw holds 25 mm` */
export function sawWords({ saw: { kerfMm, clampMm, trimMm } }: JobPaper['job'], said: JobWords): string {
  return [
    said.kerf(String(kerfMm)),
    ...(clampMm > 0 ? [said.clamp(String(clampMm))] : []),
    ...(trimMm > 0 ? [said.trim(String(trimMm))] : []),
  ].join(', ');
}
