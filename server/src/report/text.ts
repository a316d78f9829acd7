/** Findings as text for a terminal: place, severity, message, the line itself with a caret, and what would do. */
import type { Severity } from '../rules/rule';
import { jobLine, toolLine } from './job-figures';
import type { Reported, ReportedFinding } from './reported';
import { countOf } from './reported';

/** Wraps text in a terminal's colours, or leaves it as it is. */
export interface Ink {
  severity(severity: Severity, text: string): string;
  faint(text: string): string;
  strong(text: string): string;
}

export const plainInk: Ink = { severity: (_s, text) => text, faint: (text) => text, strong: (text) => text };

const ESC = '\u001b[';
const COLOUR: Readonly<Record<Severity, number>> = { error: 31, warning: 33, hint: 36 };
/** ECMA-48 (ANSI) select graphic rendition. */
export const terminalInk: Ink = {
  severity: (severity, text) => `${ESC}1;${COLOUR[severity]}m${text}${ESC}0m`,
  faint: (text) => `${ESC}2m${text}${ESC}0m`,
  strong: (text) => `${ESC}1m${text}${ESC}0m`,
};

/** A part's line is cut to this many characters round the caret. */
const WIDEST = 160;

/** The findings of all files for reading: each with its line of text, its fixes, and a count at the end. */
export function reportText(files: readonly Reported[], ink: Ink = plainInk): string {
  const blocks = files.flatMap((file) => file.findings.map((finding) => findingText(file, finding, ink)));
  const jobs = files.flatMap(({ path, job }) => {
    const line = job && jobLine(job);
    const tool = job?.tool_to_buy && `${shown(path)}: ${shown(toolLine(job.tool_to_buy))}.\n`;
    return [...(line === undefined ? [] : [`${shown(path)}: ${shown(line)}.\n`]), ...(tool ? [tool] : [])];
  });
  return [...blocks, ...jobs, summary(files)].join('\n');
}

function findingText(file: Reported, reported: ReportedFinding, ink: Ink): string {
  const { finding, range } = reported;
  const { start, end } = range;
  const place = ink.strong(`${shown(file.path)}:${start.line + 1}:${start.character + 1}:`);
  const severity = ink.severity(finding.severity, finding.severity);
  const head = `${place} ${severity}: ${shown(finding.message)} ${ink.faint(`[${finding.rule}]`)}`;
  const gutter = ' '.repeat(String(start.line + 1).length);
  const last = end.line === start.line ? end.character : undefined;
  const { line, column, width } = visible(reported.lineText, start.character, last);
  const lines = [
    head,
    ink.faint(`  ${start.line + 1} | `) + line,
    ink.faint(`  ${gutter} | `) +
      line.slice(0, column).replace(/[^\t]/g, ' ') +
      ink.severity(finding.severity, '^'.repeat(width)),
  ];
  for (const related of reported.related)
    lines.push(ink.faint(`  ${gutter} - line ${related.range.start.line + 1}: ${shown(related.message)}`));
  for (const fix of reported.fixes) lines.push(`  ${gutter} ${ink.faint('- would do:')} ${shown(fix.title)}`);
  return `${lines.join('\n')}\n`;
}

/** Control characters would speak to the terminal, not to the reader. */
function shown(text: string): string {
  return text.replace(/[\u0000-\u0008\u000a-\u001f\u007f-\u009f]/g, '\u00b7');
}

function visible(
  text: string,
  start: number,
  end: number | undefined,
): { line: string; column: number; width: number } {
  const whole = shown(text).trimEnd();
  const from = whole.length > WIDEST ? Math.max(0, Math.min(start - 40, whole.length - WIDEST)) : 0;
  const line = whole.slice(from, from + WIDEST);
  const column = Math.min(start - from, line.length);
  return { line, column, width: Math.max(1, Math.min((end ?? whole.length) - start, line.length - column)) };
}

function summary(files: readonly Reported[]): string {
  const { error, warning, hint } = countOf(files);
  const count = (n: number, word: string) => `${n} ${word}${n === 1 ? '' : 's'}`;
  const seen = `${count(files.length, 'file')} checked`;
  if (error + warning + hint === 0) return `${seen}: nothing found.\n`;
  return `${seen}: ${count(error, 'error')}, ${count(warning, 'warning')}, ${count(hint, 'hint')}.\n`;
}
