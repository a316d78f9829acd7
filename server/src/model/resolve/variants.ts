/** The table of `variants`: rows with names, each with other values of parameters that there are. */
import { type MapEntry, type MapNode, mapAt } from '../../text/tree';
import type { VariantRow } from '../model';
import type { CellDatabase } from './database';
import type { Evaluation } from './evaluation';
import { checkName } from './names';
import { quote } from './problem';

/** The names of its rows that mean something. */
export function variantsOf(doc: CellDatabase, root: MapNode | undefined): readonly VariantRow[] {
  const seen = new Set<string>();
  return (mapAt(root, 'variants')?.entries ?? []).flatMap((row) => {
    const name = String(row.key.value);
    if (seen.has(name)) return [];
    seen.add(name);
    const read = doc.cell(`variants/${name}`, [row], (work) => rowOf(work, row));
    return read && read !== 'circle' ? [read] : [];
  });
}

function rowOf(work: Evaluation, { key, value }: MapEntry): VariantRow | undefined {
  const name = String(key.value);
  checkName(work, key, 'variant');
  // All as the parameters say.
  if (!value || (value.type === 'scalar' && value.value === null)) return { name, span: key.span, values: [] };
  if (value.type !== 'map')
    return work.fail(
      `Variant ${quote(name)} needs parameters with other values. Write it like \`${name}: { length: 40 }\`.`,
      value.span,
    );
  return { name, span: key.span, values: value.entries.flatMap((cell) => cellOf(work, cell, name) ?? []) };
}

function cellOf(work: Evaluation, { key, value }: MapEntry, row: string): VariantRow['values'][number] | undefined {
  const name = String(key.value);
  const known = work.names('parameters');
  if (!known.includes(name)) work.unknown('parameter', name, key.span, known, ' Add it under `parameters`.');
  else if (value?.type === 'scalar' && value.value !== null) work.any(value);
  else
    work.remark(
      `${quote(name)} of variant ${quote(row)} needs a value. Write it like \`${name}: 36\`.`,
      value && value.type !== 'scalar' ? value.span : key.span,
    );
  // One cell that means nothing is told; the row stays.
  work.broken = false;
  return value?.type === 'scalar' ? { name, span: key.span, text: value.source } : undefined;
}
