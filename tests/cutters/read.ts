/** Reads a list for the tests, as for a shop in millimetres without tools. */
import { type Import, imported, isNew } from '../../server/src/cutters/into-shop';
import type { Tool } from '../../server/src/model/tool-kinds';

export const read = (text: string, tools: readonly Tool[] = [], units: 'mm' | 'in' = 'mm'): Import =>
  imported(text, { units, tools, names: new Set(tools.map((t) => t.name)) });

/** `em-6: { … }` of what is new. */
export const entries = (result: Import): readonly string[] =>
  result.rows.filter(isNew).map(({ name, entry }) => `${name}: ${entry}`);

export const reasons = (result: Import): readonly string[] => result.rows.flatMap(({ why }) => why ?? []);
