/**
 * Two pieces in one vise, one beside the other along the jaws. The one that is looked at is the first: the second lies as far
 * on as the first is long and the gap between them wide, on the side away from the stop. Each bears half of the force.
 */
import type { Box } from '../../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { FACE_AXIS, FACES, type Face, type Hold, type Setup } from '../../model/model';
import { boxLeft } from '../stock/in-process-stock';
import type { InVise, Obstacle, Seating, Span1 } from './seating-types';

type Base = Omit<Seating, 'held' | 'obstacles' | 'avoided'>;

/** How far along the part's axis the second lies; undefined where there is one piece. */
export function secondMm({ of: { setup }, box }: Base, hold: Hold, along: AxisIndex): number | undefined {
  if (!hold.pieces) return undefined;
  return awayFrom(setup, hold, along) * (box.max[along] - box.min[along] + hold.pieces.gapMm);
}

/** Away from the stop; without one from the end that is put in by a rule, else from where zero is. */
function awayFrom({ zero }: Setup, { stop, overhang }: Hold, along: AxisIndex): 1 | -1 {
  const axis = (['x', 'y', 'z'] as const)[along];
  const names = [stop?.name, overhang?.face, zero[axis]?.name];
  const end = names.map((n) => FACES.find((f) => f === n)).find((f) => f && AXIS_INDEX[FACE_AXIS[f].axis] === along);
  return end && FACE_AXIS[end].sign > 0 ? -1 : 1;
}

/** Where a place near this end of the work is on the piece that lies there. */
export function onOuter(face: Face, at: number, second: number | undefined): number {
  return second !== undefined && FACE_AXIS[face].sign === Math.sign(second) ? at + second : at;
}

/** From the first end of both to the last. */
export function bothOf([from, to]: Span1, second = 0): Span1 {
  return [Math.min(from, from + second), Math.max(to, to + second)];
}

/** How much of each piece is between the jaws along them, mm: of the first, of the second. */
export function inJawsMm({
  jawFromMm,
  jawToMm,
  workFromMm,
  workToMm,
  secondMm = 0,
}: InVise): readonly [number, number] {
  const of = (by: number) => Math.min(jawToMm, workToMm + by) - Math.max(jawFromMm, workFromMm + by);
  return [of(0), of(secondMm)];
}

/**
 * The second piece, as long and wide as it was put in, and no higher than it is afterwards: what is faced goes from both at
 * one height.
 */
export function neighbour({ of, box, upAxis, upSign }: Base, { alongAxis, secondMm: by }: InVise): readonly Obstacle[] {
  if (by === undefined) return [];
  const after = boxLeft(of.after);
  const low = [...box.min] as [number, number, number];
  const high = [...box.max] as [number, number, number];
  if (upSign > 0) high[upAxis] = Math.min(high[upAxis], after.max[upAxis]);
  else low[upAxis] = Math.max(low[upAxis], after.min[upAxis]);
  return [moved({ what: 'other piece', box: { min: low, max: high }, on: [0, 0, 0] }, alongAxis, by)];
}

/** All that stands round either of the pieces: round the second it is that much nearer to where the first lies, which is its neighbour. */
export function avoidedBy(obstacles: readonly Obstacle[], held: InVise | undefined): readonly Obstacle[] {
  const { alongAxis, secondMm: by } = held ?? {};
  if (by === undefined || alongAxis === undefined) return obstacles;
  return [...obstacles, ...obstacles.map((o) => moved(o, alongAxis, o.what === 'other piece' ? -2 * by : -by))];
}

function moved({ what, box, on }: Obstacle, along: AxisIndex, by: number): Obstacle {
  const at = (p: Box['min']): Box['min'] => {
    const q = [...p] as [number, number, number];
    q[along] += by;
    return q;
  };
  return { what, box: { min: at(box.min), max: at(box.max) }, ...(on && { on: at(on) }) };
}
