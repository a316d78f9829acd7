/** What an everyday way of writing means, and dimensions as its entries have them. */
import { parseDimension } from '../../text/dimension';
import type { MapEntry, MapNode, TextNode } from '../../text/tree';
import type { ProblemFix, ProblemRule } from '../resolve/problem';
import { plainDimension } from './dimension';

/** What one or several entries mean. */
export interface Reading {
  readonly message: string;
  /** The entry it is told at, and those that belong to it. */
  readonly entries: readonly MapEntry[];
  /** The fields that would be there then. */
  readonly gives: readonly string[];
  readonly fixes: readonly ProblemFix[];
  readonly rule?: ProblemRule;
  /** The feature is understood without it. */
  readonly remark?: true;
}

/** How a value is written here. */
export interface ValueText {
  readonly text: string;
  /** What it may mean as well. */
  readonly alternatives?: readonly string[];
  readonly why: string;
  readonly rule?: ProblemRule;
}

export const keyOf = (e: MapEntry) => String(e.key.value);

export function isDimension(e: MapEntry): boolean {
  return e.value?.type === 'scalar' && plainOf(e.value) !== undefined;
}

/** A dimension as it is written here, be it an everyday one. */
function plainOf(node: TextNode): string | undefined {
  if (node.type !== 'scalar' || node.value === null) return undefined;
  const plain = plainDimension(node.source, { through: false, angle: false });
  if (plain) return plain.texts.length === 1 ? plain.texts[0] : undefined;
  return parseDimension(node.source).ok ? node.source : undefined;
}

export function sourceOf(e: MapEntry): string {
  return plainOf(e.value!)!;
}

/** Twice a dimension: a number is worked out, the rest is written as a product. A tolerance of a radius is none of its diameter. */
export function doubled(source: string): string {
  const number = /^\s*(\d+(?:\.\d+)?)\s*(mm|cm|in|")?\s*$/.exec(source);
  if (!number) return `2 * (${source})`;
  return `${Number((2 * Number(number[1])).toFixed(6))}${number[2] ? ` ${number[2]}` : ''}`;
}

/** Several entries as one line in the place of the first. */
export function joined(entries: readonly MapEntry[], map: MapNode, text: string): ProblemFix {
  const [first, ...rest] = [...entries].sort((a, b) => a.span.from - b.span.from);
  return {
    title: `Write \`${text}\``,
    edits: [{ span: first!.span, newText: text }],
    without: rest.map((e) => [map, e] as const),
  };
}

/** A node on one line, as it is written; undefined where something in it is still to be written. */
export function onOneLine(node: TextNode | undefined): string | undefined {
  if (!node) return undefined;
  if (node.type === 'scalar') return node.quoted ? JSON.stringify(node.source) : node.source;
  const texts =
    node.type === 'list'
      ? node.items.map(onOneLine)
      : node.entries.map((e) => {
          const text = onOneLine(e.value);
          return text && `${e.key.source}: ${text}`;
        });
  if (!texts.every((t) => t !== undefined && t !== '')) return undefined;
  return node.type === 'list' ? `[${texts.join(', ')}]` : `{ ${texts.join(', ')} }`;
}

/** The words in a text or a list of texts. */
export function wordsIn(node: TextNode): readonly string[] | undefined {
  if (node.type === 'map') return undefined;
  if (node.type === 'scalar') return node.value === null ? undefined : node.source.split(/[\s,;/]+/).filter(Boolean);
  return node.items.every((i) => i.type === 'scalar')
    ? node.items.flatMap((i) => (i.type === 'scalar' ? [i.source] : []))
    : undefined;
}
