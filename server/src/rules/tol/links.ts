/**
 * How a feature is dimensioned along an axis: from which face, how far, and within what; and the chain of such links
 * between two features. Worst case is the sum of the links' ±, the likely case the root of the sum of their squares.
 */
import { generalLinear, parseGeneralTolerance } from '../../reference/general-tolerances';
import { type Axis, FACE_AXIS, type Face, type Part } from '../../spec/model';
import { parseDimension } from '../../text/dimension';
import { mmPer } from '../../text/format';
import { toleranceLimits } from '../../text/tolerance';
import { at, type MapEntry, type TextTree } from '../../text/tree';
import { coordinate, featureNode } from '../edits';

export interface Link {
  /** `bore from left`, `body x`. */
  readonly what: string;
  readonly nominalMm: number;
  /** ±, mm. */
  readonly halfMm: number;
}

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

const LOW: Readonly<Record<Axis, Face>> = { x: 'left', y: 'front', z: 'bottom' };
const HIGH: Readonly<Record<Axis, Face>> = { x: 'right', y: 'back', z: 'top' };

/** Undefined where the text does not say in a way that can be followed, or where no tolerance is known. */
export function dimensioned(name: string, axis: Axis, part: Part, tree: TextTree): Dimensioned | undefined {
  const size = part.size['xyz'.indexOf(axis)]!;
  if (name === LOW[axis]) return { name, atMm: 0, from: LOW[axis] };
  if (name === HIGH[axis]) return { name, atMm: size, from: HIGH[axis] };
  const feature = part.featureByName.get(name);
  const node = feature && at(featureNode(tree, name), 'at');
  if (!feature || feature.places.length === 0 || node?.type !== 'map') return undefined;
  if (FACE_AXIS[feature.face].axis === axis) return undefined;
  const entry = coordinate(node, axis);
  if (entry?.value?.type !== 'scalar') return undefined;
  const index = ['x', 'y', 'z'].filter((a) => a !== FACE_AXIS[feature.face].axis).indexOf(axis);
  const places = feature.places.map((p) => (index === 0 ? p.u : p.v));
  const atMm = places.reduce((sum, p) => sum + p, 0) / places.length;
  const source = entry.value.source;
  if (source === 'center') {
    const body = sizeLink(axis, part);
    if (!body) return undefined;
    const link = { what: `half of the body’s ${axis}`, nominalMm: size / 2, halfMm: body.halfMm / 2 };
    return { name, atMm, from: 'middle', link, entry };
  }
  const key = String(entry.key.value);
  const from = key === HIGH[axis] ? HIGH[axis] : LOW[axis];
  const nominalMm = from === HIGH[axis] ? size - atMm : atMm;
  const halfMm = halfOf(source, nominalMm, part);
  return halfMm === undefined
    ? undefined
    : { name, atMm, from, link: { what: `${name} from ${from}`, nominalMm, halfMm }, entry };
}

/** ± of a dimension as written, or by the part's general tolerance. */
function halfOf(source: string, nominalMm: number, part: Part): number | undefined {
  const parsed = parseDimension(source);
  const tolerance = parsed.ok ? parsed.dimension.tolerance : undefined;
  if (tolerance?.type === 'limits') {
    const limits = toleranceLimits(tolerance, 'length', mmPer(part.units));
    return limits.ok ? (limits.upper - limits.lower) / 2 : undefined;
  }
  const general = part.tolerance && parseGeneralTolerance(part.tolerance.name);
  return general ? (generalLinear(Math.abs(nominalMm), general.linear)?.value ?? 0) : undefined;
}

/** The body's own size along an axis, as a link. */
export function sizeLink(axis: Axis, part: Part): Link | undefined {
  const { body } = part;
  if (!body) return undefined;
  const length = body.form === 'box' ? body[axis] : body.axis === axis ? body.length : body.diameter;
  const { tolerance } = length;
  if (tolerance?.upperMm !== undefined && tolerance.lowerMm !== undefined)
    return { what: `body ${axis}`, nominalMm: length.mm, halfMm: (tolerance.upperMm - tolerance.lowerMm) / 2 };
  const general = part.tolerance && parseGeneralTolerance(part.tolerance.name);
  const half = general && generalLinear(length.mm, general.linear)?.value;
  return half === undefined ? undefined : { what: `body ${axis}`, nominalMm: length.mm, halfMm: half };
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

export function worstCase(chain: readonly Link[]): number {
  return chain.reduce((sum, l) => sum + l.halfMm, 0);
}
export function likelyCase(chain: readonly Link[]): number {
  return Math.hypot(...chain.map((l) => l.halfMm));
}
