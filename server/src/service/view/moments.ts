/** The workpiece at a moment of its set-ups, and each set-up as it is drawn: what holds the work, and where zero is. */
import type { Solid, Vec3 } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { FACE_AXIS, FACES, type Part } from '../../model/model';
import { boxLeft, timelineOf } from '../../process/stock';
import type { SetupInTime, Workpiece } from '../../process/stock/types';
import { type Seating, seatingOf } from '../../process/workholding/seating';
import { rangeOf } from '../lsp';
import type { PartSnapshot } from '../snapshot';
import { cuttersOf } from './cutters';
import type { Moment, PictureSetup } from './protocol';

/** Undefined where there is no such set-up. */
export function workAt(part: Part, solid: Solid, { setup, when }: Moment): Workpiece | undefined {
  return timelineOf(part, solid).setups[setup]?.[when];
}

/** `shown`: which of them the picture shows, whose tools are told too. */
export function setupsOf(snapshot: PartSnapshot, shown?: number): PictureSetup[] {
  const { part, solid, shop } = snapshot.checked;
  return timelineOf(part, solid).setups.map((made) => {
    const { setup } = made;
    const seating = seatingOf(made, part, shop);
    const around = seating?.obstacles.map(({ what, box }) => ({ what, ...box }));
    const cutters = made.index === shown ? cuttersOf(made, part, solid, shop) : [];
    const zero = seating && zeroOf(made, seating, part, solid);
    return {
      name: setup.name,
      ...(setup.up ? { up: setup.up.name } : {}),
      cuts: setup.cuts.map((c) => c.name),
      range: rangeOf(snapshot, setup.whole),
      ...(around && around.length > 0 ? { around } : {}),
      ...(zero ? { zero } : {}),
      ...(cutters.length > 0 ? { cutters } : {}),
    };
  });
}

/** Set from faces as they are when the set-up begins, from the axis of a feature, or from what the work lies on. */
function zeroOf({ setup, before }: SetupInTime, seating: Seating, part: Part, solid: Solid): Vec3 | undefined {
  const box = boxLeft(before);
  const at = (['x', 'y', 'z'] as const).map((axis) => {
    const name = setup.zero[axis]?.name;
    const i = AXIS_INDEX[axis];
    if (name === undefined) return undefined;
    if (name === 'parallels') return seating.upAxis === i ? seating.lowestMm : undefined;
    const face = FACES.find((f) => f === name);
    if (face) {
      if (FACE_AXIS[face].axis !== axis) return undefined;
      return FACE_AXIS[face].sign > 0 ? box.max[i] : box.min[i];
    }
    const feature = part.featureByName.get(name);
    const first = feature && solid.voidsOf(feature.name)[0];
    return first && (first.bounds.min[i] + first.bounds.max[i]) / 2;
  });
  const [x, y, z] = at;
  return x === undefined || y === undefined || z === undefined ? undefined : [x, y, z];
}
