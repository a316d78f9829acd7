/** Which volumes are drawn together, and which of the drawn ones touch. */
import type { Void } from '../types';
import { boxesNear } from '../vector';
import { BEYOND_MM } from './lips';
import { isAligned } from './sweep';

/** A volume that touches more others than this is taken from the body first. */
const MOST_NEIGHBOURS = 12;

/**
 * Volumes that are drawn together: of a leaning hole the bore, its point and its sinkings, which lie end to end in a
 * frame where that is exact. Every other is drawn alone.
 */
export function* stacks(voids: readonly Void[]): Iterable<readonly Void[]> {
  for (let i = 0; i < voids.length; ) {
    const first = voids[i]!;
    let n = 1;
    while (!isAligned(first.frame) && voids[i + n] && sameStack(first, voids[i + n]!)) n++;
    yield voids.slice(i, i + n);
    i += n;
  }
}

function sameStack(a: Void, b: Void): boolean {
  return (
    a.feature === b.feature &&
    a.member === b.member &&
    (['origin', 'u', 'v', 'w'] as const).every((k) => a.frame[k].every((x, i) => x === b.frame[k][i]))
  );
}

interface Volumes {
  readonly voids: readonly Void[];
}

/** Those that touch many others, and the rest in groups of those that touch, directly or through one another. */
export function grouped<Unit extends Volumes>(
  units: readonly Unit[],
): { wide: readonly Unit[]; groups: readonly (readonly Unit[])[] } {
  const n = units.length;
  const near: number[][] = units.map(() => []);
  // from left to right, so that only those beside each other are compared
  const ends = units.map(({ voids }) => ({
    low: Math.min(...voids.map((v) => v.bounds.min[0])),
    high: Math.max(...voids.map((v) => v.bounds.max[0])) + 2 * BEYOND_MM,
  }));
  const order = ends.map((_, i) => i).sort((a, b) => ends[a]!.low - ends[b]!.low);
  for (let a = 0; a < n; a++) {
    const i = order[a]!;
    for (let b = a + 1; b < n && ends[order[b]!]!.low <= ends[i]!.high + BEYOND_MM; b++) {
      const k = order[b]!;
      if (!touching(units[i]!, units[k]!)) continue;
      near[i]!.push(k);
      near[k]!.push(i);
    }
  }
  const wide = units.filter((_, i) => near[i]!.length > MOST_NEIGHBOURS);
  const groups: Unit[][] = [];
  const seen = units.map((_, i) => near[i]!.length > MOST_NEIGHBOURS);
  for (let i = 0; i < n; i++) {
    if (seen[i]) continue;
    seen[i] = true;
    const members = [i];
    for (let at = 0; at < members.length; at++) {
      for (const k of near[members[at]!]!) {
        if (seen[k]) continue;
        seen[k] = true;
        members.push(k);
      }
    }
    groups.push(members.sort((a, b) => a - b).map((k) => units[k]!));
  }
  return { wide, groups };
}

function touching(a: Volumes, b: Volumes): boolean {
  return a.voids.some((v) => b.voids.some((w) => boxesNear(v.bounds, w.bounds, 1.25 * BEYOND_MM)));
}
