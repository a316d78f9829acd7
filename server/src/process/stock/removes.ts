/** What one cut of a feature or a face takes from the stock, with a face up: one answer for check, plan, picture and times. */

import type { BodyShape, Solid, Void } from '../../geometry/types';
import { AXIS_INDEX, sharedBox } from '../../geometry/vector';
import { memo } from '../../memo';
import { FACE_AXIS, type Face, type Feature, OPPOSITE, type Part } from '../../model/model';
import { approachesOf } from '../approach';
import { boxWithin } from './band';
import { carriedOn, isCutFrom } from './extend-to-stock';
import { facingOf } from './facing';

import { above, stopAt } from './partial';
import { excessOver, NOTHING_MM } from './stock';
import type { Share, Stop, Workpiece } from './types';

/** `up` left out: cut from its own face. `share` left out: all of it. */
export function removedBy(
  what: Feature | Face,
  up: Face | undefined,
  share: Share | undefined,
  before: Workpiece,
  solid: Solid,
): readonly Void[] {
  const stock = before.body;
  // Nothing is left below the part that would hold it: a mill's side then goes on through what hangs beside that.
  const down = up && typeof what === 'string' && share === undefined && isClearBelow(before, up, solid.body);
  const all =
    typeof what === 'string'
      ? facingOf(what, down ? undefined : up, stock, solid.body)
      : ownOf(what, up, solid).flatMap((v) => carriedOn(v, stock, solid.body, up));
  if (!up || share === undefined || all.length === 0) return all;
  const { at } = stopOf(what, up, share, stock, solid);
  return all.flatMap((v) => above(v, up, at));
}

/** No stock stands under the finished body. */
const isClearBelow = memo(
  (before: Workpiece, up: Face, body: BodyShape): boolean => {
    const below = OPPOSITE[up];
    if (excessOver(below, before.body, body) === 0) return true;
    const { axis, sign } = FACE_AXIS[below];
    const i = AXIS_INDEX[axis];
    const min: [number, number, number] = [...body.box.min];
    const max: [number, number, number] = [...body.box.max];
    if (sign > 0) [min[i], max[i]] = [body.box.max[i], before.body.box.max[i]];
    else [min[i], max[i]] = [before.body.box.min[i], body.box.min[i]];
    const left = boxWithin(before, { min, max });
    return left.max[i] - left.min[i] < NOTHING_MM;
  },
  { size: 6 },
);

/** Where a share of it stops. */
export function stopOf(what: Feature | Face, up: Face, share: Share, stock: BodyShape, solid: Solid): Stop {
  const { body } = solid;
  if (typeof what !== 'string')
    return stopAt(
      ownOf(what, up, solid).map((v) => sharedBox(v.bounds, body.box, 0)),
      up,
      share,
    );
  const slab = what === up ? facingOf(what, up, stock, body)[0] : undefined;
  return stopAt([slab?.bounds ?? body.box], up, share);
}

function ownOf(feature: Feature, up: Face | undefined, solid: Solid): readonly Void[] {
  return solid.voidsOf(feature.name).filter((v) => !up || isCutFrom(v, up));
}

/** All of it is got at with this face up and with the opposite one: then each can take half. */
export function isCutFromBoth(what: Feature | Face, up: Face, of: Part, solid: Solid): boolean {
  if (typeof what === 'string') return FACE_AXIS[what].axis !== FACE_AXIS[up].axis;
  const other = OPPOSITE[up];
  const faces = approachesOf(what, of, solid);
  return (
    faces.includes(up) &&
    faces.includes(other) &&
    solid.voidsOf(what.name).every((v) => isCutFrom(v, up) && isCutFrom(v, other))
  );
}
