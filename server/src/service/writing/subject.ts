/** What is to be said otherwise, and what that comes to. */
import { DOCUMENTS } from '../../model/lookup';
import type { Part } from '../../model/model';
import { pick } from '../../model/schema/pick';
import { type Shape, shapeOf } from '../../model/schema/shape';
import { applyEdits, locateEdits } from '../../text/edit';
import { readText } from '../../text/read';
import type { MapEntry, MapNode, ScalarNode, SpanEdit, TextNode, TextTree } from '../../text/tree';
import { at } from '../../text/tree';

export interface Subject {
  readonly tree: TextTree;
  readonly part: Part;
  /** What is selected, as offsets. */
  readonly start: number;
  readonly end: number;
}

export interface Rewriting {
  /** By which it is found again when it is chosen. */
  readonly id: string;
  readonly title: string;
  readonly kind: 'refactor.extract' | 'refactor.inline' | 'refactor.move' | 'refactor.rewrite';
  /** What stays: the whole part; each member, in a pattern or not; every feature but those it is `of`; only their number. */
  readonly keeps: 'part' | 'members' | 'others' | 'nothing';
  readonly of?: readonly string[];
  /** The new text, or why there is none. */
  make(): string | { readonly refused: string };
}

/** Edits made one after the other, each on the text as it is by then. */
export class Draft {
  constructor(public tree: TextTree) {}

  /** `edits` of the tree as it is now. */
  make(edits: (tree: TextTree) => readonly SpanEdit[]): this {
    const made = locateEdits(this.tree, edits(this.tree));
    this.tree = readText(applyEdits(this.tree.text, made));
    return this;
  }

  get text(): string {
    return this.tree.text;
  }
}

/** Where the cursor is: what stands there, and what leads to it. */
export interface Spot {
  readonly path: readonly PropertyKey[];
  /** From the outermost to the innermost. */
  readonly entries: readonly MapEntry[];
  readonly scalar?: ScalarNode;
  readonly onKey: boolean;
  /** What may stand there. */
  readonly shape?: Shape & { readonly type: 'scalar' };
}

export function spotAt({ tree, start, end }: Subject): Spot {
  const path: PropertyKey[] = [];
  const entries: MapEntry[] = [];
  let node: TextNode | undefined = tree.root;
  let shape: Shape | undefined = shapeOf(DOCUMENTS.part);
  const inside = (n: { span: MapEntry['span'] }) => {
    const place = tree.locate(n.span);
    return place.start <= start && end <= place.end;
  };
  while (node) {
    const meant: Shape | undefined = shape && pick(shape, node);
    if (node.type === 'scalar')
      return { path, entries, scalar: node, onKey: false, ...(meant?.type === 'scalar' && { shape: meant }) };
    if (node.type === 'list') {
      const index: number = node.items.findIndex(inside);
      if (index < 0) break;
      path.push(index);
      node = node.items[index];
      shape = meant?.type === 'list' ? meant.item : undefined;
      continue;
    }
    const entry: MapEntry | undefined = node.entries.find(inside);
    if (!entry) break;
    const key = String(entry.key.value);
    entries.push(entry);
    path.push(key);
    if (inside(entry.key)) return { path, entries, scalar: entry.key, onKey: true };
    node = entry.value;
    shape = meant?.type === 'map' ? meant.keys.get(key)?.shape : meant?.type === 'record' ? meant.value : undefined;
  }
  return { path, entries, onKey: false };
}

/** The feature that the cursor is in, with its map. */
export function featureAt(
  { tree }: Subject,
  { path }: Spot,
): { readonly name: string; readonly map: MapNode } | undefined {
  const [section, name] = path;
  if (section !== 'features' || name === undefined) return undefined;
  const map = at(at(tree.root, 'features'), String(name));
  return map?.type === 'map' ? { name: String(name), map } : undefined;
}
