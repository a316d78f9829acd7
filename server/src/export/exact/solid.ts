/** The finished part as an exact solid: the body less all that its features remove. */
import { bodyPrism } from '../../geometry/solid/body';
import type { BodyShape, Void } from '../../geometry/types';
import { tidied } from './boolean';
import { cutFrom, type Expected } from './cut';
import { ExactError, inRoom, type Oc, type Room, type Shape } from './kernel';
import { volumeOf } from './volume';

/** What the exact solid is made from: plain data, which may come from another thread. */
export interface Cuttings {
  readonly body: BodyShape;
  readonly voids: readonly Void[];
  /** Spares the kernel a second way of cutting where the first comes to it. */
  readonly expected?: Expected;
}

/** The caller deletes what is answered. Throws `ExactError`. */
export function exactSolid(oc: Oc, { body, voids, expected }: Cuttings): Shape {
  return inRoom(oc, 'cutting the part', (room) => {
    const block = volumeOf(room, bodyPrism(body));
    const cutters = voids.map((v) => ({ shape: drawn(room, v), bounds: v.bounds }));
    return cutters.length === 0 ? block : tidied(room, cutFrom(room, block, cutters, expected));
  });
}

function drawn(room: Room, v: Void): Shape {
  try {
    return volumeOf(room, v);
  } catch (error) {
    if (!(error instanceof Error)) throw error;
    throw new ExactError(`${named(v)} could not be drawn exactly: ${error.message}.`);
  }
}

function named({ role, feature, member }: Void): string {
  return `The ${role} of \`${feature}${member > 0 ? `[${member}]` : ''}\``;
}
