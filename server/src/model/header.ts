/** What is the same at the top of a shop and of a job: unknown keys, the name, the unit; and telling a schema's faults. */
import { at, type MapNode, type Span, scalarAt, type TextNode } from '../text/tree';
import { nearest, quote, replace } from './resolve/problem';
import { faultsOf } from './resolve/validate';
import { shapeOf } from './schema/shape';
import type { Fields } from './shop-fields';

export type Schema = Parameters<typeof shapeOf>[0];

/** Tells the faults of a node against its schema. True where none of them breaks it. */
export function isSound(fields: Fields, schema: Schema, node: TextNode, what: string, whole: Span): boolean {
  const faults = faultsOf(shapeOf(schema), node, what, whole);
  for (const f of faults) fields.problem('form/schema', f.message, f.span, { ...(f.fixes && { fixes: f.fixes }) });
  return !faults.some((f) => f.breaks);
}

/** The keys at the top: unknown ones, the document's name, its unit. Sections are judged as they are read. */
export function judgeTop(
  fields: Fields,
  schema: Schema,
  root: MapNode | undefined,
  what: string,
  nameKey: string,
): void {
  const shape = shapeOf(schema);
  if (shape.type !== 'map' || !root) return;
  const keys = [...shape.keys.keys()];
  for (const { key } of root.entries) {
    const word = String(key.value);
    if (shape.keys.has(word)) continue;
    const like = nearest(word, keys);
    const message = `${what} has no field ${quote(word)}${like ? `. Did you mean \`${like}\`?` : '. Delete it, or correct its name.'}`;
    fields.problem('form/schema', message, key.span, { ...(like && { fixes: [replace(key.span, like)] }) });
  }
  const units = at(root, 'units');
  if (units && units.type === 'scalar' && units.source !== 'mm' && units.source !== 'in') {
    fields.problem('form/schema', `\`units\` cannot be ${quote(units.source)}. Write \`mm\` or \`in\`.`, units.span);
  }
  const name = scalarAt(root, nameKey);
  if (!name || name.value === null || String(name.source).trim() === '') {
    const span = name?.span ?? { ...root.span, to: Math.min(root.span.to, root.span.from + 1) };
    fields.problem('form/schema', `${what} needs a name. Write it like \`${nameKey}: workshop\`.`, span);
  }
}
