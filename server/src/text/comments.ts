/** Comments of a YAML text: of any piece of one, and of a node, where no text in `|` style is taken for one. */
import type { TextNode, TextTree } from './tree';

/**
 * The comments of a YAML text, each from its `#`. Quotes are minded, within a line; what looks like a comment in a
 * block of literal text counts as one, which only makes a fix more careful.
 */
export function commentsOf(text: string): readonly string[] {
  const comments: string[] = [];
  for (const line of text.split(/\r?\n/)) {
    const start = commentStart(line);
    if (start >= 0) comments.push(line.slice(start).trimEnd());
  }
  return comments;
}

function commentStart(line: string): number {
  let quote = '';
  for (let i = 0; i < line.length; i++) {
    const c = line[i]!;
    if (quote) {
      if (c === '\\' && quote === '"') i++;
      else if (c === quote) quote = '';
    } else if ((c === '"' || c === "'") && /(^|[\s[{,:])$/.test(line.slice(0, i))) quote = c;
    else if (c === '#' && (i === 0 || /\s/.test(line[i - 1]!))) return i;
  }
  return -1;
}

/** The comments between `from` and `to` (document offsets) that stand outside the scalars of `node`. */
export function commentsBeside(
  tree: TextTree,
  node: TextNode | undefined,
  from: number,
  to: number,
): readonly string[] {
  let plain = '';
  let at = from;
  for (const { start, end } of scalarPlaces(tree, node)) {
    if (start < at || end > to) continue;
    // Its last character is left out of the blank where it ends a line.
    plain += tree.text.slice(at, start) + 'x'.repeat(end - start - (tree.text[end - 1] === '\n' ? 1 : 0));
    at = tree.text[end - 1] === '\n' ? end - 1 : end;
  }
  return commentsOf(plain + tree.text.slice(at, to));
}

function scalarPlaces(tree: TextTree, node: TextNode | undefined): { start: number; end: number }[] {
  if (!node) return [];
  if (node.type === 'scalar') return [tree.locate(node.span)];
  if (node.type === 'list') return node.items.flatMap((item) => scalarPlaces(tree, item));
  return node.entries.flatMap((e) => [tree.locate(e.key.span), ...scalarPlaces(tree, e.value)]);
}
