/** What each word of a document is, for editors that colour by meaning: names, words of ours, numbers, functions. */
import { scalarsOf } from '../../model/scalars';
import { piecesOf } from '../../text/pieces';
import { type ScalarNode, type Span, within } from '../../text/tree';
import { mentionsOf } from '../mentioned';
import type { Range } from '../shapes';
import type { Snapshot } from '../snapshot';

/** As `LEGEND` counts them. */
const [VARIABLE, PARAMETER, TYPE, WORD, NUMBER, FUNCTION, TOLERANCE, KIND] = [0, 1, 2, 3, 4, 5, 6, 7];
const DECLARED = 1;

interface Token {
  readonly start: number;
  readonly end: number;
  readonly type: number;
  readonly modifiers: number;
}

/** As the protocol counts them: five numbers a token, each place from the one before. */
export function tokensOf(snapshot: Snapshot, range?: Range): number[] {
  const { lines } = snapshot;
  const [from, to] = range ? [lines.offset(range.start), lines.offset(range.end)] : [0, snapshot.text.length];
  const data: number[] = [];
  let [line, character, reached] = [0, 0, 0];
  for (const { start, end, type, modifiers } of found(snapshot)) {
    if (start < reached || end <= start || end < from || start > to) continue;
    const [here, stop] = [lines.position(start), lines.position(end)];
    // A token over several lines is none that every editor can show.
    if (here.line !== stop.line) continue;
    data.push(here.line - line, here.line === line ? here.character - character : here.character);
    data.push(stop.character - here.character, type, modifiers);
    [line, character, reached] = [here.line, here.character, end];
  }
  return data;
}

/** In the order of the text. */
function found(snapshot: Snapshot): readonly Token[] {
  const { tree } = snapshot.checked;
  const tokens: Token[] = [];
  const add = (span: Span, type: number, modifiers = 0) => tokens.push({ ...tree.locate(span), type, modifiers });
  for (const { kind, span, definition } of mentionsOf(snapshot)) {
    const type = kind === 'parameter' ? PARAMETER : kind === 'feature' || kind === 'datum' ? VARIABLE : TYPE;
    add(span, type!, definition ? DECLARED : 0);
  }
  for (const { node, path, shape } of scalarsOf(snapshot.kind, tree.root)) {
    const isWord = shape.words !== undefined || shape.meta.values?.[node.source] !== undefined;
    if (isWord) add(node.span, path.at(-1) === 'kind' ? KIND! : WORD!);
    else if (shape.meta.unit) ofDimension(node, add);
    else if (typeof node.value === 'number') add(node.span, NUMBER!);
  }
  return tokens.sort((a, b) => a.start - b.start || a.end - b.end);
}

function ofDimension(node: ScalarNode, add: (span: Span, type: number) => void): void {
  const pieces = piecesOf(node.source);
  if (!pieces) return;
  for (const { from, to } of pieces.numbers) add(within(node, from, to), NUMBER!);
  for (const { from, name } of pieces.calls) add(within(node, from, from + name.length), FUNCTION!);
  for (const { from, to, name } of pieces.names) if (name.startsWith('body.')) add(within(node, from, to), PARAMETER!);
  const { tolerance } = pieces;
  if (tolerance) add(within(node, tolerance.from, tolerance.to), TOLERANCE!);
}

/** The one piece in which two answers differ; nothing where they are the same. */
export function tokenEdits(
  before: readonly number[],
  after: readonly number[],
): { start: number; deleteCount: number; data: number[] }[] {
  let start = 0;
  while (start < before.length && start < after.length && before[start] === after[start]) start++;
  let same = 0;
  const most = Math.min(before.length, after.length) - start;
  while (same < most && before[before.length - 1 - same] === after[after.length - 1 - same]) same++;
  const deleteCount = before.length - same - start;
  const data = after.slice(start, after.length - same);
  return deleteCount === 0 && data.length === 0 ? [] : [{ start, deleteCount, data }];
}
