/** Which of the part's own holes could take screws down into a plate while a lot is cut. */
import { holds } from '../geometry/solid/prism';
import type { Vec3 } from '../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../geometry/vector';
import { FACE_AXIS, FACE_PLANE, type Hole } from '../model/model';
import { stays } from '../process/workholding/loose';
import { headOver } from '../process/workholding/screw-heads';
import type { Item } from './item';
import type { LaidDown } from './poses';
import type { Ask } from './search';
import type { Made, Trial } from './trial';

/** Screws that a plate has threads for: clearance holes of M3 to M12. Common practice, no source. */
const [LEAST_MM, MOST_MM] = [3.2, 14];
/** One alone lets the work turn. */
const LEAST_SCREWS = 2;

/**
 * Names of holes: all that do, one choice; none where they are too few. Holes that are there by then, lie upright and go
 * through, in what stays, with nothing cut where the heads of the screws are.
 */
export function screwings(
  { items, solid }: Trial,
  { done }: Ask<Made>,
  { up }: LaidDown,
  lot: readonly Item[],
): readonly (readonly string[])[] {
  const { axis } = FACE_AXIS[up];
  const [a, b] = FACE_PLANE[up].map((name) => AXIS_INDEX[name]) as [AxisIndex, AxisIndex];
  const cut = lot.flatMap((i) => (i.feature ? solid.voidsOf(i.feature.name) : []));
  const outlines = lot.flatMap((i) => (i.feature?.kind === 'contour' && i.feature.depth.through ? [i.feature] : []));
  const free = (hole: Hole) =>
    hole.places.every((place) => {
      if (!outlines.every((o) => FACE_AXIS[o.face].axis !== axis || stays(o, place))) return false;
      // A head sunk into the work from the face that is up is in nobody's way.
      if (hole.counterbore && hole.face === up) return true;
      const r = headOver(hole, up)?.radiusMm ?? hole.diameter.mm / 2;
      return !cut.some((v) =>
        RING.some(([x, y]) => {
          const p = [0, 1, 2].map((i) => (v.bounds.min[i]! + v.bounds.max[i]!) / 2) as [number, number, number];
          p[a] = place.u + x * r;
          p[b] = place.v + y * r;
          return holds(v, p as Vec3);
        }),
      );
    });
  const holes = items.flatMap(({ index, feature }) =>
    done.has(index) &&
    feature?.kind === 'hole' &&
    feature.depth.through &&
    !feature.thread &&
    !feature.tilt &&
    FACE_AXIS[feature.face].axis === axis &&
    feature.diameter.mm >= LEAST_MM &&
    feature.diameter.mm <= MOST_MM &&
    free(feature)
      ? [feature]
      : [],
  );
  return holes.reduce((n, h) => n + h.places.length, 0) >= LEAST_SCREWS ? [holes.map((h) => h.name)] : [];
}

const RING = [
  [0, 0],
  ...Array.from({ length: 8 }, (_, i) => [Math.cos((i * Math.PI) / 4), Math.sin((i * Math.PI) / 4)]),
].map(([x, y]) => [x!, y!] as const);
