/** Old words in a read document: each is read as the new one, and noted with its place. */
import { RENAMED, type Renamed } from './renamed';
import type { MapEntry, MapNode, OldWord, ScalarNode, TextNode } from './tree';

interface Modern {
  readonly node: TextNode;
  readonly old: readonly OldWord[];
}

/** A node under the keys `path`, with every old word read as the new one. The same node where there is none. */
export function modernised(node: TextNode, text: string, path: readonly string[]): Modern {
  const words = RENAMED.filter((r) => leadsTo(r, path));
  if (!words.some(({ was }) => text.includes(was))) return { node, old: [] };
  const old: OldWord[] = [];
  return { node: renew(node, path, words, old), old };
}

/** Whether there are old words below these keys. */
function leadsTo({ path }: Renamed, keys: readonly string[]): boolean {
  return keys.length <= path.length && keys.every((key, i) => path[i] === '*' || path[i] === key);
}

function renew(node: TextNode, path: readonly string[], words: readonly Renamed[], old: OldWord[]): TextNode {
  if (words.length === 0) return node;
  if (node.type === 'scalar') {
    const word = words.find((r) => r.is === 'value' && r.path.length === path.length && r.was === node.value);
    return word ? renewed(node, word, old) : node;
  }
  if (node.type === 'list') {
    const items = each(node.items, (item) => renew(item, [...path, '*'], below(words, path.length, '*'), old));
    return items === node.items ? node : { ...node, items };
  }
  const entries = each(node.entries, (e) => renewEntry(e, node, path, words, old));
  return entries === node.entries ? node : { ...node, entries };
}

function renewEntry(
  entry: MapEntry,
  map: MapNode,
  path: readonly string[],
  words: readonly Renamed[],
  old: OldWord[],
): MapEntry {
  const word = words.find((r) => r.is === 'key' && r.path.length === path.length && r.was === entry.key.value);
  // Where the new word stands there too, the old one is a second of it, and means nothing.
  const key = word && !map.entries.some((e) => e.key.value === word.now) ? renewed(entry.key, word, old) : entry.key;
  const name = String(key.value);
  const value = entry.value && renew(entry.value, [...path, name], below(words, path.length, name), old);
  return key === entry.key && value === entry.value ? entry : { ...entry, key, value };
}

/** Those that are still on the way one key further down. */
function below(words: readonly Renamed[], depth: number, key: string): readonly Renamed[] {
  return words.filter(({ path }) => path.length > depth && (path[depth] === '*' || path[depth] === key));
}

function renewed(node: ScalarNode, { is, was, now }: Renamed, old: OldWord[]): ScalarNode {
  old.push({ span: node.span, is, was, now });
  return { ...node, value: now, source: now };
}

/** The same list where nothing in it is new. */
function each<T>(list: readonly T[], change: (item: T) => T): readonly T[] {
  const made = list.map(change);
  return made.some((item, i) => item !== list[i]) ? made : list;
}
