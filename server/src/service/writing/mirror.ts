/** A feature at the mirrored place, or the whole part as its mirror image. */
import { imaged, MIRROR_WAYS, mirrored } from '../../model/everyday/mirrored';
import { otherwise } from '../../model/everyday/otherwise';
import { type Axis, FACE_PLANE } from '../../model/model';
import { at, type MapNode, scalarAt } from '../../text/tree';
import { SAME } from '../../tolerance';
import { Draft, featureAt, type Rewriting, type Subject, spotAt } from './subject';

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
      title: `Mirror ${name}, ${MIRROR_WAYS[axis]}`,
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
    title: `Write the mirror image of ${part.name}, ${MIRROR_WAYS[axis]}`,
    kind: 'refactor.rewrite',
    keeps: 'nothing',
    make: () => new Draft(tree).make((t) => imaged(t, axis, (name) => part.featureByName.get(name)?.face)).text,
  };
}
