/**
 * From text to tree, block by block: what did not change since the tree before is taken over, node for node.
 */

import { atOnce, type Steps } from '../effort';
import { areSame } from '../memo';
import { type Block, blocksOf, type TopBlock } from './blocks';
import { findBroken } from './outlawed';
import { duplicateKey, type Piece, parsingPiece } from './piece';
import { modernised } from './renaming';
import {
  type MapEntry,
  type MapNode,
  mapAt,
  NO_OTHERS,
  type OldWord,
  type Span,
  seatOf,
  type TextProblem,
  type TextTree,
} from './tree';
import { aboutMissingColon, MESSAGES } from './wording';

/** UTF-16 units; a part with a thousand features has a tenth of it. */
export const MAX_LENGTH = 600_000;

/** More than anyone reads at once; the rest is told when these are mended. */
const MOST_PROBLEMS = 100;

/** A piece as it is read: with today's words for old ones. */
interface ReadPiece extends Piece {
  readonly old: readonly OldWord[];
}

/** A top-level block put together from its pieces. */
interface Assembled {
  readonly head: ReadPiece;
  readonly pieces: readonly ReadPiece[];
  readonly entries: readonly MapEntry[];
  readonly problems: readonly TextProblem[];
}
interface Memory {
  readonly blocks: readonly TopBlock[];
  readonly pieces: ReadonlyMap<string, ReadPiece>;
  readonly tops: ReadonlyMap<string, Assembled>;
}
/** What a tree was made of, for the next one: no memory of questions, but what one reading hands to the next. */
const memories = new WeakMap<TextTree, Memory>();
const NOTHING: Memory = { blocks: [], pieces: new Map(), tops: new Map() };

/**
 * Reads a document. Never throws; what is wrong is in `problems`. `before` lends the blocks that did not change, and the
 * documents beside it where no others are given.
 */
export function readText(text: string, before?: TextTree, others = before?.others ?? NO_OTHERS): TextTree {
  return atOnce(readingText(text, before, others));
}

/** The same, a step for each piece of the text. */
export function* readingText(text: string, before?: TextTree, others = before?.others ?? NO_OTHERS): Steps<TextTree> {
  if (before?.text === text && before.others === others) return before;
  const memory = (before && memories.get(before)) ?? NOTHING;
  const tree = yield* readingBlocks(text, memory);
  return others === tree.others ? tree : remember({ ...tree, others }, memories.get(tree) ?? memory);
}

function* readingBlocks(text: string, memory: Memory): Steps<TextTree> {
  if (text.length > MAX_LENGTH) {
    const message = MESSAGES.tooLarge(text.length, MAX_LENGTH);
    const problem: TextProblem = { code: 'too-large', message, span: { block: '', from: 0, to: 1 } };
    return remember(treeOf(text, undefined, [problem], new Map([['', 0]])), memory);
  }
  const blocks = blocksOf(text, text.charCodeAt(0) === 0xfeff ? 1 : 0, memory.blocks);
  return blocks ? yield* readBlocks(text, blocks, memory) : yield* readingWhole(text, memory);
}

/** Reads a document as one block: for what cannot be cut, and for tests to compare with. */
export function readWhole(text: string): TextTree {
  return atOnce(readingWhole(text, NOTHING));
}

function* readingWhole(text: string, memory: Memory): Steps<TextTree> {
  const piece = yield* readingPiece('', text, []);
  const root = piece.node?.type === 'map' ? piece.node : undefined;
  const problems = [...piece.problems];
  if (piece.node && !root && problems.length === 0) {
    problems.push({
      code: 'syntax',
      message: piece.node.type === 'scalar' ? aboutMissingColon(piece.node.source) : MESSAGES.noMap,
      span: piece.node.span,
    });
  }
  // The blocks from before stay in memory: the next keystroke likely makes the document whole again.
  return remember({ ...treeOf(text, root, problems, new Map([['', 0]])), old: piece.old }, memory);
}

function* readBlocks(text: string, tops: readonly TopBlock[], memory: Memory): Steps<TextTree> {
  const blocks = new Map([['', 0]]);
  const pieces = new Map<string, ReadPiece>();
  const assembled = new Map<string, Assembled>();
  const entries: MapEntry[] = [];
  const problems: TextProblem[] = findBroken('', text.slice(0, tops[0]?.from ?? text.length));
  const old: OldWord[] = [];
  const piece = function* ({ name, from, text: own }: Block, path: readonly string[]): Steps<ReadPiece> {
    const known = memory.pieces.get(name);
    const read = known?.text === own ? known : yield* readingPiece(name, own, path);
    if (read.old.length > 0) old.push(...read.old);
    blocks.set(name, from);
    pieces.set(name, read);
    return read;
  };
  for (const top of tops) {
    const head = yield* piece(top, []);
    const parts: ReadPiece[] = [];
    for (const entry of top.entries) {
      parts.push(yield* piece(entry, [top.name]));
      yield;
    }
    const known = memory.tops.get(top.name);
    const whole = known && isSame(known, head, parts) ? known : assemble(top, head, parts);
    assembled.set(top.name, whole);
    entries.push(...whole.entries);
    if (whole.problems.length > 0) problems.push(...whole.problems);
  }
  const repeated = duplicates(entries);
  const root = tops.length > 0 ? rootOf(entries, blocks) : undefined;
  const tree = { ...treeOf(text, root, problems.concat(repeated), blocks), old };
  return remember(tree, { blocks: tops, pieces, tops: assembled });
}

function* readingPiece(block: string, text: string, path: readonly string[]): Steps<ReadPiece> {
  const piece = yield* parsingPiece(block, text);
  return piece.node ? { ...piece, ...modernised(piece.node, text, path) } : { ...piece, old: [] };
}

function isSame(known: Assembled, head: ReadPiece, parts: readonly ReadPiece[]): boolean {
  return known.head === head && areSame(known.pieces, parts);
}

function assemble(top: TopBlock, head: ReadPiece, pieces: readonly ReadPiece[]): Assembled {
  const own = entriesOf(head);
  const key = own.entries.at(-1)?.key;
  if (pieces.length === 0 || !key) return { head, pieces, ...own };
  const entries: MapEntry[] = [];
  const problems = [...own.problems];
  let to = key.span.to;
  pieces.forEach((piece, i) => {
    const part = entriesOf(piece);
    entries.push(...part.entries);
    problems.push(...part.problems);
    const last = part.entries.at(-1);
    if (last) to = top.entries[i]!.from - top.from + last.span.to;
  });
  problems.push(...duplicates(entries));
  const first = top.entries[0]!.from - top.from + (entries[0]?.span.from ?? 0);
  const map: MapNode = { type: 'map', span: { block: top.name, from: first, to }, flow: false, entries };
  const entry: MapEntry = { key, value: map, span: { block: top.name, from: key.span.from, to } };
  return { head, pieces, entries: [...own.entries.slice(0, -1), entry], problems };
}

/** A piece's entries; a word alone is a key whose colon is still to come. */
function entriesOf({ node, problems }: Piece): { entries: readonly MapEntry[]; problems: readonly TextProblem[] } {
  if (node?.type === 'map') return { entries: node.entries, problems };
  if (node?.type !== 'scalar') return { entries: [], problems };
  const { span } = node;
  const missing: TextProblem = { code: 'syntax', message: aboutMissingColon(node.source), span };
  return { entries: [{ key: node, value: undefined, span }], problems: problems.length > 0 ? problems : [missing] };
}

/** Keys that stand in several blocks, at the second; those within one block were found while it was read. */
function duplicates(entries: readonly MapEntry[]): TextProblem[] {
  const seen = new Map<string, string>();
  const found: TextProblem[] = [];
  for (const { key } of entries) {
    const name = String(key.value);
    const block = seen.get(name);
    if (block !== undefined && block !== key.span.block) found.push(duplicateKey(key));
    else seen.set(name, key.span.block);
  }
  return found;
}

function rootOf(entries: readonly MapEntry[], blocks: ReadonlyMap<string, number>): MapNode {
  const [first, last] = [entries[0]?.span, entries.at(-1)?.span];
  const from = first ? (blocks.get(first.block) ?? 0) + first.from : 0;
  const to = last ? (blocks.get(last.block) ?? 0) + last.to : from;
  return { type: 'map', span: { block: '', from, to }, flow: false, entries };
}

function treeOf(
  text: string,
  root: MapNode | undefined,
  problems: readonly TextProblem[],
  blocks: Map<string, number>,
): TextTree {
  for (const { key } of mapAt(root, 'include')?.entries ?? [])
    blocks.set(seatOf(String(key.value)), (blocks.get(key.span.block) ?? 0) + key.span.from);
  const locate = (span: Span) => {
    const at = blocks.get(span.block);
    return at === undefined ? { start: 0, end: 0 } : { start: at + span.from, end: at + span.to };
  };
  const ordered =
    problems.length > 1 ? [...problems].sort((a, b) => locate(a.span).start - locate(b.span).start) : problems;
  return {
    text,
    root,
    problems: firstOfAKind(ordered).slice(0, MOST_PROBLEMS),
    blocks,
    locate,
    old: [],
    others: NO_OTHERS,
  };
}

/** Whoever uses one anchor uses many, and one message says it all: the first stands for them. */
function firstOfAKind(problems: readonly TextProblem[]): readonly TextProblem[] {
  const anchor = problems.findIndex((p) => p.code === 'anchor');
  return anchor < 0 ? problems : problems.filter((p, i) => p.code !== 'anchor' || i === anchor);
}

function remember(tree: TextTree, memory: Memory): TextTree {
  memories.set(tree, memory);
  return tree;
}
