/**
 * One checked file as every report sees it: plain data, with line and character places. Nothing of the part is held on
 * to, so that a thousand files cost the memory of their findings.
 */
import type { Finding, Fix } from '../rules/kit/rule';
import { firstOfEach, type LeftOut as OfOneRule } from '../rules/shown-few';
import type { Lines, Position } from '../text/lines';
import type { Span, TextTree } from '../text/tree';
import type { FactsJson } from './facts-json';
import type { PartFigures, SpentFigures } from './figures';
import type { JobFigures } from './job-figures';

export interface Range {
  readonly start: Position;
  readonly end: Position;
}

interface ReportedFix {
  readonly title: string;
  readonly safe: boolean;
  /** The same under the name that says it: the part stays what its author meant. */
  readonly keeps_shape: boolean;
  readonly edits: readonly Edit[];
  /** In other files, as the finding's own document writes their paths. Absent where there are none. */
  readonly elsewhere?: readonly { readonly file: string; readonly edits: readonly Edit[] }[];
}
interface Edit {
  readonly range: Range;
  readonly newText: string;
}

export interface ReportedFinding {
  readonly finding: Finding;
  readonly range: Range;
  /** `file`: in that one, as the finding's own document writes its path. */
  readonly related: readonly { readonly range: Range; readonly message: string; readonly file?: string }[];
  readonly fixes: readonly ReportedFix[];
  /** The line of the text that it starts on. */
  readonly lineText: string;
}

type LeftOut = Pick<OfOneRule, 'rule' | 'severity' | 'count'>;

export interface Reported {
  /** As it was asked for. */
  readonly path: string;
  readonly findings: readonly ReportedFinding[];
  /** Findings that are not among them: there are too many of their rule. They count all the same. */
  readonly leftOut?: readonly LeftOut[];
  /** Of how many findings the fixes were not tried: that would have taken too long. */
  readonly untried?: number;
  readonly part?: PartFigures &
    Partial<SpentFigures> & {
      readonly facts?: FactsJson;
      /** The rows of its table of variants. */
      readonly variants?: readonly (PartFigures & Partial<SpentFigures> & { readonly variant: string })[];
    };
  readonly job?: JobFigures;
}

/** `fixes`: the tried fixes of a finding; undefined where they were not tried. */
export function reportedOf(
  path: string,
  file: { readonly tree: TextTree; readonly lines: Lines; readonly findings: readonly Finding[] },
  fixes: (finding: Finding) => readonly Fix[] | undefined,
  figures: Pick<Reported, 'part' | 'job'> = {},
): Reported {
  const rangeOf = (span: Span): Range => {
    const { start, end } = file.tree.locate(span);
    return { start: file.lines.position(start), end: file.lines.position(end) };
  };
  const lineText = (line: number) => {
    const start = file.lines.offset({ line, character: 0 });
    return file.tree.text.slice(start, file.lines.offset({ line, character: Number.MAX_SAFE_INTEGER }));
  };
  const { shown, leftOut } = firstOfEach(file.findings);
  let untried = 0;
  const fixesOf = (finding: Finding) => {
    const found = fixes(finding);
    if (!found) untried++;
    return found ?? [];
  };
  const findings = shown.map((finding) => {
    const range = rangeOf(finding.span);
    return {
      finding,
      range,
      related: finding.related.map((r) => ({
        range: r.elsewhere?.range ?? rangeOf(r.span),
        message: r.message,
        ...(r.elsewhere && { file: r.elsewhere.file }),
      })),
      fixes: fixesOf(finding).map((fix) => ({
        title: fix.title,
        safe: fix.safe,
        keeps_shape: fix.safe,
        edits: fix.edits.map((edit) => ({ range: rangeOf(edit.span), newText: edit.newText })),
        ...(fix.elsewhere && {
          elsewhere: fix.elsewhere.map(({ file: other, edits }) => ({
            file: other,
            edits: edits.map(({ range: there, newText }) => ({ range: there, newText })),
          })),
        }),
      })),
      lineText: lineText(range.start.line),
    };
  });
  return {
    path,
    findings,
    ...(leftOut.length > 0 && { leftOut: leftOut.map(({ rule, severity, count }) => ({ rule, severity, count })) }),
    ...(untried > 0 && { untried }),
    ...figures,
  };
}

interface Counts {
  readonly error: number;
  readonly warning: number;
  readonly hint: number;
}

export function countOf(files: readonly Reported[]): Counts {
  const counts = { error: 0, warning: 0, hint: 0 };
  for (const file of files) {
    for (const { finding } of file.findings) counts[finding.severity]++;
    for (const { severity, count } of file.leftOut ?? []) counts[severity] += count;
  }
  return counts;
}

/** One line of all. `complete`: all that was asked for could be judged; `known`: so many were known before, and are left out. */
export function summaryOf(files: readonly Reported[], complete: boolean, known = 0): string {
  const { error, warning, hint } = countOf(files);
  const count = (n: number, word: string) => `${n} ${word}${n === 1 ? '' : 's'}`;
  const seen = `${count(files.length, 'file')} checked${complete ? '' : ', not all that was asked for'}`;
  const before = known > 0 ? `; ${known} known before` : '';
  if (error + warning + hint > 0)
    return `${seen}: ${count(error, 'error')}, ${count(warning, 'warning')}, ${count(hint, 'hint')}${before}.`;
  if (files.length === 0) return `${seen}.`;
  return `${seen}: nothing ${known > 0 ? 'new' : 'found'}${complete ? '' : ' in these'}${before}.`;
}
