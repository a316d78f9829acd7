/** Along which axis a toleranced distance counts where the text does not say: the one along which its two ends are apart. */

import { readMemberName } from '../../model/member-name';
import { type Axis, FACE_AXIS, FACE_PLANE, type Feature, type GeometricTolerance, type Part } from '../../model/model';
import { HAIR } from '../../tolerance';
import { isFace } from '../workholding/references';

type Ends = Pick<GeometricTolerance, 'axis' | 'of' | 'value'>;

/** Undefined where they are apart along several, and the distance is that along none or several of them. */
export function axisOfDistance({ axis, of, value }: Ends, part: Part): Axis | undefined {
  if (axis) return axis;
  const apart = apartAlong({ of }, part);
  if (apart.length < 2) return apart[0]?.axis;
  const such = apart.filter(({ mm }) => Math.abs(mm - value.mm) < HAIR);
  return such.length === 1 ? such[0]!.axis : undefined;
}

/** How far two ends are apart, axis by axis; not where they are not, nor along the depth of a feature. */
export function apartAlong(
  { of }: Pick<Ends, 'of'>,
  part: Part,
): readonly { readonly axis: Axis; readonly mm: number }[] {
  const [a, b] = of.map(({ name }) => placesOf(name, part));
  if (!a || !b) return [];
  return (['x', 'y', 'z'] as const).flatMap((axis) => {
    const [from, to] = [a[axis], b[axis]];
    const mm = from === undefined || to === undefined ? 0 : Math.abs(to - from);
    return mm > HAIR ? [{ axis, mm }] : [];
  });
}

/** Where its two ends are along an axis, mm; undefined where one of them is nowhere there, or at several places. */
export function endsAlong(
  { of }: Pick<Ends, 'of'>,
  axis: Axis,
  part: Part,
): readonly [from: number, to: number] | undefined {
  const isOne = ({ name }: { readonly name: string }) => {
    const { feature, member } = readMemberName(name);
    return isFace(name) || member !== undefined || part.featureByName.get(feature)?.places.length === 1;
  };
  const [a, b] = of.map(({ name }) => placesOf(name, part)[axis]);
  return of.length === 2 && of.every(isOne) && a !== undefined && b !== undefined ? [a, b] : undefined;
}

/** The middle of all places of a feature, the place of a member, the plane of a face. */
function placesOf(name: string, part: Part): Partial<Record<Axis, number>> {
  if (isFace(name)) {
    const { axis, sign } = FACE_AXIS[name];
    return { [axis]: sign > 0 ? part.size['xyz'.indexOf(axis)]! : 0 };
  }
  const { feature: of, member } = readMemberName(name);
  const feature = part.featureByName.get(of);
  const places = feature && (member ? feature.places.slice(member - 1, member) : feature.places);
  if (!feature || !places || places.length === 0) return {};
  const [u, v] = FACE_PLANE[feature.face];
  const mean = (of: (p: Feature['places'][number]) => number) =>
    places.reduce((sum, p) => sum + of(p), 0) / places.length;
  return { [u]: mean((p) => p.u), [v]: mean((p) => p.v) };
}
