/** The finished part as an exact solid: the body less all that its features remove. */
import { bodyPrism } from '../../geometry/body';
import type { Prism } from '../../geometry/prism';
import type { BodyShape, Void } from '../../geometry/types';
import { isValid, less, tidied } from './boolean';
import { ExactError, inRoom, type Oc, type Room, type Shape } from './kernel';
import { volumeOf } from './volume';

/** What the exact solid is made from: plain data, which may come from another thread. */
export interface Cuttings {
  readonly body: BodyShape;
  readonly voids: readonly Void[];
}

/** The caller deletes what is answered. Throws `ExactError`. */
export function exactSolid(oc: Oc, { body, voids }: Cuttings): Shape {
  return inRoom(oc, 'cutting the part', (room) => {
    const block = volumeOf(room, bodyPrism(body));
    const cutters = voids.map((v) => ({ of: v, shape: drawn(room, v) }));
    return cutters.length === 0 ? block : tidied(room, cut(room, block, cutters));
  });
}

/** One removed volume, or the body, alone. The caller deletes it. */
export function exactVolume(oc: Oc, prism: Prism): Shape {
  return inRoom(oc, 'drawing a volume', (room) => volumeOf(room, prism));
}

interface Cutter {
  readonly of: Void;
  readonly shape: Shape;
}

function drawn(room: Room, v: Void): Shape {
  try {
    return volumeOf(room, v);
  } catch (error) {
    if (!(error instanceof Error)) throw error;
    throw new ExactError(`${named(v)} could not be drawn exactly: ${error.message}.`);
  }
}

/** All at once, which is quickest; where that does not come out whole, one after the other, naming the one that fails. */
function cut(room: Room, block: Shape, cutters: readonly Cutter[]): Shape {
  const shapes = cutters.map((c) => c.shape);
  try {
    const whole = less(room, block, shapes);
    if (isValid(room, whole)) return whole;
  } catch (error) {
    if (error instanceof Error && error.name === 'RuntimeError') throw error;
  }
  let left = block;
  for (const { of, shape } of cutters) {
    try {
      left = less(room, left, [shape]);
    } catch (error) {
      if (error instanceof Error && error.name === 'RuntimeError') throw error;
      throw new ExactError(`${named(of)} could not be cut from the body exactly; move or resize it a little.`);
    }
    if (!isValid(room, left))
      throw new ExactError(`${named(of)} leaves a boundary that is not sound; move or resize it a little.`);
  }
  return left;
}

function named({ role, feature, member }: Void): string {
  return `The ${role} of \`${feature}${member > 0 ? `[${member}]` : ''}\``;
}
