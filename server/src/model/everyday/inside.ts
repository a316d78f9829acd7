/** Keys that stand beside the map that they belong in: `vise`, `jaws` and `grip` of a set-up, `x`, `y` and `z` of a part. */
import { at, type MapEntry, type MapNode, type Span } from '../../text/tree';
import { code, listed, type ProblemFix } from '../resolve/problem';
import type { Shape } from '../schema/shape';
import { plainWord } from './everyday-words';
import { onOneLine } from './reading';

interface Inside {
  readonly into: string;
  readonly entries: readonly MapEntry[];
  readonly message: string;
  readonly span: Span;
  readonly fix: ProblemFix;
}

/** The keys that `map` does not have and one of the maps in it does, each with those that go with it. */
export function standingInside(
  map: MapNode,
  keys: ReadonlyMap<string, { readonly shape: Shape }>,
  what: string,
): readonly Inside[] {
  const groups = new Map<string, [MapEntry, string][]>();
  for (const e of map.entries) {
    if (keys.has(String(e.key.value))) continue;
    // A feature's own places and sizes are read with all that stands beside them.
    const homes = [...keys].flatMap(([into, { shape }]) => {
      if (keys.has('kind') && keys.has('face') && into !== 'pattern') return [];
      const key = [String(e.key.value), plainWord(String(e.key.value))].find((k) => keysIn(shape).has(k));
      return key === undefined ? [] : [[into, key] as const];
    });
    const [home] = homes;
    if (home && homes.length === 1) groups.set(home[0], [...(groups.get(home[0]) ?? []), [e, home[1]]]);
  }
  return [...groups].flatMap(([into, of]) => insideOf(map, into, of, what) ?? []);
}

function keysIn(shape: Shape): ReadonlySet<string> {
  if (shape.type === 'map') return new Set(shape.keys.keys());
  return shape.type === 'choice' ? new Set(shape.options.flatMap((o) => [...keysIn(o)])) : new Set();
}

function insideOf(map: MapNode, into: string, of: readonly [MapEntry, string][], what: string): Inside | undefined {
  const there = at(map, into);
  const texts = of.map(([e, key]) => [key, onOneLine(e.value)] as const);
  if (!texts.every((t): t is readonly [string, string] => t[1] !== undefined)) return undefined;
  if (there && there.type !== 'map') return undefined;
  const entries = of.map(([e]) => e);
  const first = entries[0]!;
  const text = `${into}: { ${texts.map(([key, value]) => `${key}: ${value}`).join(', ')} }`;
  const [says, rest] = [`Write \`${shortened(text)}\``, there ? entries : entries.slice(1)];
  const gone = rest.map((e) => [map, e] as const);
  return {
    into,
    entries,
    span: first.key.span,
    message: `${listed(code(of.map(([e]) => String(e.key.value))), 'and')} of ${what} ${of.length > 1 ? 'belong' : 'belongs'} inside \`${into}\`. ${says}.`,
    fix: there
      ? { title: says, edits: [], without: gone, added: texts.map(([key, value]) => [there, key, value] as const) }
      : { title: says, edits: [{ span: first.span, newText: text }], without: gone },
  };
}

function shortened(text: string): string {
  return text.length > 70 ? `${text.slice(0, text.indexOf('{'))}{ … }` : text;
}
