/** What there is to say of each row of a list, in sentences. */
import type { Imported } from './into-shop';

export function sentences(row: Imported): readonly string[] {
  const of = row.name ?? row.id ?? 'this row';
  const more = row.told.length > 0 ? [`${of}: ${row.told.join('; ')}.`] : [];
  if (row.why !== undefined) return [...more, `${of} was left out: ${row.why.replace(/\.$/, '')}.`];
  if (row.entry === undefined) return [...more, `${of} is there already.`];
  return row.assumed.length > 0 ? [...more, `${of} leaves to what is usual: ${row.assumed.join(', ')}.`] : more;
}
