/**
 * What a key's value looks like, with places to fill: the example of the schema, or what the part itself says about it (the
 * axes of the feature's face, the jaws that fit what is up). `${1:…}` and the like are the editor's stops.
 */
import { FACE_AXIS, FACE_PLANE, FACES, type Face } from '../model/model';
import { descend, type MapNode, scalarAt } from '../text/tree';
import type { Snapshot } from './snapshot';

/** Undefined where the value is one word, which is completed by itself. */
export function skeletonOf(
  snapshot: Snapshot,
  path: readonly string[],
  key: string,
  example: string | undefined,
): string | undefined {
  // What is cut is chosen of the part's own names, which the list has.
  if (snapshot.kind === 'part' && path[0] === 'setups' && path.length === 2 && key === 'cuts') return undefined;
  const own = snapshot.kind === 'part' ? ofPart(snapshot, path, key) : undefined;
  const text = own ?? (example && /^[{[]/.test(example) ? example : undefined);
  return text === undefined ? undefined : withStops(text);
}

function ofPart(snapshot: Snapshot & { kind: 'part' }, path: readonly string[], key: string): string | undefined {
  const { tree } = snapshot.checked;
  const map = descend(tree.root, path.slice(0, 2));
  if (map?.type !== 'map') return undefined;
  if (path[0] === 'features') return inFeature(map, path.slice(2), key);
  return path[0] === 'setups' && path.length === 2 ? inSetup(map, snapshot, key) : undefined;
}

function inFeature(feature: MapNode, path: readonly string[], key: string): string | undefined {
  const [u, v] = FACE_PLANE[faceAt(feature, 'face')];
  if (path.length === 0 && key === 'at') return `{ ${u}: center, ${v}: center }`;
  if (path.length === 0 && key === 'size' && scalarAt(feature, 'kind')?.value !== 'chamfer')
    return `{ ${u}: 20, ${v}: 10 }`;
  if (path.length === 0 && key === 'pattern') return `{ line: { ${u}: 36, count: 2 } }`;
  if (path[0] !== 'pattern' || path.length !== 1) return undefined;
  if (key === 'line') return `{ ${u}: 36, count: 2 }`;
  if (key === 'grid') return `{ ${u}: { pitch: 15, count: 3 }, ${v}: { pitch: 10, count: 2 } }`;
  return key === 'places' ? `[{ ${u}: 8, ${v}: 8 }, { ${u}: 52, ${v}: 8 }]` : undefined;
}

function inSetup(setup: MapNode, { checked }: Snapshot & { kind: 'part' }, key: string): string | undefined {
  const up = faceAt(setup, 'up');
  if (key === 'hold') {
    const [first, second] = jawPairs(up)[0]!;
    const vise = checked.shop.vises[0]?.name;
    return vise && `{ vise: ${vise}, jaws: [${first}, ${second}], grip: 6 }`;
  }
  if (key !== 'zero') return undefined;
  const [u, v] = FACE_PLANE[up];
  const { axis } = FACE_AXIS[up];
  const low = (a: string) => FACES.find((f) => FACE_AXIS[f].axis === a && FACE_AXIS[f].sign < 0)!;
  return `{ ${u}: ${low(u)}, ${v}: ${low(v)}, ${axis}: ${up} }`;
}

function faceAt(map: MapNode, key: string): Face {
  const word = scalarAt(map, key)?.value;
  return FACES.find((f) => f === word) ?? 'top';
}

/** Faces that two jaws can take hold of: those that stand upright; what lies along y first, as vises stand. */
export function jawPairs(up: Face): readonly (readonly [Face, Face])[] {
  const pairs: readonly (readonly [Face, Face])[] = [
    ['front', 'back'],
    ['left', 'right'],
    ['bottom', 'top'],
  ];
  return pairs.filter(([first]) => FACE_AXIS[first].axis !== FACE_AXIS[up].axis);
}

/** Every value of a flow text a stop of its own. */
function withStops(text: string): string {
  let stop = 0;
  return text.replace(/([^\s{}[\],:][^{}[\],:]*?)(?=\s*[,}\]])/g, (value) => `\${${++stop}:${value}}`);
}
