/** Every worked-out length and angle of a model, wherever it sits: for hovers and for the list of defaults. */
import type { Angle, Length } from './model';

export type Value = { readonly path: readonly string[] } & (
  | { readonly type: 'length'; readonly value: Length }
  | { readonly type: 'angle'; readonly value: Angle }
);

/** Walks plain data, depth first, in the order of its keys. */
export function* valuesOf(node: unknown, path: readonly string[] = []): Generator<Value> {
  if (node === null || typeof node !== 'object') return;
  if (node instanceof Map) {
    for (const [key, value] of node) yield* valuesOf(value, [...path, String(key)]);
    return;
  }
  if (Array.isArray(node)) {
    for (const [i, item] of node.entries()) yield* valuesOf(item, [...path, String(i + 1)]);
    return;
  }
  if ('span' in node && 'text' in node) {
    if ('mm' in node) yield { type: 'length', value: node as Length, path };
    else if ('deg' in node) yield { type: 'angle', value: node as Angle, path };
  }
  for (const [key, value] of Object.entries(node)) {
    if (key !== 'span' && key !== 'spec') yield* valuesOf(value, [...path, key]);
  }
}
