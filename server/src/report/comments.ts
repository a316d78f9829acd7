/**
 * Findings as comments on the lines that a change touches, as code hosts take them: one for each finding, its first fix as
 * lines that can be taken over. What lies elsewhere is told in the comments' common head. Nothing is sent anywhere.
 */
import { messageMarkdown } from '../text/markdown';
import { json } from '../text/shown';
import { type Range, type Reported, type ReportedFinding, summaryOf } from './reported';

/** Lines of a file from the first to the last, counted from 0. */
export type Lines = readonly [first: number, last: number];

/** A document as it is judged, and what of it a change touches. */
export interface Reviewed {
  readonly file: Reported;
  /** From the repository's root. */
  readonly path: string;
  readonly text: string;
  readonly changed: readonly Lines[];
}

interface Comment {
  readonly path: string;
  readonly start_line?: number;
  readonly start_side?: 'RIGHT';
  readonly line: number;
  readonly side: 'RIGHT';
  readonly body: string;
}

/** More lines than this are no suggestion that a person reads. */
const MOST_LINES = 12;

export function reportComments(reviewed: readonly Reviewed[], unread: readonly string[], known = 0): string {
  const comments: Comment[] = [];
  const elsewhere: string[] = [];
  for (const one of reviewed) {
    for (const found of one.file.findings) {
      const comment = commentOn(one, found);
      if (comment) comments.push(comment);
      else elsewhere.push(`- ${messageMarkdown(one.path)}:${found.range.start.line + 1}: ${sentenceOf(found)}`);
    }
  }
  const files = reviewed.map((r) => r.file);
  const head = summaryOf(files, unread.length === 0, known);
  const rest = elsewhere.length > 0 ? ['', 'On lines that this change does not touch:', '', ...elsewhere] : [];
  const missing = unread.map((why) => `- not checked: ${messageMarkdown(why)}`);
  const body = [head, ...rest, ...(missing.length > 0 ? ['', ...missing] : [])].join('\n');
  return `${json({ body, comments })}\n`;
}

/** Undefined where its lines are none that the change touches. */
function commentOn({ path, text, changed }: Reviewed, found: ReportedFinding): Comment | undefined {
  const own: Lines = [found.range.start.line, found.range.start.line];
  if (!within(own, changed)) return undefined;
  const suggestion = suggestionOf(text, found, changed);
  const [first, last] = suggestion?.lines ?? own;
  const others = found.fixes.filter((f) => f !== suggestion?.fix).map((fix) => `- ${messageMarkdown(fix.title)}`);
  const also = others.length > 0 ? ['', suggestion ? 'Or:' : 'What to change:', ...others] : [];
  const block = suggestion ? ['', messageMarkdown(`${suggestion.title}:`), ...suggestion.block] : [];
  return {
    path,
    ...(first < last && { start_line: first + 1, start_side: 'RIGHT' as const }),
    line: last + 1,
    side: 'RIGHT',
    body: [sentenceOf(found), ...block, ...also].join('\n'),
  };
}

function sentenceOf({ finding }: ReportedFinding): string {
  return `**${finding.severity}** ${messageMarkdown(finding.message)} (\`${finding.rule}\`)`;
}

/** The first fix that changes a few lines together, all of them lines of the change. */
function suggestionOf(text: string, { range, fixes }: ReportedFinding, changed: readonly Lines[]) {
  const lines = text.split('\n');
  for (const fix of fixes) {
    const { title, edits } = fix;
    if (fix.elsewhere) continue;
    const all: Lines = [
      Math.min(range.start.line, ...edits.map((e) => e.range.start.line)),
      Math.max(range.start.line, ...edits.map((e) => lastOf(e.range))),
    ];
    if (all[1] - all[0] >= MOST_LINES || all[1] >= lines.length || !within(all, changed)) continue;
    const after = edited(lines, all, edits);
    return { fix, title, lines: all, block: fenced(after) };
  }
  return undefined;
}

/** A range that ends before the first character of a line takes that line's break, not the line. */
function lastOf({ start, end }: Range): number {
  return end.character === 0 && end.line > start.line ? end.line - 1 : end.line;
}

/** The lines with the edits made, without the break after the last of them. */
function edited(
  lines: readonly string[],
  [first, last]: Lines,
  edits: ReportedFinding['fixes'][number]['edits'],
): string {
  const whole = lines.slice(first, last + 1).map((l) => `${l}\n`);
  const starts: number[] = [];
  let length = 0;
  for (const l of whole) {
    starts.push(length);
    length += l.length;
  }
  const at = ({ line, character }: Range['start']) => (line > last ? length : starts[line - first]! + character);
  let text = whole.join('');
  for (const e of [...edits].sort((a, b) => at(b.range.start) - at(a.range.start)))
    text = text.slice(0, at(e.range.start)) + e.newText + text.slice(at(e.range.end));
  return text.replace(/\r?\n$/, '').replaceAll('\r', '');
}

function fenced(text: string): readonly string[] {
  const longest = Math.max(2, ...[...text.matchAll(/`+/g)].map((m) => m[0].length));
  const fence = '`'.repeat(longest + 1);
  // No line at all takes the lines out.
  return [`${fence}suggestion`, ...(text === '' ? [] : [text]), fence];
}

function within([first, last]: Lines, changed: readonly Lines[]): boolean {
  return changed.some(([from, to]) => from <= first && last <= to);
}
