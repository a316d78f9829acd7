/**
 * Heads of the screws that hold the work down through its own holes, as they stand above it: of the largest socket cap
 * screw that goes through, on the highest work under its head. Sizes by ISO 4762 (`tables/heads.ts`).
 */
import type { Vec3 } from '../../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { readMemberName } from '../../model/member-name';
import { FACE_AXIS, FACE_PLANE, type Face, type Hold, type Hole, type Part } from '../../model/model';
import { capScrewThrough } from '../../tables/heads';
import { isMaterial } from '../stock/in-process-stock';
import { round } from './round-obstacle';
import type { Obstacle, Seating } from './seating-types';

type Base = Omit<Seating, 'held' | 'obstacles' | 'avoided'>;
interface Head {
  readonly radiusMm: number;
  readonly highMm: number;
}

/** The cap over a hole; none where the screw comes from below, or is sunk in a countersink. */
export function headOver(hole: Hole, up: Face): Head | undefined {
  const across = FACE_AXIS[hole.face].axis !== FACE_AXIS[up].axis;
  if (across || hole.thread || !hole.depth.through || (hole.countersink && hole.face === up)) return undefined;
  const cap = capScrewThrough(hole.diameter.mm);
  return cap && { radiusMm: cap.diameterMm / 2, highMm: cap.heightMm };
}

export function screwHeads(base: Base, hold: Hold, part: Part): readonly Obstacle[] {
  return (hold.screws ?? []).flatMap(({ name }) => {
    const { feature, member } = readMemberName(name);
    const hole = part.featureByName.get(feature);
    const head = hole?.kind === 'hole' ? headOver(hole, base.up) : undefined;
    if (hole?.kind !== 'hole' || !head) return [];
    const places = member === undefined ? hole.places : hole.places.slice(member - 1, member);
    return places.flatMap(({ u, v }) => {
      const seatMm = seatUnder(base, [u, v], hole.diameter.mm / 2, head.radiusMm);
      if (seatMm === undefined) return [];
      const { radiusMm, highMm } = head;
      return round('screw', base, [u, v], { radiusMm, fromMm: seatMm, toMm: seatMm + base.upSign * highMm });
    });
  });
}

type InPlan = readonly [a: number, b: number];
const planAxes = ({ up }: Base) => FACE_PLANE[up].map((name) => AXIS_INDEX[name]) as [AxisIndex, AxisIndex];

/** Looks round a head, and how far inside its rim and outside the hole they are, mm. */
const LOOKS = 12;
const INSIDE_MM = 0.05;

/** The highest work under the rim of a head, along the part axis that is up. */
function seatUnder(base: Base, at: InPlan, holeMm: number, rimMm: number): number | undefined {
  const { before } = base.of;
  const { upAxis, upSign, box } = base;
  const [a, b] = planAxes(base);
  const near = before.voids.filter(
    ({ bounds: { min, max } }) =>
      min[a] <= at[0] + rimMm && max[a] >= at[0] - rimMm && min[b] <= at[1] + rimMm && max[b] >= at[1] - rimMm,
  );
  const levels = [
    box.min[upAxis],
    box.max[upAxis],
    ...near.flatMap((v) => [v.bounds.min[upAxis], v.bounds.max[upAxis]]),
  ];
  const ring = [holeMm + INSIDE_MM, Math.max(holeMm, rimMm) - INSIDE_MM].flatMap((r) =>
    Array.from({ length: LOOKS }, (_, k): InPlan => {
      const turn = (2 * Math.PI * k) / LOOKS;
      return [at[0] + r * Math.cos(turn), at[1] + r * Math.sin(turn)];
    }),
  );
  const isWork = (p: InPlan, level: number) => {
    const q = [0, 0, 0] as [number, number, number];
    [q[a], q[b], q[upAxis]] = [p[0], p[1], level - upSign * 1e-4];
    return isMaterial({ body: before.body, voids: near }, q as Vec3);
  };
  const there = (level: number) => ring.some((p) => isWork(p, level));
  const seat = [...new Set(levels)].sort((p, q) => (q - p) * upSign).find(there);
  // No screw goes where no hole is yet: hold/screws tells it.
  return seat !== undefined && isWork(at, seat) ? undefined : seat;
}
