/**
 * The shape of a read document: YAML as a tree whose every node knows its place in the text.
 *
 * Only types live here; `read.ts` makes them. Nothing above this folder sees the `yaml` package.
 */

/**
 * A place in the text: offsets (UTF-16 units) from the start of a named block. Blocks are the pieces a document is
 * read in (a top-level entry, or one entry of a top-level map: `body`, `features/mount`), so a place inside a block
 * stays true while the text above it is edited. `TextTree.locate` turns it into offsets of the document.
 */
export interface Span {
  readonly block: string;
  readonly from: number;
  readonly to: number;
}

/** Whether two spans are one place; a span may have come from another reading of the text, or another thread. */
export function samePlace(a: Span | undefined, b: Span | undefined): boolean {
  return a === b || (a?.block === b?.block && a?.from === b?.from && a?.to === b?.to);
}

export type TextNode = ScalarNode | MapNode | ListNode;

export interface ScalarNode {
  readonly type: 'scalar';
  readonly span: Span;
  readonly value: string | number | boolean | null;
  /** As written, without quotes: `22 H7`, `1/4 in`, `007`. */
  readonly source: string;
  readonly quoted: boolean;
}

export interface MapNode {
  readonly type: 'map';
  readonly span: Span;
  /** Written in braces. */
  readonly flow: boolean;
  readonly entries: readonly MapEntry[];
}

export interface MapEntry {
  readonly key: ScalarNode;
  /** Absent where nothing is written after the colon. */
  readonly value: TextNode | undefined;
  /** Key and value. */
  readonly span: Span;
}

export interface ListNode {
  readonly type: 'list';
  readonly span: Span;
  readonly flow: boolean;
  readonly items: readonly TextNode[];
}

/** What is wrong with the text as YAML, or as the part of YAML that these documents use. */
export interface TextProblem {
  readonly code:
    | 'syntax'
    | 'duplicate-key'
    | 'anchor'
    | 'merge-key'
    | 'tag'
    | 'tab'
    | 'key'
    | 'documents'
    | 'surrogate'
    | 'too-large'
    | 'too-deep'
    | 'swallowed-comment';
  /** One sentence or two: what is wrong and how to mend it. */
  readonly message: string;
  readonly span: Span;
}

/** A word as it stands in the text, which has a new name. */
export interface OldWord {
  readonly span: Span;
  readonly is: 'key' | 'value';
  readonly was: string;
  readonly now: string;
}

/** Another document that a text names: as it is, with what that names in turn; or a sentence that says why it is not there. */
export type OtherText = FoundText | { readonly why: string };
export interface FoundText {
  readonly path: string;
  readonly text: string;
  readonly others: Others;
}
/** By their names as they are written. */
export type Others = ReadonlyMap<string, OtherText>;
export const NO_OTHERS: Others = Object.freeze(new Map<string, OtherText>());

/** Where what comes from another document is told in this one: the name of the entry that brings it. */
const SEAT = '@include/';

export function seatOf(name: string): string {
  return SEAT + name;
}

/** Whether something stands in another document: what is written here must not be taken for it. */
export function isElsewhere(span: Span): boolean {
  return span.block.startsWith(SEAT);
}

export interface TextTree {
  readonly text: string;
  /** The documents that it includes, as far as they were looked for. */
  readonly others: Others;
  /** Absent when the document is empty or not a map. */
  readonly root: MapNode | undefined;
  readonly problems: readonly TextProblem[];
  /** Words that have a new name; in `root` they stand as the new ones. */
  readonly old: readonly OldWord[];
  /** Block name → offset of its first character in `text`. The whole document is block ``. */
  readonly blocks: ReadonlyMap<string, number>;
  /** Offsets in `text`. A span of a block that is gone answers the document's start. */
  locate(span: Span): { readonly start: number; readonly end: number };
}

/** One replacement in the text, in document offsets. Edits of one fix never overlap. */
export interface TextEdit {
  readonly start: number;
  readonly end: number;
  readonly newText: string;
}

/** A replacement whose place is block-relative, so that it stays true while other blocks change. */
export interface SpanEdit {
  readonly span: Span;
  readonly newText: string;
}

/** The value under a key of a map, or undefined; the first of duplicates. */
export function at(node: TextNode | undefined, key: string): TextNode | undefined {
  return entry(node, key)?.value;
}

/** The entry of a map by key, as a value or as written: the first of duplicates. */
export function entry(node: TextNode | undefined, key: string): MapEntry | undefined {
  if (node?.type !== 'map') return undefined;
  return node.entries.find((e) => e.key.value === key || e.key.source === key);
}

/** The scalar under a key of a map; undefined where there is none or something else. */
export function scalarAt(map: TextNode | undefined, key: string): ScalarNode | undefined {
  const node = at(map, key);
  return node?.type === 'scalar' ? node : undefined;
}

/** The map under a key of a map; undefined where there is none or something else. */
export function mapAt(map: TextNode | undefined, key: string): MapNode | undefined {
  const node = at(map, key);
  return node?.type === 'map' ? node : undefined;
}

/** Characters `from` to `to` of a scalar's source, at least one. Where escapes or line breaks stand in between, the whole of it. */
export function within(node: ScalarNode, from: number, to: number): Span {
  const { block, from: start, to: end } = node.span;
  const quotes = node.quoted ? 1 : 0;
  if (end - start - 2 * quotes !== node.source.length) return node.span;
  return { block, from: start + quotes + from, to: start + quotes + Math.max(to, from + 1) };
}

/** Follows a path of keys and list indices as far as it goes; answers the deepest node reached. */
export function descend(node: TextNode | undefined, path: readonly PropertyKey[]): TextNode | undefined {
  let here = node;
  for (const step of path) {
    const next: TextNode | undefined =
      here?.type === 'list' ? here.items[Number(step)] : here?.type === 'map' ? at(here, String(step)) : undefined;
    if (!next) return here;
    here = next;
  }
  return here;
}
