/** What a whole job comes to, for `check JOB --facts` and the line above it: mass, hours, bars, money, part by part. */

import type { Job } from '../model/job-model';
import { costOf } from '../planning/cost';
import { type JobPiece, jobBars } from '../planning/job';
import { type Order, pieceTime, spentOn } from '../planning/piece-time';
import type { Range } from '../planning/ranges';
import { readyStock } from '../planning/ready';
import { barLines, moneyText, notIn, ORDER_TEXT } from './costs';
import { minutesText } from './cuts';
import { hoursText, jobFigures } from './job-figures';

/** `complete`: every part of the job could be read. */
export function jobFactsLines(
  path: string,
  job: Job,
  pieces: readonly JobPiece[],
  complete: boolean,
): readonly string[] {
  const f = jobFigures(job, pieces);
  const row = (label: string, value: string) => `  ${label.padEnd(22)} ${value}`;
  const limit = (text: string | undefined) => (text === undefined ? '' : ` of ${text}`);
  return [
    path,
    row('job', job.name),
    ...(complete
      ? []
      : [
          row(
            'mind',
            `${job.parts.length - pieces.length} of ${job.parts.length} parts could not be read: the sums are without them`,
          ),
        ]),
    row('pieces', `${f.pieces} of ${f.parts} part${f.parts === 1 ? '' : 's'}`),
    ...(f.mass_g === null || f.pieces === 0
      ? []
      : [row('mass', `${f.mass_g.toFixed(1)} g${limit(job.massLimitG?.text)}`)]),
    ...(f.machine_h && f.machine_h[1] > 0
      ? [
          row(
            'at the machine',
            `${hoursText(f.machine_h)}${job.hours ? ` of ${Number(job.hours.value.toFixed(1))} h allowed` : ''}`,
          ),
        ]
      : []),
    ...(f.person_h && f.person_h[1] > 0
      ? [
          row(
            'of a person',
            `${hoursText(f.person_h)}, sawing, deburring and measuring with it; someone stands by while it cuts`,
          ),
        ]
      : []),
    ...pieceLines(job, pieces),
    ...materialLines(job, pieces, f.cost?.currency),
    ...(f.cost ? costRows(job, pieces) : []),
    '',
  ];
}

const MARK: Readonly<Record<Order, string>> = { written: '', planned: ', as planned', rough: ', in a rough order' };

function pieceLines(job: Job, pieces: readonly JobPiece[]): string[] {
  const lines = pieces.flatMap(({ entry, checked, quantity }) => {
    const time = pieceTime(checked);
    if (!time) return [`    ${entry.name.padEnd(20)} no time: its body or the shop’s machine is missing`];
    const { machine } = time;
    const all = spentOn(time, quantity);
    const cost = costOf([{ checked, quantity }], job.saw);
    const words = [
      `${quantity} × in ${machine.setups.length} set-up${machine.setups.length === 1 ? '' : 's'}: ${minutesText(all.machine)}`,
      ...(quantity > 1
        ? [`first ${minutesText(machine.firstPiece)}, each further ${minutesText(machine.eachFurther)}`]
        : []),
      ...(cost
        ? [`${moneyText(cost.total, cost.currency)}${cost.unpriced.length > 0 ? ' without its material' : ''}`]
        : []),
    ];
    const less = notIn(time, checked).map((text) => `; ${text}`);
    return [`    ${entry.name.padEnd(20)} ${words.join('; ')}${MARK[time.order]}${less.join('')}`];
  });
  const rough = pieces.some((p) => pieceTime(p.checked)?.order === 'rough');
  return lines.length > 0
    ? [
        '  part by part, at the machine:',
        ...lines,
        ...(rough ? [`    rough order: ${ORDER_TEXT.rough.replace(/^in a rough order, /, '')}`] : []),
      ]
    : [];
}

function materialLines(job: Job, pieces: readonly JobPiece[], currency: string | undefined): string[] {
  const lines = barLines(jobBars(job, pieces), job.units, currency);
  const ready = readyStock(pieces).map(
    (r) => `${r.pieces} × ${[r.form, r.file].filter(Boolean).join(' ')}, for ${r.parts.join(' and ')}`,
  );
  return [
    ...(lines.length > 0 ? ['  sawn from:', ...lines.map((l) => `    ${l}`)] : []),
    ...(ready.length > 0 ? ['  not sawn:', ...ready.map((l) => `    ${l}`)] : []),
  ];
}

function costRows(job: Job, pieces: readonly JobPiece[]): string[] {
  const cost = costOf(pieces, job.saw)!;
  const money = (range: Range) => moneyText(range, cost.currency);
  const row = (label: string, value: string) => `    ${label.padEnd(20)} ${value}`;
  return [
    '  cost, by the rates of the shop:',
    row('material', `${money(cost.material)} (by the metre, or in whole bars)`),
    ...(cost.machine[1] > 0 ? [row('machine', money(cost.machine))] : []),
    ...(cost.person[1] > 0 ? [row('person', money(cost.person))] : []),
    row('all of it', money(cost.total)),
    ...(cost.unpriced.length > 0
      ? [row('not in the sum', `the material of ${cost.unpriced.join(', ')}: the rack has no price for it`)]
      : []),
  ];
}
