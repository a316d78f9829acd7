/** What a note's line must not run through on its way out of a picture: openings in the face that is seen. */
import type { View } from '../../export/flat/view';
import { line } from '../../geometry/2d/edge';
import { windingOf } from '../../geometry/2d/inside';
import { meet } from '../../geometry/2d/intersect';
import { mapEdge } from '../../geometry/2d/plane-map';
import { sectionOf, standing } from '../../geometry/solid/section';
import type { Edge, Point2, Solid, Void } from '../../geometry/types';
import { memo } from '../../memo';
import { ROUNDING, SAME } from '../../tolerance';
import { inPicture } from '../view/projected';

/** A closed outline in the picture's millimetres, or on paper. */
export interface Outline {
  readonly feature: string;
  readonly edges: readonly Edge[];
}

/** Those that are open to the eye, but for those through which every line must leave: open to the right. */
export const obstaclesIn = memo((view: View, solid: Solid): readonly Outline[] => {
  const { axis, looks } = view;
  const near = looks < 0 ? solid.body.box.max[axis] : solid.body.box.min[axis];
  return solid.voids.flatMap((v): Outline[] => {
    if (v.role === 'edge' || v.role === 'engraving' || v.role === 'contour') return [];
    const isOpen = looks < 0 ? v.bounds.max[axis] > near - SAME : v.bounds.min[axis] < near + SAME;
    const right = Math.max(inPicture(view, v.bounds.min).u, inPicture(view, v.bounds.max).u);
    if (!isOpen || right > view.width - SAME) return [];
    const edges = outlineIn(v, view);
    return edges.length > 0 ? [{ feature: v.feature, edges }] : [];
  });
});

/** As it is looked into; nothing of what lies across. */
export function outlineIn(v: Void, view: View): readonly Edge[] {
  const { axis } = view;
  if (standing(v, axis) !== 'along') return [];
  const at = (w: number) => v.frame.origin[axis] + v.frame.w[axis] * w;
  return sectionOf(v, axis, (at(v.from) + at(v.to)) / 2).sheet.edges.map((e) => mapEdge(view.map, e));
}

export function isIn({ edges }: Pick<Outline, 'edges'>, { u, v }: Point2): boolean {
  return windingOf(edges, u, v) !== 0;
}

/** Whether a line from a place outside it runs through it. */
export function passes(from: Point2, to: Point2, outline: Outline): boolean {
  if (isIn(outline, from) || Math.hypot(to.u - from.u, to.v - from.v) < ROUNDING) return false;
  const way = line(from, to);
  const found: Point2[] = [];
  for (const e of outline.edges) meet(way, e, SAME, found);
  return found.length > 0;
}
