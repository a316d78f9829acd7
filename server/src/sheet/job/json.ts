/** The job's paper for other programs: keys end in their unit, ranges are [low, high]. */

import type { BarNeed } from '../../planning/bars';
import { isPricedBar } from '../../planning/cost';
import type { SawnBar } from '../../planning/cut-list/types';
import type { DayPlan } from '../../planning/day-plan/types';
import { json } from '../../text/shown';
import { ROUNDING } from '../../tolerance';
import type { JobPaper } from './data';

export function jobJson(paper: JobPaper): string {
  const { job, figures, rows, savings, bars, bought, toolToBuy, tools, day, plain } = paper;
  return `${json({
    format: 1,
    job: job.name,
    ...figures,
    mass_limit_g: job.massLimitG?.value ?? null,
    hours_limit_h: job.hours?.value ?? null,
    by_part: rows.map((r) => ({
      part: r.name,
      spec: r.spec,
      pieces: r.pieces,
      mass_g: r.grams ?? null,
      all_mass_g: r.grams === undefined ? null : r.grams * r.pieces,
      setups: r.setups,
      order: r.order ?? null,
      machine_min: r.machine ?? null,
      person_min: r.person ?? null,
    })),
    savings: savings.map(({ part, minutes, message }) => ({ part, machine_min: minutes, message })),
    // Of all sections; each list below has its own.
    bars: bars.flatMap((need) => need.list.bars.flatMap((bar) => each(bar, { of: need.what }))),
    proven: bars.every((need) => need.list.proven),
    bound: bars.reduce((sum, need) => sum + boundOf(need), 0),
    cut_lists: bars.map(listJson),
    to_buy: bought.map(({ kind, name, count, joints }) => ({ kind, name, count, joints })),
    tool_to_buy: toolToBuy ?? null,
    tools: tools.map(({ name, parts }) => ({ name, parts })),
    day: { ...dayJson(day), part_by_part: dayJson(plain) },
  })}\n`;
}

function listJson(need: BarNeed): unknown {
  const { what, bought, offcuts, pieces, list, perMetre } = need;
  return {
    of: what,
    pieces,
    bars: list.bars.flatMap((bar) => each(bar, {})),
    buy: bought.map(({ lengthMm, count, price }) => ({ length_mm: lengthMm, count, price: price ?? null })),
    from_rack: offcuts.map(({ lengthMm, count }) => ({ length_mm: lengthMm, count })),
    per_metre: perMetre ?? null,
    proven: list.proven,
    bound: boundOf(need),
    bound_in: unitOf(need),
    not_sawn: list.unplaced.map(({ mm, times }) => ({ length_mm: mm, count: times })),
  };
}

/** A list of a million bars would be a file of its own: as many are listed as anybody cuts. */
const MOST_LISTED = 10_000;

function each<T extends object>({ times, lengthMm, cutsMm, leftMm, offcut }: SawnBar, more: T): readonly object[] {
  return Array.from({ length: Math.min(times, MOST_LISTED) }, () => ({
    ...more,
    length_mm: lengthMm,
    cuts_mm: cutsMm,
    left_mm: leftMm,
    offcut: offcut ?? false,
  }));
}

/** Where one length is bought the cost of a bar is one: the bound counts bars. */
function unitOf(need: BarNeed): 'bars' | 'money' | 'mm' {
  return countsBars(need) ? 'bars' : isPricedBar(need) ? 'money' : 'mm';
}

export function countsBars({ bought, offcuts }: BarNeed): boolean {
  return offcuts.length === 0 && bought.length === 1;
}

/** No cut list takes less: in bars where one length does, else in money, else in millimetres of bar. */
export function boundOf(need: BarNeed): number {
  const { list, bought } = need;
  if (!countsBars(need)) return list.bound;
  const [{ count } = { count: 0 }] = bought;
  return Math.ceil((list.bound / list.cost) * count - ROUNDING);
}

function dayJson({ steps, evenings, minutes, changes, proven, tooLong }: DayPlan): object {
  return {
    evenings,
    machine_min: minutes,
    changes,
    proven,
    longer_than_an_evening: tooLong,
    steps: steps.map(({ setup, evening, changes: before, minutes: takes }) => ({
      evening,
      part: setup.part,
      setup: setup.name,
      pieces: setup.pieces,
      change: before,
      machine_min: takes,
      tools: setup.tools,
    })),
  };
}
