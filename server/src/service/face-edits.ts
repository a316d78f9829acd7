/** A face chosen for a feature that has a place already: the axis that is now its depth becomes the one that is missing. */
import { FACE_AXIS, FACE_PLANE, FACES, type Face } from '../model/model';
import { at, entry, type MapEntry, type MapNode, type TextNode } from '../text/tree';
import { rangeBetween } from './lsp';
import type { TextEdit } from './shapes';
import type { Snapshot } from './snapshot';

/** None where the face is not one, or its places fit it as they are. */
export function faceEdits(snapshot: Snapshot, feature: TextNode | undefined, word: string): TextEdit[] {
  const face = FACES.find((f) => f === word);
  if (!face || feature?.type !== 'map') return [];
  const { tree } = snapshot.checked;
  return [...placesIn(feature)].flatMap((map) => {
    return turnedKeys(map, face).flatMap(([{ key }, to]) => {
      if (key.value === to) return [];
      const { start, end } = tree.locate(key.span);
      return [{ range: rangeBetween(snapshot, start, end), newText: to }];
    });
  });
}

/** The maps of a feature that have an axis of its face for a key. */
function* placesIn(feature: MapNode): Generator<MapNode> {
  for (const key of ['at', 'size'] as const) yield* mapsIn(at(feature, key));
  for (const key of ['ends', 'path'] as const) yield* mapsIn(at(feature, key));
  const pattern = at(feature, 'pattern');
  for (const key of ['line', 'grid', 'places'] as const) yield* mapsIn(at(pattern, key));
}

function mapsIn(node: TextNode | undefined): readonly MapNode[] {
  if (node?.type === 'list') return node.items.flatMap(mapsIn);
  return node?.type === 'map' ? [node] : [];
}

/** Keys of a place, each with the axis that it is on the face. */
function turnedKeys(map: MapNode, face: Face): readonly (readonly [MapEntry, string])[] {
  const normal = FACE_AXIS[face].axis;
  const key = entry(map, normal);
  const open = FACE_PLANE[face].filter((axis) => ![axis, ...sidesOf(axis)].some((name) => entry(map, name)));
  // A line has one axis alone: across stays across.
  const to = open.length === 1 || entry(map, 'count') ? open.at(normal === 'x' ? 0 : -1) : undefined;
  if (!key || !to) return [];
  const [a, b, more] = map.entries;
  // Both in the middle yet: in the order that the face has its axes, as they are filled in.
  const isOpen = a && b && !more && isMiddle(a) && isMiddle(b);
  return isOpen ? [a, b].map((e, i) => [e, FACE_PLANE[face][i]!] as const) : [[key, to]];
}

function isMiddle({ value }: MapEntry): boolean {
  return value?.type === 'scalar' && value.source === 'center';
}

function sidesOf(axis: string): readonly Face[] {
  return FACES.filter((face) => FACE_AXIS[face].axis === axis);
}
