/** Where an offset is in a document's tree: the path of keys that leads there, and what stands at it. */
import type { MapEntry, ScalarNode, Span, TextNode, TextTree } from '../text/tree';

export interface Cursor {
  /** Keys and list indices from the root; ends with the key that the offset is on or whose value it is in. */
  readonly path: readonly PropertyKey[];
  /** The innermost entry round the offset. */
  readonly entry?: MapEntry;
  /** The scalar under the offset, key or value. */
  readonly scalar?: ScalarNode;
  readonly onKey: boolean;
}

/** The deepest node at an offset, with the path that leads there. */
export function cursorAt(tree: TextTree, offset: number): Cursor {
  const path: PropertyKey[] = [];
  let node: TextNode | undefined = tree.root;
  let entry: MapEntry | undefined;
  const inside = (span: Span) => {
    const { start, end } = tree.locate(span);
    return start <= offset && offset <= end;
  };
  while (node) {
    if (node.type === 'scalar') return { path, scalar: node, onKey: false, ...(entry ? { entry } : {}) };
    if (node.type === 'list') {
      const index: number = node.items.findIndex((item) => inside(item.span));
      if (index < 0) break;
      path.push(index);
      node = node.items[index];
      continue;
    }
    const found: MapEntry | undefined = node.entries.find((e) => inside(e.span));
    if (!found) break;
    entry = found;
    path.push(String(found.key.value ?? found.key.source));
    if (inside(found.key.span)) return { path, entry, scalar: found.key, onKey: true };
    node = found.value;
  }
  return { path, onKey: false, ...(entry ? { entry } : {}) };
}
