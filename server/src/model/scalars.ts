/** Every scalar of a document with what the schema says may stand there. */
import type { ScalarNode, TextNode } from '../text/tree';
import { DOCUMENTS, type DocumentKind } from './lookup';
import { pick } from './schema/pick';
import { type Shape, shapeOf } from './schema/shape';

interface Meant {
  readonly node: ScalarNode;
  /** Keys and indices from the root. */
  readonly path: readonly PropertyKey[];
  readonly shape: Shape & { readonly type: 'scalar' };
}

export function scalarsOf(doc: DocumentKind, root: TextNode | undefined): Generator<Meant> {
  return walk(shapeOf(DOCUMENTS[doc]), root, []);
}

function* walk(shape: Shape, node: TextNode | undefined, path: readonly PropertyKey[]): Generator<Meant> {
  const meant = node && pick(shape, node);
  if (!node || !meant) return;
  if (node.type === 'scalar') {
    if (meant.type === 'scalar') yield { node, path, shape: meant };
  } else if (node.type === 'list') {
    if (meant.type === 'list')
      for (const [i, item] of node.items.entries()) yield* walk(meant.item, item, [...path, i]);
  } else if (meant.type === 'record' || meant.type === 'map') {
    for (const { key, value } of node.entries) {
      const name = String(key.value);
      const inner = meant.type === 'record' ? meant.value : meant.keys.get(name)?.shape;
      if (inner) yield* walk(inner, value, [...path, name]);
    }
  }
}
