/** Along which axes zero must be found anew for each piece of a batch: where neither stop, fixed jaw nor parallels places it. */
import { type Axis, FACE_AXIS, type Face, OPPOSITE, type Setup } from '../../model/model';

const AXES: readonly Axis[] = ['x', 'y', 'z'];

export function axesTouched({ zero, hold, up, method, cuts }: Setup): readonly Axis[] {
  return AXES.filter((axis) => {
    const from = zero[axis]?.name;
    if (from === undefined || from === 'parallels') return false;
    // A method is told for every piece, unless it is the stop itself.
    if (method && method.name !== 'stop') return true;
    // What the cutter mills first it always leaves as far from the stop.
    const stop = hold?.stop && FACE_AXIS[hold.stop.name as Face]?.axis;
    if (stop === axis && cuts.some((c) => c.name === from)) return false;
    const placed: readonly (string | undefined)[] = [
      hold?.stop?.name,
      hold?.jaws?.[0]?.name,
      // What it lies on stays where it is.
      up && OPPOSITE[up.name],
    ];
    return !placed.includes(from) && !(from in FACE_AXIS && FACE_AXIS[from as Face].axis !== axis);
  });
}
