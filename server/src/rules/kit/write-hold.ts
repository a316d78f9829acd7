/** How a set-up holds the work, as it is written under `hold:`. */
import { FACE_PLANE, type Face, type Hold, OPPOSITE, type Place } from '../../model/model';
import type { Writing } from '../../text/write';

type Lengths = (mm: number) => number;

export function holdWritten(hold: Hold, up: Face, length: Lengths): Writing {
  const { tilt, vBlock, anglePlate, against, stop, screws, clamps } = hold;
  return {
    ...(tilt && { angle: tilt.angle.deg, ...(tilt.about && { about: tilt.about }) }),
    ...inVise(hold, length),
    ...(anglePlate && { 'angle-plate': anglePlate.name }),
    ...(against && { against: against.name }),
    ...(hold.out && { out: length(hold.out.mm) }),
    ...(vBlock && { 'v-block': vBlock.name }),
    ...(stop && { stop: stop.name }),
    ...(hold.overhang && { overhang: { [hold.overhang.face]: length(hold.overhang.by.mm) } }),
    ...(screws && { screws: screws.map((s) => s.name) }),
    ...(clamps && { clamps: clamps.map((c) => placeOf(c, pressedFace(hold, up), length)) }),
    ...tabbed(hold, length),
    ...(hold.on && { [screws ? 'to' : 'on']: hold.on }),
  };
}

function inVise(
  { type, vise, jaws, grip, parallels, apart, pieces }: Hold,
  length: Lengths,
): Readonly<Record<string, Writing>> {
  return {
    ...(vise && { [type === 'soft-jaws' ? 'soft-jaws' : 'vise']: vise.name }),
    ...(jaws && { jaws: jaws.map((j) => j.name) }),
    ...(grip && { grip: length(grip.mm) }),
    ...(parallels && { parallels: length(parallels.mm) }),
    ...(apart && { apart: length(apart.mm) }),
    ...(pieces && { pieces: 2 }),
    ...(pieces?.gapMm && { gap: length(pieces.gapMm) }),
    ...(pieces?.padMm && { pad: length(pieces.padMm) }),
  };
}

function tabbed({ tabs }: Hold, length: Lengths): Readonly<Record<string, Writing>> {
  if (!tabs) return {};
  return { tabs: { count: tabs.count, width: length(tabs.width.mm), height: length(tabs.height.mm) } };
}

/** The face that clamps press on. */
function pressedFace({ type, against }: Hold, up: Face): Face {
  return type === 'angle-plate' && against ? OPPOSITE[against.name] : up;
}

/** `{ x: 6, y: 20 }` in the plane of that face. */
function placeOf({ u, v }: Place, face: Face, length: Lengths): Writing {
  const [a, b] = FACE_PLANE[face];
  return { [a]: length(u), [b]: length(v) };
}
