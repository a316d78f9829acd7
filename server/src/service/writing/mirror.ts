/** A feature at the mirrored place, or the whole part as its mirror image. */
import { type Axis, FACE_AXIS, FACE_PLANE, FACES, type Face } from '../../model/model';
import { at, type MapNode, type SpanEdit, scalarAt, type TextTree } from '../../text/tree';
import { SAME } from '../../tolerance';
import { type Otherwise, otherEnd, otherwise } from './otherwise';
import { Draft, featureAt, type Rewriting, type Subject, spotAt } from './subject';

const WAYS: Readonly<Record<Axis, string>> = { x: 'left to right', y: 'front to back', z: 'bottom to top' };
const AXES: readonly Axis[] = ['x', 'y', 'z'];

export function mirrorRewritings(subject: Subject): readonly Rewriting[] {
  const spot = spotAt(subject);
  if (spot.path.length === 1 && (spot.path[0] === 'part' || spot.path[0] === 'body'))
    return AXES.map((a) => whole(subject, a));
  const found = featureAt(subject, spot);
  if (!found || spot.path.length > 3 || (spot.path.length === 3 && spot.path[2] !== 'at')) return [];
  return own(subject, found);
}

function own(
  { tree, part }: Subject,
  { name, map }: { readonly name: string; readonly map: MapNode },
): readonly Rewriting[] {
  const feature = part.featureByName.get(name);
  if (!feature || at(map, 'edges')) return [];
  const size = (axis: Axis) => part.size[AXES.indexOf(axis)]!;
  const isMiddle = (axis: Axis, i: 0 | 1) =>
    feature.places.every((p) => Math.abs((i === 0 ? p.u : p.v) - size(axis) / 2) < SAME) &&
    scalarAt(map, 'rotate') === undefined;
  return FACE_PLANE[feature.face]
    .filter((axis, i) => at(map, 'path') || at(map, 'ends') || at(map, 'along') || !isMiddle(axis, i as 0 | 1))
    .map((axis) => ({
      id: `mirror-${axis}`,
      title: `Mirror ${name}, ${WAYS[axis]}`,
      kind: 'refactor.rewrite',
      keeps: 'others',
      of: [name, ...part.features.filter((f) => f.name !== name && leansOn(f, name)).map((f) => f.name)],
      make: () => new Draft(tree).make(() => otherwise(map, mirrored(axis, feature.face))).text,
    }));
}

function leansOn(feature: object, name: string): boolean {
  return JSON.stringify(feature, (key, value) => (key === 'nameSpan' || key === 'span' ? undefined : value)).includes(
    `"name":"${name}"`,
  );
}

function whole({ tree, part }: Subject, axis: Axis): Rewriting {
  return {
    id: `mirror-part-${axis}`,
    title: `Write the mirror image of ${part.name}, ${WAYS[axis]}`,
    kind: 'refactor.rewrite',
    keeps: 'nothing',
    make: () => new Draft(tree).make((t) => imaged(t, part, axis)).text,
  };
}

function imaged(tree: TextTree, part: Subject['part'], axis: Axis): readonly SpanEdit[] {
  const edits: SpanEdit[] = [];
  const root = tree.root!;
  for (const section of ['features', 'setups'] as const) {
    const map = at(root, section);
    for (const e of map?.type === 'map' ? map.entries : []) {
      if (e.value?.type !== 'map') continue;
      const face = section === 'features' ? part.featureByName.get(String(e.key.value))?.face : undefined;
      edits.push(...otherwise(e.value, mirrored(axis, face)));
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
function mirrored(axis: Axis, on: Face | undefined): Otherwise {
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
