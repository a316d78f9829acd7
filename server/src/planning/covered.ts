/**
 * Faces that are cut off with something else: an outline that goes right through takes away all the stock that stands outside
 * it, and what it leaves of a side is the part's own.
 */

import { stockBody } from '../geometry/solid/stock-body';
import type { Solid } from '../geometry/types';
import { AXIS_INDEX } from '../geometry/vector';
import { FACE_AXIS, type Part } from '../model/model';
import { lessOf, stockOf } from '../process/stock';
import { carriedOn } from '../process/stock/extend-to-stock';
import { facingOf } from '../process/stock/facing';
import { extremeOf } from '../process/stock/in-process-stock';
import { SAME } from '../tolerance';
import type { Item } from './item';

/** Indices of the faces of which nothing is left once this is cut; the faces above and below it are cut off by themselves. */
export function coveredBy(item: Item, items: readonly Item[], part: Part, solid: Solid): readonly number[] {
  const { feature } = item;
  if (feature?.kind !== 'contour' || !feature.depth.through) return [];
  const { axis } = FACE_AXIS[feature.face];
  const faces = items.filter((i) => i.face);
  const beside = faces.filter((i) => FACE_AXIS[i.face!].axis !== axis);
  if (beside.length === 0) return [];
  const body = stockBody(part);
  const own = solid.voidsOf(feature.name).flatMap((v) => carriedOn(v, body, solid.body, feature.face));
  const ends = faces.filter((i) => !beside.includes(i)).flatMap((i) => facingOf(i.face!, i.face, body, solid.body));
  const left = lessOf(stockOf(part, solid.body), [...own, ...ends]);
  return beside
    .filter(({ face }) => {
      const { axis: across, sign } = FACE_AXIS[face!];
      const k = AXIS_INDEX[across];
      const at = extremeOf(left, k, sign > 0 ? -1 : 1);
      return (sign > 0 ? at - solid.body.box.max[k] : solid.body.box.min[k] - at) < SAME;
    })
    .map((i) => i.index);
}

/** With the faces that go with what is cut. */
export function withCovered(cut: readonly Item[], done: Iterable<number> = []): Set<number> {
  const all = new Set(done);
  for (const item of cut) {
    all.add(item.index);
    for (const face of item.brings ?? []) all.add(face);
  }
  return all;
}

/** The same without those faces as things to cut, where the outline that takes them off can be cut at all. */
export function withoutCovered(items: readonly Item[]): readonly Item[] {
  const gone = new Set(items.flatMap((i) => (i.from !== 0 ? (i.brings ?? []) : [])));
  return gone.size === 0 ? items : items.map((i) => (gone.has(i.index) ? { ...i, from: 0 } : i));
}
