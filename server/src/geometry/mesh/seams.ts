/** What several groups together leave of the straight edge between two facets. */
import type { Vec3 } from '../types';
import { dot, length, scale, sub } from '../vector';
import type { Stretches } from './facets';

/** Points so near a line lie on it, mm. */
const ON_MM = 1e-3;

interface End {
  readonly t: number;
  readonly at: readonly number[];
}
type Span = readonly [End, End];

/**
 * `left`: what each group for itself leaves, where that is not all. They take different pieces, so that what all of them
 * leave stays. Undefined where the edge is not straight.
 */
export function seamLeft(whole: Stretches, left: readonly Stretches[]): Stretches | undefined {
  if (left.length === 0) return whole;
  if (left.length === 1) return left[0]!;
  const from = pointAt(whole, 0);
  const along = sub(pointAt(whole, 3), from);
  const way = scale(along, 1 / length(along));
  const all = [whole, ...left];
  const isOn = (p: Vec3) => {
    const d = sub(p, from);
    return length(sub(d, scale(way, dot(d, way)))) < ON_MM;
  };
  for (const stretches of all)
    for (let i = 0; i < stretches.length; i += 3) if (!isOn(pointAt(stretches, i))) return undefined;
  // walked one way, and the other where the facet lies on both sides
  return [1, -1].flatMap((sign) => kept(all.map((s) => spansOf(s, scale(way, sign)))));
}

function spansOf(stretches: Stretches, way: Vec3): readonly Span[] {
  const end = (i: number): End => ({ t: dot(pointAt(stretches, i), way), at: stretches.slice(i, i + 3) });
  const spans: Span[] = [];
  for (let i = 0; i < stretches.length; i += 6) {
    const [a, b] = [end(i), end(i + 3)];
    if (b.t > a.t) spans.push([a, b]);
  }
  return spans;
}

/** Between neighbouring ends, what lies in a span of each. */
function kept(all: readonly (readonly Span[])[]): number[] {
  const ends = all.flatMap((spans) => spans.flat()).sort((a, b) => a.t - b.t);
  const found: number[] = [];
  for (let i = 0; i + 1 < ends.length; i++) {
    const [a, b] = [ends[i]!, ends[i + 1]!];
    if (!(b.t > a.t)) continue;
    const t = (a.t + b.t) / 2;
    if (all.every((spans) => spans.some(([p, q]) => p.t < t && t < q.t))) found.push(...a.at, ...b.at);
  }
  return found;
}

function pointAt(numbers: readonly number[], i: number): Vec3 {
  return [numbers[i]!, numbers[i + 1]!, numbers[i + 2]!];
}
