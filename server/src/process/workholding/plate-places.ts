/** How work could stand against an angle plate: each side against it, two clamps opposite, so far out above it. */
import type { Box } from '../../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { FACE_AXIS, FACE_PLANE, FACES, type Face, OPPOSITE } from '../../model/model';
import type { AnglePlate } from '../../model/shop-model';

/** In the plane of the face that is pressed, mm along its two part axes. */
interface Spot {
  readonly u: number;
  readonly v: number;
}

interface Standing {
  readonly against: Face;
  readonly clamps: readonly Spot[];
  /** Left out: as it stands on the table. */
  readonly outMm?: number;
}

/** Heights of two clamps, as shares of what of the work lies against the plate; of two side by side. */
const LOW_HIGH = [0.25, 0.75] as const;
const SIDE_BY_SIDE = { along: [0.2, 0.8], high: 0.5 } as const;
/** A strap's width, and room between two. */
const STRAP_MM = 25;

/**
 * Each side against the plate, the widest first; two clamps one above the other, or side by side where it is wide. On the
 * table, or no more than `outMm` out above the plate: then it may hang over an edge of the table.
 */
export function againstPlate(plate: AnglePlate, box: Box, up: Face, outMm: number): readonly Standing[] {
  const upAxis = AXIS_INDEX[FACE_AXIS[up].axis];
  const { sign } = FACE_AXIS[up];
  const highest = sign > 0 ? box.max[upAxis] : box.min[upAxis];
  const size = (i: AxisIndex) => box.max[i] - box.min[i];
  const across = (f: Face) => size(AXIS_INDEX[FACE_AXIS[f].axis]);
  const stands = size(upAxis) - plate.heightMm;
  const outs = stands > outMm ? [outMm] : [undefined];
  return FACES.filter((f) => FACE_AXIS[f].axis !== FACE_AXIS[up].axis)
    .toSorted((a, b) => across(a) - across(b))
    .flatMap((against) =>
      outs.flatMap((out): Standing[] => {
        const top = Math.max(0, out ?? stands);
        const lies = Math.min(size(upAxis) - top, plate.heightMm);
        const along = (3 - upAxis - AXIS_INDEX[FACE_AXIS[against].axis]) as AxisIndex;
        const first = AXIS_INDEX[FACE_PLANE[OPPOSITE[against]][0]] === along;
        const spot = (x: number, share: number): Spot => {
          const h = rounded(highest - sign * (top + (1 - share) * lies));
          const a = rounded(box.min[along] + x * size(along));
          return first ? { u: a, v: h } : { u: h, v: a };
        };
        const base = { against, ...(out !== undefined && { outMm: out }) };
        const one = { ...base, clamps: LOW_HIGH.map((share) => spot(0.5, share)) };
        const two = { ...base, clamps: SIDE_BY_SIDE.along.map((x) => spot(x, SIDE_BY_SIDE.high)) };
        return [
          ...(lies * (LOW_HIGH[1] - LOW_HIGH[0]) > STRAP_MM ? [one] : []),
          ...(size(along) > 2 * STRAP_MM ? [two] : []),
        ];
      }),
    );
}

function rounded(mm: number): number {
  return Math.round(mm * 2) / 2;
}
