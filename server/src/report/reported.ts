/** One checked file as every report sees it: findings with their places, fixes on demand, and the part's figures. */
import type { CheckedPart } from '../rules/check';
import type { Finding, Fix } from '../rules/rule';
import type { Lines, Position } from '../text/lines';
import type { Span, TextTree } from '../text/tree';
import { figuresOf, type PartFigures } from './figures';

export interface Reported {
  /** As it was asked for. */
  readonly path: string;
  readonly tree: TextTree;
  readonly lines: Lines;
  readonly findings: readonly Finding[];
  readonly part?: PartFigures;
  readonly checked?: CheckedPart;
  fixes(finding: Finding): readonly Fix[];
}

export interface Range {
  readonly start: Position;
  readonly end: Position;
}

export function rangeOf(file: { readonly tree: TextTree; readonly lines: Lines }, span: Span): Range {
  const { start, end } = file.tree.locate(span);
  return { start: file.lines.position(start), end: file.lines.position(end) };
}

export interface Counts {
  readonly error: number;
  readonly warning: number;
  readonly hint: number;
}

export function countOf(files: readonly { readonly findings: readonly Finding[] }[]): Counts {
  const counts = { error: 0, warning: 0, hint: 0 };
  for (const file of files) for (const finding of file.findings) counts[finding.severity]++;
  return counts;
}

export { figuresOf, type PartFigures };
