/** The holes of a joint put together: which hole of one part lies over which of the next, screw by screw. */
import type { Pinned, Screwed } from '../../model/joint-model';
import { isTurnable, type Layer, type MetHole, spotsOf } from './layers';
import { type Match, matchOf, type Spot, timesIn } from './pattern';

export interface Mismatch {
  readonly a: Layer;
  readonly b: Layer;
  /** Absent where the numbers differ. */
  readonly match?: Match;
  /** What was laid upon each other: their own holes first. */
  readonly spots?: readonly [a: readonly Spot[], b: readonly Spot[]];
  /** As many holes, and the same only as in a mirror. */
  readonly onlyMirrored?: true;
}

export interface Rows {
  /** For each screw or pin its hole in each layer; as many as the fullest layer has. */
  readonly rows: readonly (readonly MetHole[])[];
  readonly mismatches: readonly Mismatch[];
  /** Layers that go on turned over, as they are drawn. */
  readonly turned: readonly Layer[];
  /** How many screws or pins in all. */
  readonly total: number;
}

/** Layers with the spots of another joint of the same parts, marked, so that both agree as they lie together. */
export interface WithSpots {
  readonly layer: Layer;
  readonly more?: readonly Spot[];
}

export function rowsOf(joint: Screwed | Pinned, layers: readonly WithSpots[], withinMm: number): Rows {
  const least = Math.min(...layers.map(({ layer }) => layer.holes.length));
  const total = least * joint.times;
  // What can lie only one way up says how the others lie.
  const small = layers.filter(({ layer }) => layer.holes.length === least);
  const first = small.find(({ layer }) => !isTurnable(layer)) ?? small[0]!;
  const mismatches: Mismatch[] = [];
  const turned: Layer[] = [];
  const copies = layers.map((other): readonly (readonly number[])[] => {
    const plain = [other.layer.holes.map((_, i) => i)];
    if (other === first) return plain;
    const mayMirror = isTurnable(first.layer) || isTurnable(other.layer);
    const n = other.layer.holes.length;
    if (n !== least) return severalTimes(first, other, { least, total, mayMirror, withinMm }, mismatches) ?? plain;
    const match = best(first, other, mayMirror, withinMm);
    if (!match || match.offMm > 0) {
      const mirrored = mayMirror ? undefined : best(first, other, true, withinMm);
      const onlyMirrored = mirrored?.offMm === 0 && ({ onlyMirrored: true } as const);
      mismatches.push({
        ...{ a: first.layer, b: other.layer, spots: [spotsWith(first), spotsWith(other)] },
        ...(match && { match }),
        ...onlyMirrored,
      });
    } else if (match.isMirrored) turned.push(isTurnable(other.layer) ? other.layer : first.layer);
    return match ? [match.pairs.slice(0, least)] : plain;
  });
  const times = Math.max(...copies.map((c) => c.length));
  const rows = Array.from({ length: times * least }, (_, r) =>
    layers.map(({ layer }, l) => layer.holes[copies[l]![Math.floor(r / least) % copies[l]!.length]![r % least]!]!),
  );
  return { rows, mismatches, turned, total: Math.max(total, times * least) };
}

/** The pattern of a part that is there more than once, in one that is there less often. */
function severalTimes(
  small: WithSpots,
  large: WithSpots,
  how: { readonly least: number; readonly total: number; readonly mayMirror: boolean; readonly withinMm: number },
  mismatches: Mismatch[],
): readonly (readonly number[])[] | undefined {
  const n = large.layer.holes.length;
  const isWhole = n % how.least === 0 && how.total % n === 0;
  const found = isWhole ? timesIn(spotsOf(small.layer), spotsOf(large.layer), n / how.least, how) : undefined;
  if (!found) mismatches.push({ a: small.layer, b: large.layer });
  return found;
}

function best(a: WithSpots, b: WithSpots, mayMirror: boolean, withinMm: number): Match | undefined {
  return matchOf(spotsWith(a), spotsWith(b), { mayMirror, withinMm });
}

function spotsWith({ layer, more = [] }: WithSpots): readonly Spot[] {
  return [...spotsOf(layer, 'own'), ...more];
}
