/** A set-up as it stands on the machine: which way it is seen, what the work is before and after, what stands round it. */

import type { Drawn } from '../../export/flat/lines';
import { without } from '../../export/flat/slices';
import type { View } from '../../export/flat/view';
import type { Box as Box3, Region } from '../../geometry/types';
import { memo } from '../../memo';
import { FACE_AXIS, FACES, type Face, type Setup } from '../../model/model';
import { timelineOf } from '../../process/stock';
import { type Seating, seatingOf } from '../../process/workholding/seating';
import type { ReadPart } from '../../rules/judging';
import { crossed, inPicture, pictureOf, viewFromAbove, viewFromEnd } from '../view/projected';

export interface Lying {
  readonly seating: Seating;
  /** Away from who stands at the machine, and to the right of that. */
  readonly back: Face;
  readonly right: Face;
  readonly above: Picture | undefined;
  readonly end: Picture | undefined;
}

export interface Picture {
  readonly view: View;
  /** As it is put in, and as it leaves. */
  readonly before: Drawn;
  readonly after: Drawn | undefined;
  /** Outlines of what goes, as far as they stand beyond what stays. */
  readonly gone: readonly Region[];
}

/** Undefined where the text does not say which face is up. */
export function lyingOf(setup: Setup, read: ReadPart): Lying | undefined {
  return lying(setup, read);
}

const lying = memo(
  (setup: Setup, read: ReadPart): Lying | undefined => {
    const { part, solid, shop } = read;
    const then = timelineOf(part, solid).setups.find((s) => s.setup === setup);
    const seating = then && seatingOf(then, part, shop);
    if (!then || !seating) return undefined;
    const back = seating.held?.fixed ?? backOf(seating.up);
    const size = solid.body.box.max;
    const picture = (view: View): Picture | undefined => {
      const before = pictureOf(then.before, view);
      if (!before) return undefined;
      const after = pictureOf(then.after, view);
      const filled = after?.shadow.map(({ outer }) => ({ outer, holes: [] }));
      return { view, before, after, gone: (filled && without(before.shadow, filled)) ?? [] };
    };
    return {
      seating,
      back,
      right: crossed(back, seating.up),
      above: picture(viewFromAbove(seating.up, back, size)),
      end: picture(viewFromEnd(seating.up, back, size)),
    };
  },
  { size: 12 },
);

/** Where nothing says: the part's own back, or its top. */
function backOf(up: Face): Face {
  return FACES.find((f) => f === (FACE_AXIS[up].axis === 'y' ? 'top' : 'back'))!;
}

/** A box of the part's axes as it is seen: u0, v0, u1, v1. */
export function boxInPicture(view: View, { min, max }: Box3): readonly [number, number, number, number] {
  const [p, q] = [inPicture(view, min), inPicture(view, max)];
  return [Math.min(p.u, q.u), Math.min(p.v, q.v), Math.max(p.u, q.u), Math.max(p.v, q.v)];
}
