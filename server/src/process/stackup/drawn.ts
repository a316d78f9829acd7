/**
 * The chain as drawn: how a feature is dimensioned along an axis (from which face, how far, and within what), and the
 * links of such dimensions between two features.
 */

import { type Axis, FACE_AXIS, type Face, type Part } from '../../model/model';
import { generalLinear, parseGeneralTolerance } from '../../tables/general-tolerances';
import { parseDimension } from '../../text/dimension';
import { mmPer } from '../../text/format';
import { toleranceLimits } from '../../text/tolerance';
import { at, entry, type MapEntry, type MapNode, type TextTree } from '../../text/tree';
import type { Link } from './types';

export interface Dimensioned {
  readonly name: string;
  /** Coordinate along the axis, mm. */
  readonly atMm: number;
  /** What it is measured from: one of the two faces across the axis; `middle` for `center`. */
  readonly from: Face | 'middle';
  /** Absent for a face itself. */
  readonly link?: Link;
  /** The entry that says where; absent for a face. */
  readonly entry?: MapEntry;
}

export const LOW: Readonly<Record<Axis, Face>> = { x: 'left', y: 'front', z: 'bottom' };
export const HIGH: Readonly<Record<Axis, Face>> = { x: 'right', y: 'back', z: 'top' };

/** The `at` of a feature, where one is written as a map. */
export function placeNode(name: string, tree: TextTree): MapNode | undefined {
  const node = at(at(at(tree.root, 'features'), name), 'at');
  return node?.type === 'map' ? node : undefined;
}

/** The entry of an `at` that says where along an axis: `x`, `left` or `right`. */
export function coordinateOf(place: MapNode, axis: Axis): MapEntry | undefined {
  return entry(place, axis) ?? entry(place, LOW[axis]) ?? entry(place, HIGH[axis]);
}

/** Undefined where the text does not say in a way that can be followed, or where no tolerance is known. */
export function dimensioned(name: string, axis: Axis, part: Part, tree: TextTree): Dimensioned | undefined {
  const size = part.size['xyz'.indexOf(axis)]!;
  if (name === LOW[axis]) return { name, atMm: 0, from: LOW[axis] };
  if (name === HIGH[axis]) return { name, atMm: size, from: HIGH[axis] };
  const feature = part.featureByName.get(name);
  const node = feature && placeNode(name, tree);
  if (!feature || feature.places.length === 0 || !node) return undefined;
  if (FACE_AXIS[feature.face].axis === axis) return undefined;
  const entry = coordinateOf(node, axis);
  if (entry?.value?.type !== 'scalar') return undefined;
  const index = ['x', 'y', 'z'].filter((a) => a !== FACE_AXIS[feature.face].axis).indexOf(axis);
  const places = feature.places.map((p) => (index === 0 ? p.u : p.v));
  const atMm = places.reduce((sum, p) => sum + p, 0) / places.length;
  const source = entry.value.source;
  if (source === 'center') {
    const body = sizeLink(axis, part);
    if (!body) return undefined;
    const link = { ...body, what: `half of the body’s ${axis}`, halfMm: body.halfMm / 2 };
    return { name, atMm, from: 'middle', link, entry };
  }
  const key = String(entry.key.value);
  const from = key === HIGH[axis] ? HIGH[axis] : LOW[axis];
  const nominalMm = from === HIGH[axis] ? size - atMm : atMm;
  const half = halfOf(source, nominalMm, part);
  return half && { name, atMm, from, link: { what: `${name} from ${from}`, by: 'drawn', ...half }, entry };
}

type Half = Pick<Link, 'halfMm' | 'source'>;
const WRITTEN = 'as written';

/** ± of a dimension as written, or by the part's general tolerance. */
function halfOf(source: string, nominalMm: number, part: Part): Half | undefined {
  const limits = writtenLimits(source, part);
  return limits ? { halfMm: (limits.upper - limits.lower) / 2, source: WRITTEN } : generalHalf(nominalMm, part);
}

/** The limits at the end of a dimension, mm; undefined where it carries none, or a class. */
export function writtenLimits(
  source: string,
  part: Part,
): { readonly upper: number; readonly lower: number } | undefined {
  const parsed = parseDimension(source);
  const tolerance = parsed.ok ? parsed.dimension.tolerance : undefined;
  if (tolerance?.type !== 'limits') return undefined;
  const limits = toleranceLimits(tolerance, 'length', mmPer(part.units));
  return limits.ok ? limits : undefined;
}

function generalHalf(nominalMm: number, part: Part): Half | undefined {
  const general = part.tolerance && parseGeneralTolerance(part.tolerance.name);
  if (!general || !part.tolerance) return undefined;
  return { halfMm: generalLinear(Math.abs(nominalMm), general.linear)?.value ?? 0, source: part.tolerance.name };
}

/** The body's own size along an axis, as a link. */
function sizeLink(axis: Axis, part: Part): Link | undefined {
  const { body } = part;
  if (!body) return undefined;
  const length = body.form === 'box' ? body[axis] : body.axis === axis ? body.length : body.diameter;
  const { tolerance } = length;
  const what = `body ${axis}`;
  if (tolerance?.upperMm !== undefined && tolerance.lowerMm !== undefined)
    return { what, by: 'drawn', halfMm: (tolerance.upperMm - tolerance.lowerMm) / 2, source: WRITTEN };
  const half = generalHalf(length.mm, part);
  return half && half.halfMm > 0 ? { what, by: 'drawn', ...half } : undefined;
}

/** The links between two, in order; undefined where one of them is not known. */
export function chainBetween(a: Dimensioned, b: Dimensioned, axis: Axis, part: Part): readonly Link[] | undefined {
  const own = [...(a.link ? [a.link] : []), ...(b.link ? [b.link] : [])];
  // Two on the middle do not depend on where that is.
  if (a.from === 'middle' && b.from === 'middle') return [];
  if (a.from === b.from) return own;
  const size = sizeLink(axis, part);
  if (!size) return undefined;
  // From the middle to either face lies half of the body, which its own link counts already.
  return a.from === 'middle' || b.from === 'middle' ? own : [...own, size];
}
