/**
 * Whether two patterns of holes are the same, wherever they lie and however they are turned: by their distances alone. Of
 * patterns that are not, by how much: of holes that stand alone off where the others lie alike, else of the distances.
 */
import { heed } from '../../effort';
import { HAIR } from '../../tolerance';

export interface Spot {
  readonly u: number;
  readonly v: number;
  /** Spots meet only those of the same mark. */
  readonly mark?: string;
  /** Of a slot: half the way that a screw may take along it. */
  readonly slide?: { readonly u: number; readonly v: number };
}

export interface Match {
  /** For each spot of the first its spot of the second. */
  readonly pairs: readonly number[];
  readonly isMirrored: boolean;
  /** The most that one of them is off; 0 where they agree. */
  readonly offMm: number;
  /** Spots of the first that are off where at least two others lie alike. */
  readonly odd: readonly number[];
  /** Where no two lie alike: the two of the first whose distance differs most, and both distances. */
  readonly between?: { readonly a: number; readonly b: number; readonly hasMm: number; readonly needsMm: number };
}

/** Of so many first spots every pair is tried as the one that lies alike. */
const ANCHORS = 7;

/** The best match of every spot of `a` with one of `b`; undefined where `b` has fewer of some mark. */
export function matchOf(
  a: readonly Spot[],
  b: readonly Spot[],
  { mayMirror, withinMm }: { readonly mayMirror: boolean; readonly withinMm: number },
): Match | undefined {
  if (!hasRoom(a, b)) return undefined;
  if (a.length === 1) {
    const to = b.findIndex((s) => s.mark === a[0]!.mark);
    return { pairs: [to], isMirrored: false, offMm: 0, odd: [] };
  }
  const found = alike(a, b, mayMirror, withinMm);
  return found && (found.odd.length === 0 || a.length - found.odd.length >= 2) ? found : byDistances(a, b, mayMirror);
}

function hasRoom(a: readonly Spot[], b: readonly Spot[]): boolean {
  const marks = new Set(a.map((s) => s.mark));
  const count = (of: readonly Spot[], mark: string | undefined) => of.filter((s) => s.mark === mark).length;
  return a.length > 0 && [...marks].every((mark) => count(a, mark) <= count(b, mark));
}

/** Laid upon each other by two spots that are equally far apart: the way in which most of the others lie alike too. */
function alike(a: readonly Spot[], b: readonly Spot[], mayMirror: boolean, withinMm: number): Match | undefined {
  let best: Match | undefined;
  for (const ways of waysOf(a, b, mayMirror)) {
    if (Math.abs(ways.differMm) > withinMm + ways.slidesMm) continue;
    const match = laid(a, b, ways.map, ways.isMirrored, withinMm);
    if (!best || isBetter(match, best)) best = match;
    if (best.odd.length === 0) return best;
  }
  return best;
}

interface Way {
  readonly map: Mapping;
  readonly isMirrored: boolean;
  /** How much the two spots that it goes by are farther apart than the others, and how far their screws may slide. */
  readonly differMm: number;
  readonly slidesMm: number;
}

/** Every way to lay two spots of the one upon two of the other. */
function* waysOf(a: readonly Spot[], b: readonly Spot[], mayMirror: boolean): Generator<Way> {
  for (const [i, j] of anchorsOf(a)) {
    for (const [k, l] of orderedPairs(b)) {
      if (b[k]!.mark !== a[i]!.mark || b[l]!.mark !== a[j]!.mark) continue;
      const differMm = apart(a[i]!, a[j]!) - apart(b[k]!, b[l]!);
      const slidesMm = [a[i]!, a[j]!, b[k]!, b[l]!].reduce((sum, s) => sum + slideOf(s), 0);
      for (const isMirrored of mayMirror ? [false, true] : [false])
        yield { map: mapping([a[i]!, a[j]!], [b[k]!, b[l]!], isMirrored), isMirrored, differMm, slidesMm };
    }
  }
}

function isBetter(one: Match, other: Match): boolean {
  return one.odd.length < other.odd.length || (one.odd.length === other.odd.length && one.offMm < other.offMm - HAIR);
}

type Mapping = (s: Spot) => Spot;

/**
 * Turns and moves (and mirrors) so that the middle of the first two comes on the middle of the others, in their line. Where
 * one of the two pairs is of round holes and the other has a slot, the round ones come upon each other.
 */
function mapping([p, q]: readonly [Spot, Spot], [r, s]: readonly [Spot, Spot], isMirrored: boolean): Mapping {
  const side = isMirrored ? -1 : 1;
  const turn = Math.atan2(s.v - r.v, s.u - r.u) - Math.atan2(side * (q.v - p.v), q.u - p.u);
  const [c, n] = [Math.cos(turn), Math.sin(turn)];
  const [first, second] = [slideOf(p) + slideOf(r) === 0, slideOf(q) + slideOf(s) === 0];
  const share = first === second ? 0.5 : first ? 0 : 1;
  const between = (a: number, b: number) => a + share * (b - a);
  const [fromU, fromV] = [between(p.u, q.u), between(p.v, q.v)];
  const [toU, toV] = [between(r.u, s.u), between(r.v, s.v)];
  return (spot) => {
    const turned = (u: number, v: number) => ({ u: c * u - n * side * v, v: n * u + c * side * v });
    const at = turned(spot.u - fromU, spot.v - fromV);
    const { slide } = spot;
    return { ...spot, u: toU + at.u, v: toV + at.v, ...(slide && { slide: turned(slide.u, slide.v) }) };
  };
}

/**
 * Where the spots of the first come to lie on the second: turned and moved (and mirrored, where the match is) so that those
 * which lie alike do, by least squares. Where no two do, the first lies on its partner.
 */
export function laidOn(a: readonly Spot[], b: readonly Spot[], match: Match): readonly Spot[] {
  const alike = match.between ? a.map((_, i) => i) : a.map((_, i) => i).filter((i) => !match.odd.includes(i));
  const side = match.isMirrored ? -1 : 1;
  const of = (i: number) => ({ p: { u: a[i]!.u, v: side * a[i]!.v }, q: b[match.pairs[i]!]! });
  const middle = (pick: (i: number) => Spot) => ({
    u: alike.reduce((sum, i) => sum + pick(i).u, 0) / alike.length,
    v: alike.reduce((sum, i) => sum + pick(i).v, 0) / alike.length,
  });
  let [from, to] = [middle((i) => of(i).p), middle((i) => of(i).q)];
  let [along, across] = [0, 0];
  for (const i of alike) {
    const { p, q } = of(i);
    along += (p.u - from.u) * (q.u - to.u) + (p.v - from.v) * (q.v - to.v);
    across += (p.u - from.u) * (q.v - to.v) - (p.v - from.v) * (q.u - to.u);
  }
  const turn = Math.atan2(across, along);
  if (match.between) [from, to] = [of(0).p, of(0).q];
  const [c, n] = [Math.cos(turn), Math.sin(turn)];
  return a.map((_, i) => {
    const [u, v] = [of(i).p.u - from.u, of(i).p.v - from.v];
    return { u: to.u + c * u - n * v, v: to.v + n * u + c * v };
  });
}

/** Each spot with the nearest that is free, the nearest pairs first. */
function laid(a: readonly Spot[], b: readonly Spot[], map: Mapping, isMirrored: boolean, withinMm: number): Match {
  heed(a.length * b.length);
  const moved = a.map(map);
  const near = moved
    .flatMap((p, i) => b.flatMap((q, k) => (p.mark === q.mark ? [{ i, k, mm: offBy(p, q) }] : [])))
    .sort((x, y) => x.mm - y.mm);
  const pairs: number[] = a.map(() => -1);
  const off: number[] = a.map(() => Number.POSITIVE_INFINITY);
  const taken = new Set<number>();
  for (const { i, k, mm } of near) {
    if (pairs[i] !== -1 || taken.has(k)) continue;
    pairs[i] = k;
    off[i] = mm;
    taken.add(k);
  }
  const odd = off.flatMap((mm, i) => (mm > withinMm ? [i] : []));
  return { pairs, isMirrored, offMm: odd.length > 0 ? Math.max(...off) : 0, odd };
}

/** No two lie alike: the way in which the distances between them differ least. */
function byDistances(a: readonly Spot[], b: readonly Spot[], mayMirror: boolean): Match | undefined {
  let best: Match | undefined;
  for (const { map, isMirrored } of waysOf(a, b, mayMirror)) {
    const { pairs } = laid(a, b, map, isMirrored, 0);
    const between = mostDifferent(a, b, pairs);
    const offMm = Math.abs(between.hasMm - between.needsMm);
    if (!best || offMm < best.offMm - HAIR) best = { pairs, isMirrored, offMm, odd: [], between };
  }
  return best;
}

function mostDifferent(a: readonly Spot[], b: readonly Spot[], pairs: readonly number[]) {
  let worst = { a: 0, b: 1, hasMm: 0, needsMm: 0 };
  for (let i = 0; i < a.length; i++) {
    for (let j = i + 1; j < a.length; j++) {
      const [hasMm, needsMm] = [apart(a[i]!, a[j]!), apart(b[pairs[i]!]!, b[pairs[j]!]!)];
      const isWorse = Math.abs(hasMm - needsMm) > Math.abs(worst.hasMm - worst.needsMm) + HAIR;
      if (isWorse || (i === 0 && j === 1)) worst = { a: i, b: j, hasMm, needsMm };
    }
  }
  return worst;
}

function* anchorsOf(a: readonly Spot[]): Generator<readonly [number, number]> {
  const n = Math.min(a.length, ANCHORS);
  // The farthest apart tell most of how it is turned; those of slots less than those of round holes.
  const pairs: [number, number][] = [];
  for (let i = 0; i < n; i++) for (let j = i + 1; j < n; j++) if (apart(a[i]!, a[j]!) > HAIR) pairs.push([i, j]);
  const told = ([i, j]: readonly [number, number]) =>
    apart(a[i]!, a[j]!) - FAR_MM * ([i, j] as const).filter((k) => slideOf(a[k]!) > 0).length;
  yield* pairs.sort((x, y) => told(y) - told(x));
}

/** Farther than any part is wide. */
const FAR_MM = 1e5;

function* orderedPairs(b: readonly Spot[]): Generator<readonly [number, number]> {
  for (let k = 0; k < b.length; k++) for (let l = 0; l < b.length; l++) if (k !== l) yield [k, l];
}

function slideOf({ slide }: Spot): number {
  return slide ? Math.hypot(slide.u, slide.v) : 0;
}

/** How far one lies from the other, where neither is a slot along which the screw goes to meet it. */
function offBy(p: Spot, q: Spot): number {
  let [u, v] = [q.u - p.u, q.v - p.v];
  for (const spot of [p, q]) {
    const half = slideOf(spot);
    if (half === 0) continue;
    const [du, dv] = [spot.slide!.u / half, spot.slide!.v / half];
    const along = Math.max(-half, Math.min(half, u * du + v * dv));
    [u, v] = [u - along * du, v - along * dv];
  }
  return Math.hypot(u, v);
}

function apart(p: Spot, q: Spot): number {
  return Math.hypot(p.u - q.u, p.v - q.v);
}

/**
 * A small pattern found so many times in a large one, no spot used twice: for each time the spots of the large one.
 * Undefined where it is not there so often.
 */
export function timesIn(
  small: readonly Spot[],
  large: readonly Spot[],
  times: number,
  how: { readonly mayMirror: boolean; readonly withinMm: number },
): readonly (readonly number[])[] | undefined {
  const free = large.map((_, i) => i);
  const found = (left: readonly number[], still: number): readonly (readonly number[])[] | undefined => {
    if (still === 0) return [];
    heed(left.length);
    for (const pairs of everyway(
      small,
      left.map((i) => large[i]!),
      how,
    )) {
      // Each time takes the first that is free: another order is the same.
      if (!pairs.includes(0)) continue;
      const taken = pairs.map((k) => left[k]!);
      const rest = found(
        left.filter((i) => !taken.includes(i)),
        still - 1,
      );
      if (rest) return [taken, ...rest];
    }
    return undefined;
  };
  return found(free, times);
}

/** Every way in which all of the small pattern lies alike in the large one. */
function* everyway(
  small: readonly Spot[],
  large: readonly Spot[],
  { mayMirror, withinMm }: { readonly mayMirror: boolean; readonly withinMm: number },
): Generator<readonly number[]> {
  if (!hasRoom(small, large)) return;
  if (small.length === 1) {
    for (const [k, s] of large.entries()) if (s.mark === small[0]!.mark) yield [k];
    return;
  }
  const [anchor] = anchorsOf(small);
  if (!anchor) return;
  const [i, j] = anchor;
  for (const [k, l] of orderedPairs(large)) {
    const slidesMm = [small[i]!, small[j]!, large[k]!, large[l]!].reduce((sum, s) => sum + slideOf(s), 0);
    if (Math.abs(apart(large[k]!, large[l]!) - apart(small[i]!, small[j]!)) > withinMm + slidesMm) continue;
    for (const isMirrored of mayMirror ? [false, true] : [false]) {
      const map = mapping([small[i]!, small[j]!], [large[k]!, large[l]!], isMirrored);
      const match = laid(small, large, map, isMirrored, withinMm);
      if (match.odd.length === 0) yield match.pairs;
    }
  }
}
