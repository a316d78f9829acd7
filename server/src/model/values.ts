/** Every worked-out length and angle of a model, wherever it sits: for hovers and for the list of defaults. */
import type { Angle, Length } from './model';

export type Value = { readonly path: readonly string[] } & (
  | { readonly type: 'length'; readonly value: Length }
  | { readonly type: 'angle'; readonly value: Angle }
);

/** Shapes that hold no written value of their own, and may be long. */
const SKIPPED: ReadonlySet<string> = new Set([
  'span',
  'spec',
  'nameSpan',
  'kindSpan',
  'faceSpan',
  'whole',
  'places',
  'pattern',
  'written',
]);

/** In the order of the keys, depth first. Plain data in, plain data out. */
export function valuesOf(node: unknown): readonly Value[] {
  const found: Value[] = [];
  collect(node, [], found);
  return found;
}

function collect(node: unknown, path: readonly string[], found: Value[]): void {
  if (node === null || typeof node !== 'object') return;
  if (node instanceof Map) {
    for (const [key, value] of node) collect(value, [...path, String(key)], found);
  } else if (Array.isArray(node)) {
    for (let i = 0; i < node.length; i++) collect(node[i], [...path, String(i + 1)], found);
  } else {
    if ('mm' in node && 'text' in node) found.push({ type: 'length', value: node as Length, path });
    else if ('deg' in node && 'text' in node) found.push({ type: 'angle', value: node as Angle, path });
    for (const key in node) {
      const value = (node as Record<string, unknown>)[key];
      if (typeof value === 'object' && value !== null && !SKIPPED.has(key)) collect(value, [...path, key], found);
    }
  }
}
