/**
 * How far down a cut goes in its set-up, where it does not go all the way: a depth that is written, half of what two set-ups
 * with opposite faces up both name, and with the side of a mill the end of the finished body, below which the work is held.
 */
import { FACE_AXIS, FACES, type Face, type Feature, OPPOSITE, type Part } from '../../server/src/model/model';
import { axisOf, type Taken } from './frame';

/** What each side goes on beyond the middle, as the format says: a little. */
const BEYOND_MM = 1;

export interface Stop {
  readonly axis: 0 | 1 | 2;
  /** Along that axis, in part axes. */
  readonly at: number;
  /** Only while stock is left under the part; then it goes on through. */
  readonly held?: boolean;
}

/** For each set-up, for each entry of its `cuts`. */
export function stopsOf(
  part: Part,
  takenOf: ReadonlyMap<string, readonly Taken[]>,
): readonly (readonly (Stop | undefined)[])[] {
  const setups = part.setups ?? [];
  return setups.map(({ up, cuts }) =>
    cuts.map(({ name, depth }): Stop | undefined => {
      if (!up) return undefined;
      const feature = part.featureByName.get(name);
      const face = feature ? undefined : FACES.find((f) => f === name);
      const axis = axisOf(up.name);
      const { sign } = FACE_AXIS[up.name];
      const beside = face !== undefined && axisOf(face) !== axis;
      const share = depth === undefined ? (isHalf(name, feature, beside, up.name, part) ? 'half' : undefined) : depth;
      const whole = beside ? { axis, at: sign > 0 ? 0 : part.size[axis], held: true } : undefined;
      if (share === undefined) return whole;
      const [low, high] = feature ? extent(takenOf.get(name) ?? [], axis, part) : ends(face!, axis, part);
      const down = share === 'half' ? (high - low) / 2 + BEYOND_MM : share.mm;
      return { axis, at: sign > 0 ? Math.max(low, high - down) : Math.min(high, low + down) };
    }),
  );
}

/** Named alone here and with the opposite face up, nowhere with a depth, and open to both. */
function isHalf(name: string, feature: Feature | undefined, beside: boolean, up: Face, part: Part): boolean {
  const all = (part.setups ?? []).flatMap((s) => s.cuts.filter((c) => c.name === name).map((c) => ({ c, up: s.up })));
  if (all.some(({ c }) => c.depth !== undefined) || !all.some((o) => o.up?.name === OPPOSITE[up])) return false;
  if (!feature) return beside;
  if (feature.tilt || axisOf(feature.face) !== axisOf(up)) return false;
  if (feature.kind === 'hole') return isThrough(feature, part) && !feature.counterbore && !feature.countersink;
  if (feature.kind === 'pocket' || feature.kind === 'contour')
    return isThrough(feature, part) && feature.floorRadius.mm === 0;
  return feature.kind === 'slot' && isThrough(feature, part);
}

function isThrough(f: Feature & { depth: { through: boolean; mm: number } }, part: Part): boolean {
  return f.depth.through || f.startMm + f.depth.mm >= part.size[axisOf(f.face)] - 1e-6;
}

/** Of what a feature takes of the body, along an axis. */
function extent(all: readonly Taken[], axis: 0 | 1 | 2, part: Part): readonly [number, number] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const t of all) {
    const [u0, v0, u1, v1] = t.outline.box;
    for (const u of [u0 - t.most, u1 + t.most])
      for (const v of [v0 - t.most, v1 + t.most])
        for (const w of [t.from, t.to]) {
          const x = t.frame.origin[axis] + u * t.frame.u[axis] + v * t.frame.v[axis] + w * t.frame.w[axis];
          low = Math.min(low, x);
          high = Math.max(high, x);
        }
  }
  return [Math.max(0, low), Math.min(part.size[axis], high)];
}

/** Of a face: the body beside it, or what stands on it. */
function ends(face: Face, axis: 0 | 1 | 2, part: Part): readonly [number, number] {
  if (axisOf(face) !== axis) return [0, part.size[axis]];
  const over = part.stock.extra[face]?.mm ?? 0;
  return FACE_AXIS[face].sign > 0 ? [part.size[axis], part.size[axis] + over] : [-over, 0];
}
