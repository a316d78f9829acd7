/** Which of several possible forms a text means: decided before anything is judged, so that an error is about that one. */
import { at, type TextNode } from '../../text/tree';
import type { Shape } from './shape';

/** The form of a choice that this node is nearest to; undefined where none is of its type. Other shapes answer themselves. */
export function pick(shape: Shape, node: TextNode | undefined): Exclude<Shape, { type: 'choice' }> | undefined {
  if (shape.type !== 'choice') return shape;
  if (!node) return undefined;
  if (shape.by !== undefined) {
    const word = at(node, shape.by);
    const named = shape.options.find(
      (o) => o.type === 'map' && word?.type === 'scalar' && says(o, shape.by!, word.value),
    );
    return named && pick(named, node);
  }
  let best: Shape | undefined;
  let most = -1;
  for (const option of shape.options) {
    if (!fits(option, node)) continue;
    const shared = likeness(option, node);
    if (shared > most) {
      best = option;
      most = shared;
    }
  }
  return best && pick(best, node);
}

function says(option: Shape & { type: 'map' }, by: string, word: unknown): boolean {
  const kind = option.keys.get(by)?.shape;
  return kind?.type === 'scalar' && kind.words !== undefined && kind.words.includes(String(word));
}

function fits(shape: Shape, node: TextNode): boolean {
  if (shape.type === 'choice') return shape.options.some((o) => fits(o, node));
  if (shape.type === 'record') return node.type === 'map';
  return shape.type === node.type;
}

/** How many of the keys written are this form's; its first key, which says what it is, counts for more. */
function likeness(shape: Shape, node: TextNode): number {
  if (shape.type !== 'map' || node.type !== 'map') return 0;
  let shared = 0;
  const [first] = shape.keys.keys();
  for (const { key } of node.entries) {
    if (!shape.keys.has(String(key.value))) continue;
    shared += key.value === first ? 1.5 : 1;
  }
  return shared;
}
