/** A blank round the part that is cut from it: what another part's finished body lacks of its outside, in this part's axes. */
import { memo } from '../memo';
import { type Turn, turnedSize } from '../model/blank';
import type { Blank, Part } from '../model/model';
import { solidOf } from './part-solid';
import { boundsOf } from './solid/prism';
import { neverThere, stockBody } from './solid/stock-body';
import type { Solid, Vec3, Void } from './types';

type Sized = Pick<Part, 'body' | 'size' | 'stock'>;

/** What the workpiece begins without: the hollow of a bar's section, or all that was cut from a blank. */
export function lackingAtFirst(part: Sized): readonly Void[] {
  const { blank } = part.stock;
  return blank ? laid(blank, stockBody(part).box.min) : neverThere(part);
}

/** The blank as its own text has it. */
export function blankSolid({ part }: Blank): Solid {
  return solidOfBlank(part);
}

const solidOfBlank = memo((part: Part): Solid => solidOf(part));

const laid = memo(
  (blank: Blank, corner: Vec3): readonly Void[] => {
    const place = placed(blank.turn, turnedSize(blank.turn, blank.part.size), corner);
    return blankSolid(blank).voids.map((v): Void => {
      const { u, v: across, w, origin } = v.frame;
      const frame = { origin: place.point(origin), u: place.way(u), v: place.way(across), w: place.way(w) };
      // No feature of this part has a space in its name.
      const feature = `${v.feature} of the blank`;
      return { ...v, feature, frame, bounds: boundsOf(frame, v.region, v.from, v.to, v.profile) };
    });
  },
  { size: 3, by: (_, corner) => [...corner] },
);

/** From the blank's own axes to those of the part round which it lies, its least corner at `corner`. */
function placed(turn: Turn, size: Vec3, corner: Vec3) {
  const point = (p: Vec3): Vec3 =>
    turn.map(({ axis, sign }, i) => corner[i]! + (sign > 0 ? p[axis] : size[i]! - p[axis])) as unknown as Vec3;
  // Minus nothing is told apart from nothing where numbers are compared by identity.
  const way = (d: Vec3): Vec3 => turn.map(({ axis, sign }) => sign * d[axis] || 0) as unknown as Vec3;
  return { point, way };
}
