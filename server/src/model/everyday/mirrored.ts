/** What is mirrored across the middle of the body, written out: a feature a second time, or the whole part as its mirror image. */
import { addItem, addText, applyEdits, locateEdits, removeEntry } from '../../text/edit';
import { readText } from '../../text/read';
import { at, entry, type MapNode, mapAt, type SpanEdit, scalarAt, type TextTree } from '../../text/tree';
import type { Mirroring } from '../base';
import { type Axis, FACE_AXIS, FACE_PLANE, FACES, type Face } from '../faces';
import { type Otherwise, otherEnd, otherwise } from './otherwise';
import { onOneLine } from './reading';

export const MIRROR_WAYS: Readonly<Record<Axis, string>> = {
  x: 'left to right',
  y: 'front to back',
  z: 'bottom to top',
};

/** The edits that write it out; `isLeft`: what a copy does not have. Nothing where there is nothing to be mirrored. */
export function mirrorEdits(
  tree: TextTree,
  { of, as, axis, key }: Mirroring,
  isLeft: (key: string) => boolean,
): readonly SpanEdit[] {
  const { root } = tree;
  const features = mapAt(root, 'features');
  const asking = of === undefined ? root : mapAt(features, as ?? of);
  const own = key === undefined ? undefined : entry(asking, key);
  const gone = asking && own ? removeEntry(tree, asking, own) : [];
  if (of === undefined) return [...gone, ...imaged(tree, axis, (_, map) => faceIn(tree, map))];
  const map = mapAt(features, of);
  const copy = map && copyOf(tree, map, of, { axis, isLeft });
  if (!features || copy === undefined) return [];
  if (as !== undefined) return [{ span: entry(features, as)!.value!.span, newText: copy }];
  const name = freeName(features, of);
  const less = readText(applyEdits(tree.text, locateEdits(tree, gone)));
  const more = mapAt(less.root, 'features');
  if (!more) return [];
  const after = applyEdits(less.text, locateEdits(less, addText(less, more, name, copy)));
  return [between(tree.text, after), ...alsoCut(tree, of, name)];
}

/** A feature's map as its mirror image, on one line. */
function copyOf(
  tree: TextTree,
  map: MapNode,
  name: string,
  { axis, isLeft }: { readonly axis: Axis; readonly isLeft: (key: string) => boolean },
): string | undefined {
  const edits = otherwise(map, mirrored(axis, faceIn(tree, map)));
  if (edits.length === 0) return undefined;
  const there = mapAt(mapAt(readText(applyEdits(tree.text, locateEdits(tree, edits))).root, 'features'), name);
  return there && onOneLine({ ...there, entries: there.entries.filter((e) => !isLeft(String(e.key.value))) });
}

function freeName(features: MapNode, of: string): string {
  for (let n = 1; ; n++) {
    const name = `${of}-mirrored${n > 1 ? `-${n}` : ''}`;
    if (!entry(features, name)) return name;
  }
}

/** Where one text is not the other. */
function between(before: string, after: string): SpanEdit {
  let from = 0;
  while (from < before.length && before[from] === after[from]) from++;
  let [to, end] = [before.length, after.length];
  while (to > from && end > from && before[to - 1] === after[end - 1]) [to, end] = [to - 1, end - 1];
  return { span: { block: '', from, to }, newText: after.slice(from, end) };
}

/** The copy is cut where the feature is. */
function alsoCut(tree: TextTree, of: string, name: string): readonly SpanEdit[] {
  return (mapAt(tree.root, 'setups')?.entries ?? []).flatMap(({ value }) => {
    const cuts = at(value, 'cuts');
    if (cuts?.type !== 'list' || !cuts.items.some((n) => n.type === 'scalar' && n.value === of)) return [];
    return addItem(tree, cuts, name);
  });
}

/** The face that is written, or that of what it stands on. */
function faceIn(tree: TextTree, feature: MapNode, deep = 0): Face | undefined {
  if (at(feature, 'edges')) return undefined;
  const word = scalarAt(feature, 'face')?.value;
  const from = mapAt(mapAt(tree.root, 'features'), String(scalarAt(feature, 'from')?.value ?? ''));
  if (word === undefined && from && deep < MOST_FROM) return faceIn(tree, from, deep + 1);
  return FACES.find((f) => f === (word ?? 'top'));
}
/** More that stand on each other go in a circle. */
const MOST_FROM = 20;

/** `face`: what a feature is cut from. */
export function imaged(
  tree: TextTree,
  axis: Axis,
  face: (name: string, map: MapNode) => Face | undefined,
): readonly SpanEdit[] {
  const edits: SpanEdit[] = [];
  const root = tree.root!;
  for (const section of ['features', 'setups'] as const) {
    const map = at(root, section);
    for (const e of map?.type === 'map' ? map.entries : []) {
      if (e.value?.type !== 'map') continue;
      const on = section === 'features' ? face(String(e.key.value), e.value) : undefined;
      edits.push(...otherwise(e.value, mirrored(axis, on)));
    }
  }
  const rest = root.entries.filter((e) => ['stock', 'datums', 'tolerances', 'accept'].includes(String(e.key.value)));
  for (const { value } of rest) {
    const maps = value?.type === 'map' ? [value] : value?.type === 'list' ? value.items : [];
    for (const map of maps) if (map.type === 'map') edits.push(...otherwise(map, mirrored(axis, undefined)));
  }
  return edits;
}

/** `on`: the face whose plane angles are counted in. */
export function mirrored(axis: Axis, on: Face | undefined): Otherwise {
  const high = FACES.find((f) => FACE_AXIS[f].axis === axis && FACE_AXIS[f].sign === 1)!;
  const inPlane = on !== undefined && FACE_AXIS[on].axis !== axis;
  return {
    face: (f) => (FACE_AXIS[f].axis === axis ? otherEnd(f) : f),
    axis: (a) => a,
    place: (a, relative) =>
      a !== axis ? { key: a, negated: false } : relative ? { key: a, negated: true } : { key: high, negated: false },
    rotates: inPlane,
    start: (deg) => {
      if (!inPlane) return deg;
      const is = FACE_PLANE[on][0] === axis ? 180 - deg : -deg;
      return ((is % 360) + 360) % 360;
    },
    leans: (about) => about !== axis,
  };
}
