/**
 * One piece of a document, parsed on its own: from the `yaml` package's nodes to ours, with places counted from the
 * piece's first character. This and `outlawed.ts` are the only modules that know the `yaml` package.
 */
import {
  Composer,
  type CST,
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  Lexer,
  type Node,
  type Pair,
  Parser,
} from 'yaml';
import type { Steps } from '../effort';
import { findOutlawed, nestingOf } from './outlawed';
import { aboutSyntax } from './syntax';
import type { ListNode, MapEntry, MapNode, ScalarNode, Span, TextNode, TextProblem } from './tree';
import { MESSAGES } from './wording';

/** Deeper than anything these documents say; keeps hostile nesting from exhausting the stack. */
const MAX_NESTING = 64;

export interface Piece {
  readonly text: string;
  readonly node: TextNode | undefined;
  readonly problems: readonly TextProblem[];
}

const OPTIONS = {
  version: '1.2',
  schema: 'core',
  merge: false,
  uniqueKeys: false,
  prettyErrors: false,
  logLevel: 'silent',
} as const;
/** Problems that `findOutlawed` reports itself, in our own words and at the exact place. */
const SAID_ELSEWHERE = new Set<string>([
  'ALIAS_PROPS',
  'BAD_ALIAS',
  'TAG_RESOLVE_FAILED',
  'MULTIPLE_ANCHORS',
  'MULTIPLE_TAGS',
  'MULTIPLE_DOCS',
  'BAD_DIRECTIVE',
  'BAD_PROP_ORDER',
  'RESOURCE_EXHAUSTION',
  'TAB_AS_INDENT',
]);

/** Longer pieces are read in steps, UTF-16 units: a part in braces on one line is one piece, however many features it has. */
const LONG = 4000;
/** Words and signs in a step: less than a millisecond's worth. */
const A_STEP = 400;

/** What `Parser.parse` yields, a step at a time. */
function* tokensOf(text: string): Steps<CST.Token[]> {
  if (text.length < LONG) return [...new Parser().parse(text)];
  const parser = new Parser();
  const tokens: CST.Token[] = [];
  let count = 0;
  for (const lexeme of new Lexer().lex(text)) {
    for (const token of parser.next(lexeme)) tokens.push(token);
    if (++count % A_STEP === 0) yield;
  }
  for (const token of parser.end()) tokens.push(token);
  yield;
  return tokens;
}

/**
 * Parses `text` as the block called `block`, in steps where it is long. Never throws. Linear in the text for anything that is
 * not nested too deep.
 */
export function* parsingPiece(block: string, text: string): Steps<Piece> {
  const problems: TextProblem[] = [];
  const tooDeep = (from: number): Piece => ({
    text,
    node: undefined,
    problems: [{ code: 'too-deep', message: MESSAGES.tooDeep, span: { block, from, to: from + 1 } }],
  });
  const crude = nestingOf(text, MAX_NESTING);
  if (crude !== undefined) return tooDeep(crude);
  let document: Document.Parsed | undefined;
  try {
    const tokens = yield* tokensOf(text);
    problems.push(...findOutlawed(block, text, tokens));
    for (const parsed of new Composer(OPTIONS).compose(tokens, true, text.length)) {
      document = parsed as Document.Parsed;
      break;
    }
    if (text.length >= LONG) yield;
  } catch (error) {
    if (error instanceof RangeError) return tooDeep(0);
    problems.push({ code: 'syntax', message: MESSAGES.unreadable, span: { block, from: 0, to: text.length } });
    return { text, node: undefined, problems };
  }
  const reading = new Reading(block, text, problems);
  const node = document?.contents ? reading.node(document.contents, 0) : undefined;
  if (!problems.some((p) => SPOILERS.has(p.code))) {
    const error = document?.errors.find((e) => !SAID_ELSEWHERE.has(e.code));
    if (error) problems.push(aboutSyntax(block, text, error.code, error.pos[0], error.message));
  }
  problems.sort((a, b) => a.span.from - b.span.from);
  return { text, node, problems: problems.map((p) => within(p, text.length)) };
}

/** What is missing at the very end is told at the end, not behind it. */
function within(problem: TextProblem, length: number): TextProblem {
  const { block, from, to } = problem.span;
  return to <= length ? problem : { ...problem, span: { block, from: Math.min(from, length), to: length } };
}

/** What makes the parser stumble further on: its own complaints would only repeat these. */
const SPOILERS: ReadonlySet<TextProblem['code']> = new Set([
  'tab',
  'documents',
  'swallowed-comment',
  'too-deep',
  'syntax',
]);

class Reading {
  constructor(
    private readonly block: string,
    private readonly text: string,
    private readonly problems: TextProblem[],
  ) {}

  node(node: Node, at: number): TextNode {
    if (isMap(node))
      return this.map(node.items as Pair<Node, Node | null>[], node.flow === true, node.range ?? [at, at]);
    if (isSeq(node)) {
      const [start, end] = node.range ?? [at, at];
      const items = node.items.map((item) => this.node(item as Node, start));
      for (const item of node.flow ? [] : items)
        if (isEmpty(item)) this.swallowed(this.text.lastIndexOf('-', item.span.from - 1) + 1, false);
      const last = items.at(-1)?.span.to ?? start;
      const list: ListNode = { type: 'list', span: this.span(start, node.flow ? end : last), flow: !!node.flow, items };
      return list;
    }
    return this.scalar(node, at);
  }

  private map(pairs: readonly Pair<Node, Node | null>[], flow: boolean, range: readonly number[]): MapNode {
    const [start = 0, end = start] = range;
    const entries: MapEntry[] = [];
    const seen = new Set<string>();
    for (const pair of pairs) {
      const key = isScalar(pair.key) ? this.scalar(pair.key, start) : undefined;
      if (!key || key.source === '') {
        if (!isAlias(pair.key)) this.badKey(pair.key?.range?.[0] ?? start, pair.key?.range?.[1] ?? start + 1);
        continue;
      }
      const entry = this.entry(key, pair.value ? this.node(pair.value, key.span.to) : undefined, flow);
      entries.push(entry);
      const name = String(key.value);
      if (seen.has(name)) this.problems.push(duplicateKey(key));
      seen.add(name);
      if (flow && !entry.value) this.unspacedColon(key);
    }
    const span = flow ? this.span(start, end) : spanOfEntries(entries, this.span(start, start));
    return { type: 'map', span, flow, entries };
  }

  private entry(key: ScalarNode, value: TextNode | undefined, flow: boolean): MapEntry {
    if (value && !isEmpty(value)) return { key, value, span: this.span(key.span.from, value.span.to) };
    const colon = /^[ \t]*:/.exec(this.text.slice(key.span.to, key.span.to + 200));
    const to = key.span.to + (colon?.[0].length ?? 0);
    if (colon) this.swallowed(to, flow);
    return { key, value: undefined, span: this.span(key.span.from, to) };
  }

  private scalar(node: Node, at: number): ScalarNode {
    const [from, to] = node.range ?? [at, at];
    const span = this.span(from, to);
    const raw = this.text.slice(from, to);
    if (!isScalar(node)) return { type: 'scalar', span, value: null, source: raw, quoted: false };
    const quoted = node.type === 'QUOTE_DOUBLE' || node.type === 'QUOTE_SINGLE';
    const folded = node.type === 'BLOCK_LITERAL' || node.type === 'BLOCK_FOLDED';
    const source = folded ? String(node.value) : quoted ? raw.slice(1, raw.length > 1 ? -1 : undefined) : raw;
    return { type: 'scalar', span, value: node.value as ScalarNode['value'], source, quoted };
  }

  /** Where nothing is written after a colon or a dash, but a comment that looks like the value. */
  private swallowed(from: number, flow: boolean): void {
    const comment = /^[ \t]+(#[^\s#][^\r\n]*)/.exec(this.text.slice(from, from + 500));
    if (!comment?.[1]) return;
    const start = from + comment[0].length - comment[1].length;
    // As far as the value was meant to go: to a bracket's comma or end, or to a comment of its own.
    const written = (flow ? /^[^,\]}]*/ : /^.+?(?=\s+#\s|$)/).exec(comment[1])?.[0].trimEnd() ?? comment[1];
    const span = this.span(start, start + written.length);
    this.problems.push({ code: 'swallowed-comment', message: MESSAGES.swallowed(written), span });
  }

  private unspacedColon(key: ScalarNode): void {
    const colon = key.quoted ? -1 : key.source.indexOf(':');
    if (colon <= 0) return;
    const message = MESSAGES.unspacedColon(key.source.slice(0, colon), key.source.slice(colon + 1).trim());
    this.problems.push({ code: 'syntax', message, span: key.span });
  }

  private badKey(from: number, to: number): void {
    // An empty key has its place somewhere before its colon.
    const at = to > from ? from : from + Math.max(0, this.text.slice(from, from + 200).search(/\S/));
    this.problems.push({ code: 'key', message: MESSAGES.key, span: this.span(at, Math.max(to, at + 1)) });
  }

  private span(from: number, to: number): Span {
    return { block: this.block, from, to };
  }
}

/** A node that the parser made up where nothing is written. */
function isEmpty(node: TextNode): boolean {
  return node.type === 'scalar' && node.source === '' && !node.quoted;
}

export function duplicateKey(key: ScalarNode): TextProblem {
  return { code: 'duplicate-key', message: MESSAGES.duplicate(key.source), span: key.span };
}

/** From the first entry's key to the end of the last entry; `empty` where there are none. All in one block. */
function spanOfEntries(entries: readonly MapEntry[], empty: Span): Span {
  const first = entries[0];
  const last = entries.at(-1);
  return first && last ? { block: first.span.block, from: first.span.from, to: last.span.to } : empty;
}
