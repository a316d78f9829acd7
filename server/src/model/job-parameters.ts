/** A job's `parameters`: values that all of its parts have under these names, whatever their own texts say. */
import { parseDimension } from '../text/dimension';
import { evaluate, type Quantity } from '../text/expression';
import { type MapEntry, type MapNode, mapAt, type Span, within } from '../text/tree';
import type { Units } from './base';
import { quote } from './resolve/problem';
import { NAME } from './schema/common';
import type { Fields } from './shop-fields';

export interface SharedParameter {
  readonly name: string;
  /** Of its name. */
  readonly span: Span;
  readonly value: Quantity;
}

/** Those that mean something; each may use the ones that it names. */
export function sharedParameters(fields: Fields, root: MapNode | undefined): readonly SharedParameter[] {
  const entries = mapAt(root, 'parameters')?.entries ?? [];
  const known = new Map<string, Quantity | 'broken' | 'busy'>();
  const quantityOf = (name: string): Quantity | 'unknown' | 'broken' => {
    const entry = entries.find((e) => e.key.value === name);
    if (!entry) return 'unknown';
    const before = known.get(name);
    if (before === 'busy') {
      fields.problem('form/schema', `${quote(name)} needs itself. Write its number, like \`36 mm\`.`, entry.key.span);
      return 'broken';
    }
    if (before !== undefined) return before;
    known.set(name, 'busy');
    const value = worked(fields, entry, quantityOf);
    known.set(name, value);
    return value;
  };
  return entries.flatMap(({ key }) => {
    const name = String(key.value);
    const value = quantityOf(name);
    return typeof value === 'object' ? [{ name, span: key.span, value }] : [];
  });
}

function worked(
  fields: Fields,
  { key, value: node }: MapEntry,
  lookup: (name: string) => Quantity | 'unknown' | 'broken',
): Quantity | 'broken' {
  const name = String(key.value);
  const fail = (message: string, span: Span): 'broken' => {
    fields.problem('form/schema', message, span);
    return 'broken';
  };
  if (!NAME.test(name))
    return fail(
      `${quote(name)} is not a name for a parameter. Use small letters, digits and \`-\`, a letter first.`,
      key.span,
    );
  if (node?.type !== 'scalar' || node.value === null)
    return fail(`${quote(name)} needs a value. Write it like \`${name}: 36 mm\`.`, key.span);
  const parsed = parseDimension(node.source);
  if (!parsed.ok) return fail(parsed.message, within(node, parsed.from, parsed.to));
  if (parsed.dimension.tolerance)
    return fail(`${quote(name)} has a tolerance. Write the tolerance where the parameter is used.`, node.span);
  const result = evaluate(parsed.dimension.expression, { unitMm: fields.unitMm, lookup });
  if (result.ok) return result.value;
  // Of another that has no value that was told there.
  if (result.broken !== undefined) return 'broken';
  return fail(result.message, within(node, result.from, result.to));
}

/** As a part in these units would write it; undefined where a bare number would mean another length there. */
export function sharedText(
  { dimension, value }: Quantity,
  units: { readonly job: Units; readonly part: Units },
): string | undefined {
  const number = String(Number(value.toFixed(9)));
  if (dimension === 'length') return `${number} mm`;
  if (dimension === 'angle') return `${number} deg`;
  return units.job === units.part ? number : undefined;
}
