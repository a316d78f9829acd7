/** Whether two texts mean one part: every size, place and name worked out, wherever and however it is written. */
import { SAME } from '../tolerance';
import type { Feature, Part } from './model';

/** What says where or how something is written, or who wrote it, and not what it is. */
const WRITTEN: ReadonlySet<string> = new Set([
  ...[
    'span',
    'whole',
    'block',
    'root',
    'text',
    'written',
    'problems',
    'parameters',
    'units',
    'shopPath',
    'featureByName',
    'broken',
    'pattern',
  ],
]);

export function samePart(a: Part, b: Part): boolean {
  return same(a, b);
}

/** The same members, whether they stand in a pattern or each by itself; of other features everything. */
export function sameMembers(a: Part, b: Part, of: readonly string[]): boolean {
  const isOf = (f: Feature) => of.includes(f.name);
  const rest = (p: Part) => p.features.filter((f) => !isOf(f));
  const members = (p: Part) =>
    p.features
      .filter(isOf)
      .flatMap((f) => f.places.map(({ u, v }) => ({ ...f, name: '', places: [{ u, v }] })))
      .sort((m, n) => m.places[0]!.u - n.places[0]!.u || m.places[0]!.v - n.places[0]!.v);
  return (
    same({ body: a.body, stock: a.stock, features: rest(a) }, { body: b.body, stock: b.stock, features: rest(b) }) &&
    same(members(a), members(b))
  );
}

/** `from` is a name where it is a map: a feature that it stands on. */
function counts(key: string, value: unknown): boolean {
  return key === 'from' ? typeof value === 'object' : !WRITTEN.has(key) && !key.endsWith('Span');
}

function same(a: unknown, b: unknown): boolean {
  if (typeof a === 'number' && typeof b === 'number') return Math.abs(a - b) <= SAME;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return a === b;
  if (a instanceof Map || b instanceof Map)
    return a instanceof Map && b instanceof Map && same([...a].flat(), [...b].flat());
  if (Array.isArray(a) || Array.isArray(b))
    return Array.isArray(a) && Array.isArray(b) && a.length === b.length && a.every((v, i) => same(v, b[i]));
  const entries = (o: object) => Object.entries(o).filter(([k, v]) => v !== undefined && counts(k, v));
  const [mine, theirs] = [entries(a), new Map(entries(b))];
  return mine.length === theirs.size && mine.every(([k, v]) => theirs.has(k) && same(v, theirs.get(k)));
}
