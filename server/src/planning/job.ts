/**
 * What a whole job comes to: its mass against the limit, its hours at the machine, the bars it is sawn from. Each part as
 * its text or its plan says, or in a rough order.
 */

import { barOf, barsFor, rackLengths } from '../model/bar';
import type { Job, JobPart } from '../model/job-model';
import { materialOf } from '../model/material-of';
import type { CheckedPart } from '../rules/checked-part';
import { barTooShort, overHours, overMass } from '../rules/cost/of-jobs';
import { lossesOf } from '../rules/follows';
import { jointFindings } from '../rules/joints';
import type { ReadPart } from '../rules/judging';
import { said } from '../rules/kit/define';
import type { Finding } from '../rules/kit/rule';
import { formatLength } from '../text/format';
import { ROUNDING } from '../tolerance';
import { type BarNeed, barsNeeded } from './bars';
import { sawn, spentBy } from './cost';
import { pieceTime } from './piece-time';
import type { Minutes } from './times';

export interface JobPiece {
  readonly entry: JobPart;
  readonly checked: CheckedPart;
  readonly quantity: number;
  /** The rows that its part's table of variants has. */
  readonly variants?: readonly string[];
}

/** Grams of one piece; undefined without a known material or body. */
export function gramsOf({ part, solid }: ReadPart): number | undefined {
  const material = materialOf(part);
  return part.body && material ? (solid.measures.volumeMm3 * material.densityGPerCm3) / 1000 : undefined;
}

/** Machine minutes of all pieces of one part: the first with its set-ups, the others with loading only. */
function minutesFor(piece: JobPiece): Minutes | undefined {
  return spentBy(piece)?.machine;
}

/** Bars to saw all pieces of a job from. */
export function jobBars(job: Job, pieces: readonly JobPiece[]): readonly BarNeed[] {
  return barsNeeded(pieces.map(sawn), job.saw);
}

/** What the limits of the job are exceeded by. `complete`: every part of the job is there; else nothing is said of sums. */
export function jobFindings(job: Job, pieces: readonly JobPiece[], complete: boolean): readonly Finding[] {
  // What lacks a cut weighs too much, and takes too little: nothing is said of it.
  const whole = complete && pieces.every(({ checked }) => !lossesOf(checked.part, checked.tree));
  return [
    ...(whole ? [...massOver(job, pieces), ...hoursOver(job, pieces)] : []),
    ...barOver(job, pieces),
    ...jointFindings(job, pieces),
  ];
}

function* massOver({ massLimitG }: Job, pieces: readonly JobPiece[]): Generator<Finding> {
  if (!massLimitG) return;
  const each = pieces.map((p) => ({ ...p, grams: gramsOf(p.checked) }));
  if (each.some((p) => p.grams === undefined)) return;
  const sum = each.reduce((all, p) => all + p.grams! * p.quantity, 0);
  if (sum <= massLimitG.value + ROUNDING) return;
  // a mass that is near only must not stop anyone
  const exact = pieces.every((p) => p.checked.solid.measures.exact);
  const about = exact ? '' : 'about ';
  const heaviest = each.toSorted((a, b) => b.grams! * b.quantity - a.grams! * a.quantity).slice(0, 3);
  yield said(overMass, {
    severity: exact ? 'error' : 'warning',
    message: `All parts together weigh ${about}${sum.toFixed(1)} g, ${about}${(sum - massLimitG.value).toFixed(1)} g over the limit of ${massLimitG.text}. Make the heaviest lighter: ${heaviest.map((p) => `${p.entry.name} (${(p.grams! * p.quantity).toFixed(1)} g)`).join(', ')}.`,
    of: [],
    span: massLimitG.span,
    related: heaviest.map((p) => ({ span: p.entry.span, message: `${p.quantity} × ${p.grams!.toFixed(1)} g` })),
    facts: { mass_g: sum, limit_g: massLimitG.value, over_g: sum - massLimitG.value },
  });
}

function* hoursOver({ hours }: Job, pieces: readonly JobPiece[]): Generator<Finding> {
  if (!hours) return;
  const each = pieces.map((p) => ({ ...p, minutes: minutesFor(p) }));
  if (each.some((p) => p.minutes === undefined)) return;
  const [low, high] = [0, 1].map((i) => each.reduce((all, p) => all + p.minutes![i]!, 0) / 60) as [number, number];
  if (high <= hours.value) return;
  const longest = each.toSorted((a, b) => b.minutes![1] - a.minutes![1]).slice(0, 3);
  const rough = each.filter((p) => pieceTime(p.checked)?.order === 'rough').map((p) => p.entry.name);
  const guessed = rough.length > 0 ? ` Estimated without set-ups: ${rough.join(', ')}.` : '';
  yield said(overHours, {
    severity: low > hours.value ? 'warning' : 'hint',
    message: `All parts together need ${low.toFixed(1)} to ${high.toFixed(1)} h at the machine; the job has ${Number(hours.value.toFixed(1))} h.${guessed} Use fewer set-ups. The longest are ${longest.map((p) => `${p.entry.name} (${spanText(p.minutes!)})`).join(', ')}.`,
    of: [],
    span: hours.span,
    related: longest.map((p) => ({ span: p.entry.span, message: `${p.quantity} pieces` })),
    facts: { low_h: low, high_h: high, limit_h: hours.value },
  });
}

function* barOver(job: Job, pieces: readonly JobPiece[]): Generator<Finding> {
  for (const { entry, checked } of pieces) {
    const { part, shop } = checked;
    const bar = barOf(part);
    const rack = bar ? barsFor(part, bar, shop) : [];
    const longest = Math.max(0, ...rack.flatMap(rackLengths));
    const { kerfMm, clampMm, trimMm } = job.saw;
    const lost = kerfMm + clampMm + trimMm;
    if (!bar || longest === 0 || bar.pieceMm + lost <= longest + ROUNDING) continue;
    const length = (mm: number) => formatLength(mm, job.units);
    // As long as the bar itself it needs no cut, if the bar's ends will do.
    const whole = bar.pieceMm <= longest + ROUNDING;
    yield said(barTooShort, {
      severity: whole ? 'warning' : 'error',
      message: `A piece for ${entry.name} is ${length(bar.pieceMm)} long, and the saw cuts ${length(lost)} away. The longest bar of its section in the shop is ${length(longest)}. ${whole ? 'Use it with one end as bought, or buy a longer bar' : 'Buy a longer bar, or make it of two'}.`,
      of: [],
      span: entry.spec.span,
      facts: { piece_mm: bar.pieceMm, kerf_mm: kerfMm, longest_mm: longest },
    });
  }
}

/** Minutes, or hours where there are many. */
function spanText([low, high]: Minutes): string {
  const [by, digits, unit] = high < 300 ? ([1, 0, 'min'] as const) : ([60, 1, 'h'] as const);
  return `${(low / by).toFixed(digits)} to ${(high / by).toFixed(digits)} ${unit}`;
}
