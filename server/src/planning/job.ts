/**
 * What a whole job comes to: its mass against the limit, its hours at the machine, the bars it is sawn from. Each part as
 * it is planned in its text, or, where it has no setups, with as many as its directions need at least.
 */
import { findMaterial } from '../reference/materials';
import type { CheckedPart } from '../rules/check';
import { fact } from '../rules/message';
import type { Finding } from '../rules/rule';
import { barOf, barsFor } from '../spec/bar';
import type { Job, JobPart } from '../spec/job-model';
import type { Setup } from '../spec/model';
import { formatLength } from '../text/format';
import { fewestDirections } from './directions';
import { itemsOf } from './items';
import { planSpan } from './make-setup';
import { type Minutes, timeOf } from './times';

export interface JobPiece {
  readonly entry: JobPart;
  readonly checked: CheckedPart;
  readonly quantity: number;
}

/** Grams of one piece; undefined without a known material or body. */
export function gramsOf({ part, solid }: CheckedPart): number | undefined {
  const material = part.material && findMaterial(part.material.name);
  return part.body && material ? (solid.measures.volumeMm3 * material.densityGPerCm3) / 1000 : undefined;
}

/** Machine minutes of all pieces of one part: the first with its setups, the others with loading only. */
export function minutesFor({ checked, quantity }: JobPiece): Minutes | undefined {
  if (!checked.part.body || checked.shop.machines.length === 0) return undefined;
  const { firstPiece, eachFurther } = timeOf(setupsOf(checked), checked);
  return [0, 1].map((i) => firstPiece[i]! + (quantity - 1) * eachFurther[i]!) as unknown as Minutes;
}

/** As written; else one list of cuts, and empty setups for every further direction that must look up. */
function setupsOf({ part, solid }: CheckedPart): readonly Setup[] {
  if (part.setups && part.setups.length > 0) return part.setups;
  const items = itemsOf(part, solid);
  const count = Math.max(1, fewestDirections(items.map((i) => i.from)).count);
  const span = planSpan(0);
  const names = [...new Set(items.map((i) => i.name))];
  return Array.from({ length: count }, (_, i) => ({
    name: `setup-${i + 1}`,
    span,
    zero: {},
    cuts: i === 0 ? names.map((name) => ({ name, span })) : [],
    tools: [],
    whole: span,
  }));
}

/** What the limits of the job are exceeded by. `complete`: every part of the job is there; else nothing is said of sums. */
export function jobFindings(job: Job, pieces: readonly JobPiece[], complete: boolean): readonly Finding[] {
  return [...(complete ? [...overMass(job, pieces), ...overHours(job, pieces)] : []), ...overBar(job, pieces)];
}

function* overMass({ massLimitG }: Job, pieces: readonly JobPiece[]): Generator<Finding> {
  if (!massLimitG) return;
  const each = pieces.map((p) => ({ ...p, grams: gramsOf(p.checked) }));
  if (each.some((p) => p.grams === undefined)) return;
  const sum = each.reduce((all, p) => all + p.grams! * p.quantity, 0);
  if (sum <= massLimitG.value + 1e-9) return;
  // a mass that is near only must not stop anyone
  const exact = pieces.every((p) => p.checked.solid.measures.exact);
  const about = exact ? '' : 'about ';
  const heaviest = each.toSorted((a, b) => b.grams! * b.quantity - a.grams! * a.quantity).slice(0, 3);
  yield {
    rule: 'cost/over-mass',
    severity: exact ? 'error' : 'warning',
    message: `All parts together weigh ${about}${sum.toFixed(1)} g, ${about}${(sum - massLimitG.value).toFixed(1)} g over the limit of ${massLimitG.text}. Heaviest: ${heaviest.map((p) => `${p.entry.name} ${(p.grams! * p.quantity).toFixed(1)} g`).join(', ')}.`,
    of: [],
    span: massLimitG.span,
    related: heaviest.map((p) => ({ span: p.entry.span, message: `${p.quantity} × ${p.grams!.toFixed(1)} g` })),
    facts: { mass_g: fact(sum), limit_g: massLimitG.value, over_g: fact(sum - massLimitG.value) },
  };
}

function* overHours({ hours }: Job, pieces: readonly JobPiece[]): Generator<Finding> {
  if (!hours) return;
  const each = pieces.map((p) => ({ ...p, minutes: minutesFor(p) }));
  if (each.some((p) => p.minutes === undefined)) return;
  const [low, high] = [0, 1].map((i) => each.reduce((all, p) => all + p.minutes![i]!, 0) / 60) as [number, number];
  if (high <= hours.value) return;
  const longest = each.toSorted((a, b) => b.minutes![1] - a.minutes![1]).slice(0, 3);
  yield {
    rule: 'cost/over-hours',
    severity: low > hours.value ? 'warning' : 'hint',
    message: `All parts together take about ${low.toFixed(1)} to ${high.toFixed(1)} h at the machine, and there are ${hours.text}. Longest: ${longest.map((p) => `${p.entry.name} ${Math.round(p.minutes![0])} to ${Math.round(p.minutes![1])} min`).join(', ')}. Fewer set-ups save most; speeds behind this are where to begin.`,
    of: [],
    span: hours.span,
    related: longest.map((p) => ({ span: p.entry.span, message: `${p.quantity} pieces` })),
    facts: { low_h: fact(low), high_h: fact(high), limit_h: hours.value },
  };
}

export interface BarNeed {
  /** `flat-bar 40 × 16 aluminium-6061-t6` */
  readonly what: string;
  readonly lengthMm: number;
  readonly count: number;
}

/** Bars to saw all pieces from, longest pieces first into the first bar they fit; pieces that no bar holds are left out. */
export function barsNeeded(job: Job, pieces: readonly JobPiece[]): readonly BarNeed[] {
  const bySection = new Map<string, { what: string; lengths: readonly number[]; pieces: number[] }>();
  for (const { checked, quantity } of pieces) {
    const { part, shop } = checked;
    const bar = barOf(part);
    const [rack] = bar ? barsFor(part, bar, shop) : [];
    if (!bar || !rack || rack.lengthsMm.length === 0) continue;
    const section = bar.sectionMm.map((mm) => formatLength(mm, part.units).replace(/ \w+$/, '')).join(' × ');
    const what = `${part.stock.form} ${section} ${part.material?.name ?? ''}`;
    const group = bySection.get(what) ?? { what, lengths: rack.lengthsMm, pieces: [] };
    for (let i = 0; i < quantity; i++) group.pieces.push(bar.pieceMm);
    bySection.set(what, group);
  }
  return [...bySection.values()].flatMap(({ what, lengths, pieces: cut }) => {
    const longest = Math.max(...cut) + job.sawKerfMm;
    const lengthMm = [...lengths].sort((a, b) => a - b).find((l) => l >= longest);
    if (lengthMm === undefined) return [];
    const left: number[] = [];
    for (const piece of cut.toSorted((a, b) => b - a)) {
      const need = piece + job.sawKerfMm;
      const i = left.findIndex((l) => l >= need - 1e-9);
      if (i >= 0) left[i]! -= need;
      else left.push(lengthMm - need);
    }
    return [{ what, lengthMm, count: left.length }];
  });
}

function* overBar(job: Job, pieces: readonly JobPiece[]): Generator<Finding> {
  for (const { entry, checked } of pieces) {
    const { part, shop } = checked;
    const bar = barOf(part);
    const rack = bar ? barsFor(part, bar, shop) : [];
    const longest = Math.max(0, ...rack.flatMap((r) => r.lengthsMm));
    if (!bar || longest === 0 || bar.pieceMm + job.sawKerfMm <= longest + 1e-9) continue;
    const length = (mm: number) => formatLength(mm, job.units);
    yield {
      rule: 'cost/over-bar',
      severity: 'error',
      message: `A piece for ${entry.name} is ${length(bar.pieceMm)} long and ${length(job.sawKerfMm)} go to the saw, but the longest bar of its section on the rack is ${length(longest)}.`,
      of: [],
      span: entry.spec.span,
      related: [],
      facts: { piece_mm: fact(bar.pieceMm), kerf_mm: job.sawKerfMm, longest_mm: longest },
    };
  }
}
