/**
 * Where between the jaws the pair of parallels lies: one against each jaw, unless something is cut right through the work
 * there; then moved in, clear of all that goes through. Places are along the axis that the jaws close along.
 */

import { chainLoops } from '../../geometry/2d/assemble-loops';
import { boundaryOf } from '../../geometry/2d/boolean';
import { sheetOf } from '../../geometry/2d/indexed-region';
import { momentsOf, regionEdges } from '../../geometry/2d/moments';
import { rectLoop } from '../../geometry/2d/shape-outline';
import { sectionOf } from '../../geometry/solid/section';
import type { Void } from '../../geometry/types';
import { FACE_AXIS } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import { HAIR, ROUNDING } from '../../tolerance';
import { crossOf } from '../stock/in-process-stock';
import type { Cut } from '../stock/types';
import type { InVise, Pair, Seating, Span1 } from './seating-types';

type Base = Pick<Seating, 'of' | 'upAxis' | 'upSign' | 'lowestMm'>;
type Between = Omit<InVise, 'pair'>;

/** How these are found in a shop's `limits:`, and what holds where it does not say. Common sizes and practice, no source. */
export const PAIR_RULE = 'hold/drills-the-parallels';
export const PAIR = { width: 6, clear: 0.5, spread: 0.4 } as const;

function setting(shop: Shop, name: keyof typeof PAIR): number {
  return shop.limits.get(PAIR_RULE)?.get(name) ?? PAIR[name];
}

/** What goes down through the work, and out below. */
const DOWN: ReadonlySet<Void['role']> = new Set(['bore', 'pocket', 'slot', 'contour', 'counterbore', 'step']);
/** What a drill or mill may take of a parallel before it counts, mm: rounding. */
const TOUCH_MM = 0.01;
/** Less than this of the lowest surface is nothing, mm². */
const NOTHING_MM2 = 1e-3;

/** A cut that takes something of the surface that the work lies on, and from where to where along the jaws' axis. */
interface Through {
  readonly cut: Cut;
  readonly spans: readonly Span1[];
}

/** Every cut of the set-up that goes out below, where the jaws are; nothing where the surface cannot be followed. */
export function throughCuts(s: Base, h: Pick<Between, 'jawAxis' | 'jawFromMm' | 'jawToMm'>): readonly Through[] {
  const out = s.of.cuts.flatMap((cut) => {
    const voids = cut.feature ? cut.removes.filter((v) => DOWN.has(v.role) && leaves(v, s)) : [];
    return voids.length > 0 ? [{ cut, voids }] : [];
  });
  if (out.length === 0) return [];
  const at = s.lowestMm + s.upSign * HAIR;
  const made: Through[] = [];
  const alongU = (s.upAxis + 1) % 3 !== h.jawAxis;
  const far = 1e5;
  const strip = sheetOf(
    (alongU ? rectLoop(h.jawFromMm, -far, h.jawToMm, far) : rectLoop(-far, h.jawFromMm, far, h.jawToMm)).edges,
  );
  for (const { cut, voids } of out) {
    // What an earlier cut took away there no tool comes to again.
    const foot = crossOf(cut.before, s.upAxis, at).regions;
    if (!foot || foot.length === 0) continue;
    const work = sheetOf(foot.flatMap(regionEdges));
    const spans = voids.flatMap((v) => {
      const pieces = boundaryOf([work, sectionOf(v, s.upAxis, at).sheet, strip], []);
      if (momentsOf(pieces).area < NOTHING_MM2) return [];
      const loops = chainLoops(pieces)?.map((l) => l.edges) ?? [pieces];
      return loops.map((edges): Span1 => {
        const { rect } = sheetOf(edges);
        return alongU ? [rect.v0, rect.v1] : [rect.u0, rect.u1];
      });
    });
    if (spans.length > 0) made.push({ cut, spans });
  }
  return made;
}

/** Goes down to the lowest surface. */
function leaves(v: Void, { upAxis, upSign, lowestMm }: Base): boolean {
  const lowest = upSign > 0 ? v.bounds.min[upAxis] : v.bounds.max[upAxis];
  return (lowest - lowestMm) * upSign < HAIR;
}

/** Undefined where the work lies on the bed. */
export function pairOf(s: Base, h: Between, shop: Shop): Pair | undefined {
  if (h.parallelsMm <= 0) return undefined;
  const [low, high] = [Math.min(h.fixedAtMm, h.movingAtMm), Math.max(h.fixedAtMm, h.movingAtMm)];
  const widthMm = Math.min(setting(shop, 'width'), (high - low) / 2);
  const atJaws: readonly [Span1, Span1] = [
    [low, low + widthMm],
    [high - widthMm, high],
  ];
  const { jawAxis } = h;
  const { voids } = { voids: s.of.cuts.flatMap((c) => (c.feature ? c.removes : [])) };
  const near = voids.some(
    (v) =>
      DOWN.has(v.role) &&
      leaves(v, s) &&
      atJaws.some((p) => overlaps(p, [v.bounds.min[jawAxis], v.bounds.max[jawAxis]])),
  );
  if (!near) return { widthMm, at: atJaws, lies: 'against the jaws' };
  const taken = throughCuts(s, h).flatMap((t) => t.spans);
  if (!atJaws.some((p) => taken.some((t) => overlaps(p, t)))) return { widthMm, at: atJaws, lies: 'against the jaws' };
  const clearMm = setting(shop, 'clear');
  const spread = setting(shop, 'spread') * (high - low);
  const at = placesFor(widthMm, taken, [low, high], clearMm, spread);
  if (at) return { widthMm, at, lies: 'moved in' };
  // Narrower by a tenth at a time: the widest that would do.
  for (let w = Math.floor(widthMm * 10) / 10; w >= 1 - ROUNDING; w -= 0.1) {
    if (placesFor(w, taken, [low, high], clearMm, spread))
      return { widthMm, at: atJaws, lies: 'in the way', wouldDoMm: Math.round(w * 10) / 10 };
  }
  return { widthMm, at: atJaws, lies: 'in the way' };
}

export function overlaps([a, b]: Span1, [c, d]: Span1): boolean {
  return Math.min(b, d) - Math.max(a, c) > TOUCH_MM;
}

/**
 * Two places for a parallel that wide, clear of all spans by so much, and from outside to outside no less than `spreadMm`:
 * the outermost there are. Undefined where there are no two.
 */
export function placesFor(
  widthMm: number,
  taken: readonly Span1[],
  [low, high]: Span1,
  clearMm: number,
  spreadMm: number,
): readonly [Span1, Span1] | undefined {
  const gaps: Span1[] = [];
  let from = low;
  for (const [a, b] of [...taken].sort((p, q) => p[0] - q[0])) {
    if (a - clearMm - from >= widthMm - ROUNDING) gaps.push([from, a - clearMm]);
    from = Math.max(from, b + clearMm);
  }
  if (high - from >= widthMm - ROUNDING) gaps.push([from, high]);
  const [first, last] = [gaps[0], gaps[gaps.length - 1]];
  if (!first || !last || last[1] - first[0] < Math.max(spreadMm, 2 * widthMm) - ROUNDING) return undefined;
  return [
    [first[0], first[0] + widthMm],
    [last[1] - widthMm, last[1]],
  ];
}

/** How far a place is from a jaw, mm. */
export function fromJaw(
  h: Pick<InVise, 'fixed' | 'fixedAtMm' | 'movingAtMm' | 'moving'>,
  which: 'fixed' | 'moving',
  pair: Pair,
): number {
  const face = which === 'fixed' ? h.fixed : h.moving;
  const at = which === 'fixed' ? h.fixedAtMm : h.movingAtMm;
  return FACE_AXIS[face].sign > 0 ? at - pair.at[1][1] : pair.at[0][0] - at;
}
