/** Edits that rules offer: a length set to another value, a feature moved, an entry taken out. All keep the author's way of writing. */

import { type Axis, FACE_AXIS, FACE_PLANE, type Face, type Feature, type Length, type Part } from '../../model/model';
import { addText, removeEntry as cutEntry, removeItem as cutItem } from '../../text/edit';
import { writeLength } from '../../text/format';
import {
  at,
  entry,
  type MapEntry,
  type MapNode,
  type Span,
  samePlace,
  type TextNode,
  type TextTree,
} from '../../text/tree';
import { SAME } from '../../tolerance';
import type { RuleContext, SpanEdit } from './rule';

/** The whole document as one block: for edits that reach over the edge of a block. */
export function documentSpan(from: number, to: number): Span {
  return { block: '', from, to };
}

/**
 * Writes another value for a length, keeping its tolerance and, where one was written, its unit. Undefined for a
 * length that nobody wrote.
 */
export function setLength(length: Length | undefined, mm: number, part: Part): SpanEdit | undefined {
  if (!length || length.from || !Number.isFinite(mm)) return undefined;
  const tolerance = length.tolerance?.text;
  const value = tolerance ? length.text.slice(0, length.text.lastIndexOf(tolerance)) : length.text;
  const inches = /\d\s*(in|")\s*$/.test(value);
  const millimetres = /\d\s*mm\s*$/.test(value);
  const number =
    inches && part.units === 'mm'
      ? `${writeLength(mm, 'in')} in`
      : millimetres && part.units === 'in'
        ? `${writeLength(mm, 'mm')} mm`
        : `${writeLength(mm, part.units)}${inches ? ' in' : millimetres ? ' mm' : ''}`;
  return { span: length.span, newText: tolerance ? `${number} ${tolerance}` : number };
}

/** The map in which a feature is written. */
export function featureNode(tree: TextTree, feature: string): MapNode | undefined {
  const node = at(at(tree.root, 'features'), feature);
  return node?.type === 'map' ? node : undefined;
}

/** The narrowest node under a feature's map along a path of keys that is there in full. */
export function nodeAt(tree: TextTree, feature: string, ...path: readonly (string | number)[]): TextNode | undefined {
  let here: TextNode | undefined = featureNode(tree, feature);
  for (const step of path) {
    here = typeof step === 'number' ? (here?.type === 'list' ? here.items[step] : undefined) : at(here, step);
  }
  return here;
}

/**
 * Moves a feature by so many mm along the two axes of its face, in the words of the author: a distance from `right`
 * stays one. `member` (from 1) matters for a pattern of `places` only. Undefined where its place is not written.
 */
export function moveFeature(
  { tree, part }: Pick<RuleContext, 'tree' | 'part'>,
  feature: Feature,
  [du, dv]: readonly [number, number],
  member = 0,
): SpanEdit[] | undefined {
  const listed = feature.pattern?.type === 'places';
  const node = placeNode(tree, feature, member);
  const base = listed ? feature.places[Math.max(0, member - 1)] : centreOf(feature);
  if (node?.type !== 'map' || !base) return undefined;
  const [uAxis, vAxis] = FACE_PLANE[feature.face];
  const edits: SpanEdit[] = [];
  for (const [axis, by, is] of [[uAxis, du, base.u] as const, [vAxis, dv, base.v] as const]) {
    if (Math.abs(by) < SAME) continue;
    const written = coordinate(node, axis);
    if (!written?.value) return undefined;
    edits.push({ span: written.value.span, newText: writeLength(asWritten(written, axis, is + by, part), part.units) });
  }
  return edits.length > 0 ? edits : undefined;
}

/** Where it would be after such a move, in the words of its author: `x 53, front 7`; undefined where its place is not written. */
export function placeAfter(
  context: Pick<RuleContext, 'tree' | 'part'>,
  feature: Feature,
  by: readonly [number, number],
  member = 0,
): string | undefined {
  const edits = moveFeature(context, feature, by, member);
  const node = placeNode(context.tree, feature, member);
  if (!edits || node?.type !== 'map') return undefined;
  const said = FACE_PLANE[feature.face].map((axis) => {
    const written = coordinate(node, axis);
    const edit = edits.find((e) => samePlace(e.span, written?.value?.span));
    const is = edit?.newText ?? (written?.value?.type === 'scalar' ? written.value.source : undefined);
    return written && is !== undefined ? `${written.key.source} ${is}` : undefined;
  });
  return said.includes(undefined) ? undefined : said.join(', ');
}

/** The map in which its place is written. */
function placeNode(tree: TextTree, feature: Feature, member: number): TextNode | undefined {
  return feature.pattern?.type === 'places'
    ? nodeAt(tree, feature.name, 'pattern', 'places', Math.max(0, member - 1))
    : nodeAt(tree, feature.name, 'at');
}

/** The centre of a pattern, or the place of a lone feature. */
function centreOf(feature: Feature): { u: number; v: number } | undefined {
  const n = feature.places.length;
  if (n === 0) return undefined;
  return {
    u: feature.places.reduce((sum, p) => sum + p.u, 0) / n,
    v: feature.places.reduce((sum, p) => sum + p.v, 0) / n,
  };
}

const SIDES: Readonly<Record<Axis, readonly [Face, Face]>> = {
  x: ['left', 'right'],
  y: ['front', 'back'],
  z: ['bottom', 'top'],
};

/** The entry of an `at` that says where along an axis: `x`, `left` or `right`. */
export function coordinate(position: MapNode, axis: Axis): MapEntry | undefined {
  return entry(position, axis) ?? entry(position, SIDES[axis][0]) ?? entry(position, SIDES[axis][1]);
}

function asWritten(written: MapEntry, axis: Axis, coordinateMm: number, part: Part): number {
  const face = FACE_AXIS[written.key.source as Face];
  return face?.sign === 1 ? part.size['xyz'.indexOf(axis)]! - coordinateMm : coordinateMm;
}

/** Takes an entry out of a map; comments on it stay. The last one takes the map's own top-level entry with it, where `parent` is given. */
export function removeEntry(tree: TextTree, map: MapNode, gone: MapEntry, parent?: MapEntry): SpanEdit[] {
  if (map.entries.length === 1 && parent && tree.root) return cutEntry(tree, tree.root, parent);
  return cutEntry(tree, map, gone);
}

/** Takes one item out of a list; the last one with the list's own top-level entry. */
export function removeItem(tree: TextTree, owner: MapEntry, index: number): SpanEdit[] {
  const list = owner.value?.type === 'list' ? owner.value : undefined;
  if (!list?.items[index]) return [];
  if (list.items.length === 1 && tree.root) return cutEntry(tree, tree.root, owner);
  return cutItem(tree, list, index);
}

/** Adds `key: value` (one line of YAML) to a map, in the style it is written in: after its last entry. */
export function addEntry(tree: TextTree, map: MapNode, key: string, value: string): SpanEdit | undefined {
  return addText(tree, map, key, value)[0];
}
