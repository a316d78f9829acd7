/** Where the holes of a joint may be: by their position tolerances, else by what the dimensions of their pattern leave. */
import { featureNameOf } from '../../model/member-name';
import { FACE_PLANE, type GeometricTolerance, type Length } from '../../model/model';
import { zoneAtSizeMm } from '../../tables/position';
import { tolerancedOf } from '../stackup/toleranced';
import { holeLimits } from '../tolerances/fastener';
import { generalHalfMm } from '../tolerances/limits';
import { type Layer, spotsOf } from './layers';

export interface Zone {
  /** The width of a round zone; of dimensions, what the distance of two holes may be off, which takes as much of the play. */
  readonly mm: number;
  /** `position`: by a position tolerance. */
  readonly by: 'position' | 'dimensions';
  readonly of?: Length;
  /** How far above the face the zone counts, where it is projected. */
  readonly projectedMm?: number;
  /** What it grows by until the hole is as large as it may be, where it is given at maximum material. */
  readonly bonusMm?: number;
  /** `ISO 2768-m`. */
  readonly how: string;
}

/** Undefined where nothing limits them. */
export function zoneOf(layer: Layer): Zone | undefined {
  const { part } = layer.piece;
  const names = new Set(layer.holes.map((h) => h.hole.name));
  const positions = part.tolerances.filter(
    (t) => t.characteristic === 'position' && t.of.some((n) => names.has(featureNameOf(n.name))),
  );
  const covered = [...names].every((name) => positions.some((t) => t.of.some((n) => featureNameOf(n.name) === name)));
  if (positions.length > 0 && covered) {
    const widest = positions.reduce((a, b) => (b.value.mm > a.value.mm ? b : a));
    return ofPosition(widest, layer);
  }
  return byDimensions(layer);
}

function ofPosition(widest: GeometricTolerance, { holes, piece }: Layer): Zone {
  const { value, projected, maximumMaterial } = widest;
  const grown = holes.map(({ hole }) => {
    const { leastMm, mostMm } = holeLimits(hole, piece.part);
    return zoneAtSizeMm(value.mm, leastMm, mostMm) - value.mm;
  });
  const words = [`position ${value.text}`, ...(maximumMaterial ? ['at maximum material'] : [])];
  return {
    mm: value.mm,
    by: 'position',
    of: value,
    ...(projected && { projectedMm: projected.mm }),
    ...(maximumMaterial && { bonusMm: Math.max(0, ...grown) }),
    how: [...words, ...(projected ? [`projected ${projected.text}`] : [])].join(' '),
  };
}

/** The most that the distance of two of them may be off along both axes. */
function byDimensions(layer: Layer): Zone | undefined {
  const { part } = layer.piece;
  const written = writtenPitch(layer);
  const spots = spotsOf(layer);
  let most = 0;
  for (const [i, p] of spots.entries()) {
    for (const q of spots.slice(i + 1)) {
      const along = [Math.abs(p.u - q.u), Math.abs(p.v - q.v)];
      const off = along.map((mm, k) => {
        if (mm < LEAST_MM) return 0;
        return written?.[k]?.(mm) ?? generalHalfMm(mm, part);
      });
      if (off.some((mm) => mm === undefined)) return undefined;
      most = Math.max(most, Math.hypot(off[0]!, off[1]!));
    }
  }
  const how = written ? 'its pitch' : part.tolerance?.name;
  return how === undefined ? undefined : { mm: most, by: 'dimensions', how };
}
/** Nothing is dimensioned that short. */
const LEAST_MM = 0.5;

type Off = (mm: number) => number;

/** ± of a distance of so many pitches, along each of the two axes, of one pattern with a toleranced pitch. */
function writtenPitch({ holes, piece }: Layer): readonly (Off | undefined)[] | undefined {
  const [first] = holes;
  if (!first || holes.some((h) => h.hole !== first.hole)) return undefined;
  const all = [...tolerancedOf(piece.part)].filter(
    (t) => t.given === 'pitch' && featureNameOf(t.ends[0]) === first.hole.name,
  );
  if (all.length === 0) return undefined;
  const axes = FACE_PLANE[first.hole.face];
  return axes.map((axis) => {
    const pitch = all.find((t) => t.axis === axis);
    return pitch && ((mm: number) => (mm / pitch.nominalMm) * pitch.allowedMm);
  });
}
