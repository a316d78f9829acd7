/**
 * Findings as text for a terminal: place, severity and rule; the line itself with a dimension line under what is meant; what it
 * has and needs; what to change, and what the editor can change by itself.
 */

import { partsOf } from '../rules/kit/parts';
import type { Severity } from '../rules/kit/rule';
import { andMore } from '../rules/shown-few';
import { leadingPath, line as shown } from '../text/shown';
import { jobLine, toolLine } from './job-figures';
import type { Line } from './line';
import type { Reported, ReportedFinding } from './reported';
import { summaryOf } from './reported';

/** A part's line is cut to this many characters round the place. */
const WIDEST = 160;

/**
 * The findings of all files for reading: each with its line of text, its fixes, and a count at the end. `complete`: all that
 * was asked for could be judged; else nothing is said of what was not.
 */
export function reportLines(files: readonly Reported[], complete = true, known = 0): readonly Line[] {
  const findings = files.flatMap((file) => file.findings.flatMap((finding) => [...findingLines(file, finding), '']));
  const jobs = files.flatMap(({ path, job }) => {
    const line = job && jobLine(job);
    const said = [...(line === undefined ? [] : [line]), ...(job?.tool_to_buy ? [toolLine(job.tool_to_buy)] : [])];
    return said.flatMap((words) => [`${leadingPath(path)}: ${words}.`, '']);
  });
  const more = files.flatMap(({ path, leftOut = [], untried }) => [
    ...leftOut.flatMap((l) => [`${leadingPath(path)}: ${andMore(l)}.`, '']),
    ...(untried ? [`${leadingPath(path)}: the fixes of ${untried} findings were not tested: too many.`, ''] : []),
  ]);
  return [...findings, ...jobs, ...more, summaryOf(files, complete, known)];
}

function findingLines(file: Reported, reported: ReportedFinding): readonly Line[] {
  const { finding, range } = reported;
  const { start, end } = range;
  const { severity } = finding;
  const faint = (words: string) => ({ ink: 'faint', words }) as const;
  const place = {
    ink: 'strong',
    words: `${leadingPath(file.path)}:${start.line + 1}:${start.character + 1}:`,
  } as const;
  const number = `  ${start.line + 1}  `;
  const { says, has, needs, change } = partsOf(finding);
  const last = end.line === start.line ? end.character : undefined;
  const { line, column, width } = visible(reported.lineText, start.character, last);
  return [
    [place, ' ', { ink: severity, words: severity }, ` ${finding.rule}`],
    [faint(number), line],
    dimensionLine(' '.repeat(number.length) + line.slice(0, column).replace(/[^\t]/g, ' '), width, severity),
    ...(says === '' ? [] : [`  ${says}`]),
    ...(has === undefined && needs === undefined ? [] : [columns(has, needs)]),
    ...reported.related.map((r) => [
      faint(`  ${r.file === undefined ? 'line ' : `${r.file}:`}${r.range.start.line + 1}: ${r.message}`),
    ]),
    ...(change === undefined ? [] : [[{ ink: 'strong', words: '  change:' } as const, ` ${change}`]]),
    ...reported.fixes.map((fix) => [faint('  fix:'), `    ${fix.title}`]),
  ];
}

/** As a drawing measures: a line with an arrow at each end, between two marks just outside what is measured. */
function dimensionLine(before: string, width: number, ink: Severity): Line {
  const arrows = width < 2 ? '-' : `<${'-'.repeat(width - 2)}>`;
  // A tab before it is as wide as the screen makes it: the mark takes no place of its own there.
  if (before.endsWith('\t')) return [before, { ink, words: arrows }];
  return [before.slice(0, -1), { ink, words: `|${arrows}|` }];
}

const COLUMN = 28;
/** What there is and what is needed, side by side. */
function columns(has: string | undefined, needs: string | undefined): string {
  const left = has === undefined ? '' : `has ${has}`;
  return `  ${needs === undefined ? left : `${left.padEnd(left.length < COLUMN ? COLUMN : left.length + 3)}needs ${needs}`}`;
}

/** The line as it is shown, cut to what can be read, and where on it the finding stands. */
function visible(
  text: string,
  start: number,
  end: number | undefined,
): { line: string; column: number; width: number } {
  const inSight = (to: number) => shown(text.slice(0, to), '\t').length;
  const whole = shown(text, '\t').trimEnd();
  const [first, last] = [inSight(start), end === undefined ? whole.length : inSight(end)];
  const from = whole.length > WIDEST ? Math.max(0, Math.min(first - 40, whole.length - WIDEST)) : 0;
  const line = whole.slice(from, from + WIDEST);
  const column = Math.min(first - from, line.length);
  return { line, column, width: Math.max(1, Math.min(last - first, line.length - column)) };
}
