/** A job's sums as every report gives them: keys end in their unit; and in one line. */

import type { Job } from '../model/job-model';
import { costOf } from '../planning/cost';
import { gramsOf, type JobPiece } from '../planning/job';
import { missingToolOf } from '../planning/missing-tool';
import { pieceTime, spentOn } from '../planning/piece-time';
import { type Range, scaled, sum } from '../planning/ranges';
import type { CheckedPart } from '../rules/checked-part';
import { moneyText } from './costs';
import { type LeftOut, leftOutOf } from './left-out';

export interface JobFigures {
  readonly parts: number;
  /** Named in the job, and not in its sums: parts that could not be read. Absent where there are none. */
  readonly unread?: readonly string[];
  /** Parts of which something could not be read: what the sums lack of each. Absent where there are none. */
  readonly left_out?: readonly (LeftOut & { readonly part: string })[];
  readonly pieces: number;
  /** Null where a part cannot be weighed. */
  readonly mass_g: number | null;
  /** Low and high; null where a part has no time. */
  readonly machine_h: Range | null;
  readonly person_h: Range | null;
  /** Parts without set-ups in their text and without a known plan. */
  readonly rough: readonly string[];
  readonly tool_to_buy?: ToolToBuy;
  /** Null where a shop sets no rate. */
  readonly cost: { readonly currency: string; readonly total: Range; readonly unpriced: readonly string[] } | null;
}

/** One tool that is not on hand, and what it would cure: worked out only where a whole job is reported. */
export interface ToolToBuy {
  readonly what: string;
  readonly cures: number;
  readonly parts: readonly string[];
}

/** Undefined where no single tool cures anything. Each that is looked at judges the parts anew. */
export function toolToBuy(
  pieces: readonly { readonly entry: { readonly name: string }; readonly checked: CheckedPart }[],
): ToolToBuy | undefined {
  const cure = missingToolOf(pieces.map((p) => p.checked));
  if (!cure) return undefined;
  const cures = cure.cured.reduce((n, c) => n + c.findings.length, 0);
  return { what: cure.what, cures, parts: cure.cured.map((c) => pieces[c.of]!.entry.name) };
}

/** `One tool that is not in the shop would fix 3 findings in yoke and rail: end mill of 3 mm reaching 20 mm` */
export function toolLine({ what, cures, parts }: ToolToBuy): string {
  return `One tool that is not in the shop would fix ${cures} finding${cures === 1 ? '' : 's'} in ${parts.join(', ')}: ${what}`;
}

export function jobFigures(job: Job, pieces: readonly JobPiece[]): JobFigures {
  const grams = pieces.map((p) => gramsOf(p.checked));
  const spent = pieces.map((p) => {
    const time = pieceTime(p.checked);
    return time && spentOn(time, p.quantity);
  });
  const timed = spent.every((s) => s !== undefined);
  const cost = costOf(pieces, job.saw);
  const unread = job.parts.filter((entry) => pieces.every((p) => p.entry !== entry)).map((entry) => entry.name);
  const leftOut = pieces
    .map((p) => ({ part: p.entry.name, ...leftOutOf(p.checked) }))
    .filter((l) => l.features.length + l.setups.length > 0);
  return {
    parts: pieces.length,
    ...(unread.length > 0 && { unread }),
    ...(leftOut.length > 0 && { left_out: leftOut }),
    pieces: pieces.reduce((n, p) => n + p.quantity, 0),
    mass_g: grams.some((g) => g === undefined)
      ? null
      : rounded(grams.reduce((all: number, g, i) => all + g! * pieces[i]!.quantity, 0)),
    machine_h: timed ? pair(scaled(sum(spent.map((s) => s!.machine)), 1 / 60)) : null,
    person_h: timed ? pair(scaled(sum(spent.map((s) => s!.person)), 1 / 60)) : null,
    rough: pieces.filter((p) => pieceTime(p.checked)?.order === 'rough').map((p) => p.entry.name),
    cost: cost ? { currency: cost.currency, total: pair(cost.total), unpriced: cost.unpriced } : null,
  };
}

function rounded(value: number): number {
  return Number(value.toFixed(3));
}

function pair([low, high]: Range): Range {
  return [rounded(low), rounded(high)];
}

/** What a job's sums lack, in words: parts, and features of parts. Undefined where they lack nothing. */
export function withoutText({
  unread = [],
  left_out = [],
}: Pick<JobFigures, 'unread' | 'left_out'>): string | undefined {
  const names = [
    ...unread,
    ...left_out.flatMap(({ part, features, setups }) => [
      ...features.map((name) => `${name} of ${part}`),
      ...setups.map((name) => `set-up ${name} of ${part}`),
    ]),
  ];
  if (names.length === 0) return undefined;
  const more = names.length > MOST_NAMED ? ` and ${names.length - MOST_NAMED} more` : '';
  return names.slice(0, MOST_NAMED).join(', ') + more;
}
const MOST_NAMED = 3;

/** `8.2 to 14.9 h` */
export function hoursText([low, high]: Range, to = 'to'): string {
  const [a, b] = [low.toFixed(1), high.toFixed(1)];
  return `${a === b ? a : `${a} ${to} ${b}`} h`;
}

/** `12 pieces of 7 parts: 765.6 g, 7.2 to 15.5 h at the machine, 379 to 882 EUR`; nothing where no part could be read. */
export function jobLine(f: JobFigures): string | undefined {
  if (f.pieces === 0) return undefined;
  const said = [
    ...(f.mass_g === null ? [] : [`${f.mass_g.toFixed(1)} g`]),
    ...(f.machine_h === null
      ? []
      : [
          `${hoursText(f.machine_h)} at the machine${f.rough.length > 0 ? ` (in a rough order: ${f.rough.join(', ')})` : ''}`,
        ]),
    ...(f.cost && f.cost.total[1] > 0
      ? [
          `${moneyText(f.cost.total, f.cost.currency)}${f.cost.unpriced.length > 0 ? ` without the material of ${f.cost.unpriced.join(', ')}` : ''}`,
        ]
      : []),
  ];
  const count = (n: number, word: string) => `${n} ${word}${n === 1 ? '' : 's'}`;
  const without = withoutText(f);
  const lacks = without === undefined ? '' : `, without ${without}`;
  return said.length === 0 && !lacks
    ? undefined
    : `${count(f.pieces, 'piece')} of ${count(f.parts, 'part')}: ${said.join(', ') || 'no sums'}${lacks}`;
}

/** So many names stand in a line; a job of ten thousand parts has more. */
const MOST_NAMES = 20;

/** The first of them, and how many more there are. */
export function firstNames(names: readonly string[]): string {
  const more = names.length - MOST_NAMES;
  return more > 0 ? `${names.slice(0, MOST_NAMES).join(', ')}, … (+${more})` : names.join(', ');
}
