/** What a set-up is aligned and zeroed by, and in which state that is then: sawn, with stock still on it, as supplied, or cut. */
import type { Solid } from '../../geometry/types';
import { type Axis, FACE_AXIS, FACES, type Face, type Named, OPPOSITE, type Part } from '../../model/model';
import type { Span } from '../../text/tree';
import { excessOver, timelineOf } from '../stock';
import { facesTakenOff } from '../stock/taken-off';
import type { SetupInTime } from '../stock/types';

export interface Reference {
  readonly face: Face;
  /** `seat`: it lies on it. */
  readonly as: 'seat' | 'fixed jaw' | 'stop' | 'zero';
  readonly axis: Axis;
  readonly span: Span;
}

type FaceState = 'sawn' | 'raw' | 'supplied' | 'cut';

export function isFace(name: string | undefined): name is Face {
  return FACES.includes(name as Face);
}

/** Everything a set-up takes its bearings from that is a face. */
export function referencesOf({ setup, up }: SetupInTime): readonly Reference[] {
  const { hold, zero } = setup;
  const made: Reference[] = [];
  const add = (as: Reference['as'], named: Named | undefined) => {
    if (isFace(named?.name)) made.push({ face: named.name, as, axis: FACE_AXIS[named.name].axis, span: named.span });
  };
  if (up && setup.up) made.push({ face: OPPOSITE[up], as: 'seat', axis: FACE_AXIS[up].axis, span: setup.up.span });
  if (hold?.type === 'vise') add('fixed jaw', hold.jaws?.[0]);
  add('stop', hold?.stop);
  for (const axis of ['x', 'y', 'z'] as const) add('zero', zero[axis]);
  return made;
}

/** How a face is when cut number `order` of a set-up begins (0: when it begins). */
export function stateOf(face: Face, s: SetupInTime, order: number, part: Part, solid: Solid): FaceState {
  const { setups, stock } = timelineOf(part, solid);
  const sawn = setups.findLastIndex((o) => o.index < s.index && o.sawnOff?.face === face);
  // What was milled before the part was sawn off there went with the bar.
  const cut = setups.some(
    (other) =>
      other.index <= s.index &&
      other.index > sawn &&
      other.cuts.some(
        (c) => (other.index < s.index || c.order < order) && (c.face === face || facesTakenOff(c, part).includes(face)),
      ),
  );
  if (cut) return 'cut';
  if (sawn >= 0) return 'sawn';
  if (part.stock.sawn.some((f) => f.name === face)) return 'sawn';
  // As cast it is no flatter than with its allowance on.
  if (part.stock.form === 'casting') return 'raw';
  return excessOver(face, stock.body, solid.body) > 0 ? 'raw' : 'supplied';
}
