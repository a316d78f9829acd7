/**
 * Edits inside braces and brackets: putting something in at the end, and taking something out together with its comma.
 */
import { spanAt } from './layout';
import type { ListNode, MapNode, SpanEdit, TextTree } from './tree';

type Members = readonly Pick<MapNode, 'span'>[];

/** Adds `text` after the last member, or alone between the brackets. */
export function putFlow(tree: TextTree, node: MapNode | ListNode, members: Members, text: string): SpanEdit[] {
  const { block } = node.span;
  const last = members.at(-1);
  if (last && isBracketed(tree, tree.locate(node.span).start)) {
    const { end } = tree.locate(last.span);
    return [{ span: spanAt(tree, block, end, end), newText: `, ${text}` }];
  }
  const { start, end } = tree.locate(node.span);
  if (!isBracketed(tree, start)) return [];
  const pad = node.type === 'map' ? ' ' : '';
  if (/\S/.test(tree.text.slice(start + 1, end - 1))) {
    // Only a comment stands inside: what is new goes before it.
    return [{ span: spanAt(tree, block, start + 1, start + 1), newText: `${pad}${text}${pad}` }];
  }
  return [{ span: spanAt(tree, block, start + 1, end - 1), newText: `${pad}${text}${pad}` }];
}

/** Takes the member at `at` out, with the comma that then is one too many. Comments stay. */
export function cutFlow(tree: TextTree, node: MapNode | ListNode, members: Members, at: number): SpanEdit[] {
  const { text } = tree;
  const { block } = node.span;
  const place = (i: number) => tree.locate(members[i]!.span);
  const { start, end } = place(at);
  const cut = (from: number, to: number): SpanEdit => ({ span: spanAt(tree, block, from, to), newText: '' });
  const whole = tree.locate(node.span);
  if (!isBracketed(tree, whole.start)) return [];
  if (members.length === 1) {
    const inside = text.slice(whole.start + 1, start) + text.slice(end, whole.end - 1);
    if (/^[\s,]*$/.test(inside)) return [cut(whole.start + 1, whole.end - 1)];
  }
  if (at < members.length - 1 || members.length === 1) {
    const comma = commaAfter(text, end, whole.end);
    if (comma === undefined) return [cut(start, end)];
    const gap = /^[ \t]*(?!#)/.exec(text.slice(comma + 1))?.[0].length ?? 0;
    if (/^[ \t]*$/.test(text.slice(end, comma))) return [cut(start, comma + 1 + gap)];
    return [cut(start, end), cut(comma, comma + 1)];
  }
  const before = place(at - 1).end;
  if (/^[\s,]*$/.test(text.slice(before, start))) return [cut(before, end)];
  const comma = commaAfter(text, before, start);
  return comma === undefined ? [cut(start, end)] : [cut(comma, comma + 1), cut(start, end)];
}

/** YAML also knows a map of one entry without braces, inside brackets: nothing can be added to that. */
function isBracketed(tree: TextTree, start: number): boolean {
  return tree.text[start] === '{' || tree.text[start] === '[';
}

/** The first comma from `from` on that is not in a comment. */
function commaAfter(text: string, from: number, to: number): number | undefined {
  for (let at = from; at < to; at++) {
    if (text[at] === ',') return at;
    if (text[at] === '#') {
      const end = text.indexOf('\n', at);
      if (end < 0) return undefined;
      at = end;
    }
  }
  return undefined;
}
