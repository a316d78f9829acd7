/**
 * The chain as drawn: how a feature is dimensioned along an axis (from which face, how far, and within what), and the
 * links of such dimensions between two features.
 */

import {
  type Axis,
  type Coordinate,
  FACE_PLANE,
  type Face,
  type Feature,
  type Length,
  type Part,
} from '../../model/model';
import { generalLinear, parseGeneralTolerance } from '../../tables/general-tolerances';
import type { Link } from './types';

export interface Dimensioned {
  readonly name: string;
  /** Coordinate along the axis, mm. */
  readonly atMm: number;
  /** What it is measured from: one of the two faces across the axis; `middle` for `center`. */
  readonly from: Face | 'middle';
  /** Absent for a face itself. */
  readonly link?: Link;
  /** What says where; absent for a face. */
  readonly written?: Coordinate;
}

export const LOW: Readonly<Record<Axis, Face>> = { x: 'left', y: 'front', z: 'bottom' };
export const HIGH: Readonly<Record<Axis, Face>> = { x: 'right', y: 'back', z: 'top' };

/** What the `at` of a feature says along an axis, where it has one. */
export function coordinateOf({ face, places, pattern }: Feature, axis: Axis): Coordinate | undefined {
  return pattern?.type === 'places' ? undefined : places[0]?.written?.[FACE_PLANE[face].indexOf(axis)];
}

/** The middle of a feature's places along an axis of its face, mm. */
export function middleAlong({ face, places }: Feature, axis: Axis): number {
  const of = FACE_PLANE[face][0] === axis ? 'u' : 'v';
  return places.reduce((sum, p) => sum + p[of], 0) / places.length;
}

/** Undefined where the part does not say in a way that can be followed, or where no tolerance is known. */
export function dimensioned(name: string, axis: Axis, part: Part): Dimensioned | undefined {
  const size = part.size['xyz'.indexOf(axis)]!;
  if (name === LOW[axis]) return { name, atMm: 0, from: LOW[axis] };
  if (name === HIGH[axis]) return { name, atMm: size, from: HIGH[axis] };
  const feature = part.featureByName.get(name);
  const written = feature && coordinateOf(feature, axis);
  if (!written) return undefined;
  const atMm = middleAlong(feature, axis);
  if (written.length.text === 'center') {
    const body = sizeLink(axis, part);
    if (!body) return undefined;
    const link = { ...body, what: `half of the body’s ${axis}`, halfMm: body.halfMm / 2 };
    return { name, atMm, from: 'middle', link, written };
  }
  const from = written.key === HIGH[axis] ? HIGH[axis] : LOW[axis];
  const half = halfOf(written.length, from === HIGH[axis] ? size - atMm : atMm, part);
  return half && { name, atMm, from, link: { what: `${name} from ${from}`, by: 'drawn', ...half }, written };
}

type Half = Pick<Link, 'halfMm' | 'source'>;
const WRITTEN = 'as written';

/** ± of a dimension as written, or by the part's general tolerance. */
function halfOf({ tolerance, text }: Length, nominalMm: number, part: Part): Half | undefined {
  if (tolerance?.upperMm === undefined || tolerance.lowerMm === undefined) return generalHalf(nominalMm, part, text);
  return { halfMm: (tolerance.upperMm - tolerance.lowerMm) / 2, source: WRITTEN };
}

function generalHalf(nominalMm: number, part: Part, text?: string): Half | undefined {
  const general = part.tolerance && parseGeneralTolerance(part.tolerance.name);
  if (!general || !part.tolerance) return undefined;
  return { halfMm: generalLinear(Math.abs(nominalMm), general.linear, text)?.value ?? 0, source: part.tolerance.name };
}

/** The body's own size along an axis, as a link. */
function sizeLink(axis: Axis, part: Part): Link | undefined {
  const { body } = part;
  if (!body) return undefined;
  const length = body.form === 'box' ? body[axis] : body.axis === axis ? body.length : body.diameter;
  const half = halfOf(length, length.mm, part);
  return half && half.halfMm > 0 ? { what: `body ${axis}`, by: 'drawn', ...half } : undefined;
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
