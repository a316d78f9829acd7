/** An entry of a shop that its schema wants. */
import type { MapEntry, MapNode } from '../text/tree';
import { isSound, type Schema } from './header';
import type { Fields } from './shop-fields';

/** The map of an entry when it is what the schema wants; undefined (and told) where a fault breaks it. */
export function sound(fields: Fields, schema: Schema, entry: MapEntry, what: string): MapNode | undefined {
  const { value, key } = entry;
  if (value === undefined) {
    fields.problem('form/schema', `${what} has nothing in it yet.`, key.span);
    return undefined;
  }
  return isSound(fields, schema, value, what, key.span) && value.type === 'map' ? value : undefined;
}
