/**
 * What YAML allows and these documents do not: anchors, aliases, merge keys, tags, complex keys, several documents,
 * tabs as indentation, broken characters. Found in the tokens, before anything is composed, so that an alias bomb
 * costs no more than its own text.
 */
import type { CST } from 'yaml';
import type { TextProblem } from './tree';
import { MESSAGES } from './wording';

type Code = TextProblem['code'];
type Report = (code: Code, message: string, from: number, to: number) => void;

/** A cheap look that lets almost every piece skip the walk through its tokens. */
const SUSPICIOUS = /[&*!?%\t]|<<|^---|^\.\.\./m;
export const LONE_SURROGATE = /[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/;
const CONTROL = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]|\r(?!\n)/;

/** Every outlawed thing in a piece, one report a place. */
export function findOutlawed(block: string, text: string, tokens: readonly CST.Token[]): TextProblem[] {
  const found = findBroken(block, text);
  if (!SUSPICIOUS.test(text)) return found;
  const report: Report = (code, message, from, to) => found.push({ code, message, span: { block, from, to } });
  const tab = tabIndent(text, tokens);
  if (tab !== undefined) report('tab', MESSAGES.tab, tab, tab + 1);
  walk(tokens, report);
  return found;
}

/** The first half of a character, and the first control character, wherever they stand. */
export function findBroken(block: string, text: string): TextProblem[] {
  const found: TextProblem[] = [];
  const half = LONE_SURROGATE.exec(text)?.index;
  if (half !== undefined) {
    found.push({ code: 'surrogate', message: MESSAGES.surrogate, span: { block, from: half, to: half + 1 } });
  }
  const control = CONTROL.exec(text)?.index;
  if (control !== undefined) {
    const code = `U+${text.charCodeAt(control).toString(16).toUpperCase().padStart(4, '0')}`;
    found.push({ code: 'syntax', message: MESSAGES.control(code), span: { block, from: control, to: control + 1 } });
  }
  return found;
}

/** In one piece; the rest is told when these are mended. */
const MOST_TOLD = 20;

/** Walks all tokens without recursion. */
function walk(tokens: readonly CST.Token[], tell: Report): void {
  const told = { count: 0 };
  const report: Report = (...fault) => {
    told.count++;
    tell(...fault);
  };
  const waiting: unknown[] = [...tokens].reverse();
  let documents = 0;
  while (waiting.length > 0 && told.count < MOST_TOLD) {
    const token = waiting.pop() as CST.Token & Partial<CST.CollectionItem> & { items?: unknown[]; end?: unknown[] };
    if (!token) continue;
    if (token.type === 'document' && ++documents > 1) {
      report('documents', MESSAGES.documents, token.offset, token.offset + 3);
      return;
    }
    one(token as CST.Token, report);
    if (isMerge(token)) {
      const key = token.key as CST.FlowScalar;
      report('merge-key', MESSAGES.merge, key.offset, key.offset + 2);
      continue;
    }
    const { props } = token as { props?: unknown[] };
    for (const part of [token.end, token.items, token.value, token.sep, token.key, token.start, props])
      pushReversed(waiting, part);
  }
}

/** The first of a list comes off again first. */
function pushReversed(waiting: unknown[], part: unknown): void {
  if (Array.isArray(part)) for (let i = part.length - 1; i >= 0; i--) waiting.push(part[i]);
  else if (part && typeof part === 'object') waiting.push(part);
}

function isMerge(item: Partial<CST.CollectionItem>): boolean {
  const key = item.key as Partial<CST.FlowScalar> | null | undefined;
  return key?.type === 'scalar' && key.source === '<<';
}

function one(token: CST.Token, report: Report): void {
  const source = (token as { source?: string }).source ?? '';
  const from = (token as { offset?: number }).offset ?? 0;
  const to = from + source.length;
  const name = source.slice(1);
  if (token.type === 'anchor') report('anchor', MESSAGES.anchor(name), from, to);
  else if (token.type === 'alias') report('anchor', MESSAGES.alias(name), from, to);
  else if (token.type === 'tag') report('tag', MESSAGES.tag(source), from, to);
  else if (token.type === 'explicit-key-ind') report('key', MESSAGES.key, from, to);
  else if (token.type === 'directive') report('documents', MESSAGES.directive(source), from, to);
}

/** The first line indented with a tab where YAML's own grammar minds; inside texts a tab is only a character. */
function tabIndent(text: string, tokens: readonly CST.Token[]): number | undefined {
  if (!/^ *\t/m.test(text)) return undefined;
  for (const match of text.matchAll(/^ *\t[ \t]*(?=[^\s#])/gm)) {
    const at = match.index + match[0].indexOf('\t');
    if (!insideText(tokens, at)) return at;
  }
  return undefined;
}

function insideText(tokens: readonly CST.Token[], at: number): boolean {
  const waiting: unknown[] = [...tokens];
  while (waiting.length > 0) {
    const token = waiting.pop() as Record<string, unknown> | undefined;
    if (!token) continue;
    const { type, source, offset } = token as { type?: string; source?: string; offset?: number };
    if (/^(block-scalar|.*-quoted-scalar)$/.test(type ?? '') && offset !== undefined && source !== undefined) {
      const length = source.length + (type === 'block-scalar' ? 3 : 0);
      if (offset < at && at < offset + length) return true;
    }
    for (const part of [token.items, token.value, token.key]) {
      if (Array.isArray(part)) waiting.push(...part);
      else if (part && typeof part === 'object') waiting.push(part);
    }
  }
  return false;
}

/**
 * Where the text is nested deeper than `limit`, or undefined. Counts brackets and dashes without regard to quotes:
 * that many unbalanced brackets in a row are no spec either way. Indentation needs a column a level at least.
 */
export function nestingOf(text: string, limit: number): number | undefined {
  let depth = 0;
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (c === 0x5b || c === 0x7b) {
      if (++depth > limit) return i;
    } else if ((c === 0x5d || c === 0x7d) && depth > 0) depth--;
  }
  const dashes = new RegExp(`^ *(?:[-?:] ){${limit}}`, 'm').exec(text);
  if (dashes) return dashes.index;
  const indents = new Set<number>();
  if (text.includes(' '.repeat(limit))) {
    for (const match of text.matchAll(/^ +/gm)) {
      if (indents.add(match[0].length).size > limit) return match.index;
    }
  }
  return undefined;
}
