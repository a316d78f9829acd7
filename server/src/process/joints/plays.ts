/** Fits by their limits: the most and the least play between an opening and what sits in it. */
import { homeOf } from '../../model/feature-kinds';
import type { FitKind, Shaft } from '../../model/joint-model';
import type { Length, Part } from '../../model/model';
import { limitsOf, type SizeLimits } from '../tolerances/limits';
import { type Found, featureOf, type Piece, type Pieces } from './layers';

export interface Play {
  /** Negative: pressed in by so much. Undefined where the limits of one of the two are not known. */
  readonly leastMm: number | undefined;
  readonly mostMm: number | undefined;
  readonly nominalMm: number;
  readonly outer: SizeLimits | undefined;
  readonly inner: SizeLimits | undefined;
}

export function playOf(outer: Sized, inner: Sized): Play {
  const [o, i] = [limitsOf(outer.length, outer.part), limitsOf(inner.length, inner.part)];
  return {
    leastMm: o && i && o.leastMm - i.mostMm,
    mostMm: o && i && o.mostMm - i.leastMm,
    nominalMm: outer.length.mm - inner.length.mm,
    outer: o,
    inner: i,
  };
}

/** By ISO 286: always play, always interference, or as it comes out. Undefined where the limits are not known. */
export function kindOf({ leastMm, mostMm }: Pick<Play, 'leastMm' | 'mostMm'>): FitKind | undefined {
  if (leastMm === undefined || mostMm === undefined) return undefined;
  return leastMm >= -TRACE ? 'clearance' : mostMm <= TRACE ? 'interference' : 'transition';
}
/** A tenth of a micrometre: two limits that are the same. */
const TRACE = 1e-4;

/** A size with whose general tolerance it has. */
export interface Sized {
  readonly length: Length;
  readonly part?: Part;
}

/** The round opening that a joint names, its diameter; undefined where it is none. */
export function boreOf(found: Found): Sized | undefined {
  if (!found.ok) return undefined;
  const { feature, piece } = found;
  const part = piece.part;
  if (feature.kind === 'hole') return { length: feature.diameter, part };
  const round = homeOf(feature)
    .shapes(feature)
    .find((s) => s.type === 'circle');
  return round?.type === 'circle' ? { length: round.diameter, part } : undefined;
}

/** The sides of a rectangular opening, long one first, and the radius of its corners. */
export function sidesOf(
  found: Found,
): { readonly long: Sized; readonly short: Sized; readonly cornerMm: number } | undefined {
  if (!found.ok) return undefined;
  const { feature, piece } = found;
  const shape = homeOf(feature)
    .shapes(feature)
    .find((s) => s.type === 'rectangle');
  if (shape?.type !== 'rectangle') return undefined;
  const [long, short] = shape.u.mm >= shape.v.mm ? [shape.u, shape.v] : [shape.v, shape.u];
  return {
    long: { length: long, part: piece.part },
    short: { length: short, part: piece.part },
    cornerMm: shape.cornerRadius.mm,
  };
}

/** What sits in an opening: a size of the job's own, a round outline that stays, or a round body. */
export function shaftOf(shaft: Shaft, pieces: Pieces): Sized | undefined {
  if ('size' in shaft) return { length: shaft.size };
  const { piece, feature } = shaft.of;
  const of = pieces.get(piece.name);
  if (of && feature.name === 'body') {
    const { body } = of.part;
    return body?.form === 'round' ? { length: body.diameter, part: of.part } : undefined;
  }
  const found = featureOf(shaft.of, pieces);
  if (!found.ok || found.feature.kind !== 'contour') return undefined;
  const round = found.feature.shapes.find((s) => s.type === 'circle');
  return round?.type === 'circle' ? { length: round.diameter, part: found.piece.part } : undefined;
}

/** How deep an opening is, where its text says so. */
export function depthIn(found: Found): Sized | undefined {
  if (!found.ok || !('depth' in found.feature)) return undefined;
  const length = found.feature.depth?.length;
  return length && { length, part: found.piece.part };
}

/** A size of the body, `yoke.z`. */
export function bodySize({ part }: Piece, name: string): Sized | undefined {
  const { body } = part;
  if (!body || !(name === 'x' || name === 'y' || name === 'z')) return undefined;
  const length = body.form === 'box' ? body[name] : body.axis === name ? body.length : body.diameter;
  return { length, part };
}
