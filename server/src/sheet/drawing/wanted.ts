/** The numbers along two sides of a view: where its features are, and the sizes of the body that no view before it says. */
import type { View } from '../../export/flat/view';
import { AXIS_INDEX } from '../../geometry/vector';
import { type Axis, FACE_PLANE, type Feature, type Length, type Part } from '../../model/model';
import { SAME } from '../../tolerance';
import { limits, sized } from '../part/numbers';
import type { Drafted } from './callout';
import { locatedOf, rowAlong } from './points';

/** In the picture's own millimetres. */
interface Wanted {
  readonly at: number;
  readonly label: string;
  readonly rank: number;
  readonly boxed: boolean;
}

export interface Sides {
  readonly right: readonly Wanted[];
  readonly up: readonly Wanted[];
}

/** `told`: axes whose size stands on a view before. */
export function sidesOf(view: View, features: readonly Feature[], told: ReadonlySet<Axis>, of: Drafted): Sides {
  const found = { right: [] as Wanted[], up: [] as Wanted[] };
  for (const along of ['right', 'up'] as const) {
    const { axis, sign } = view[along];
    const size = of.part.size[AXIS_INDEX[axis]];
    const add = (mm: number, label: string, rank: number, boxed: boolean) => {
      if (mm < -SAME || mm > size + SAME) return;
      found[along].push({ at: sign > 0 ? mm : size - mm, label, rank, boxed });
    };
    const from = of.origin.at(axis);
    add(from, '0', 0, false);
    const whole = told.has(axis) || of.origin.isAcross(axis) ? undefined : bodySize(of.part, axis);
    if (whole) add(size - from, sizeText(whole, of.part), 0, false);
    for (const f of features)
      for (const mm of placesAlong(f, axis)) {
        if (Math.abs(mm - from) < SAME) continue;
        if (whole && !whole.tolerance && Math.abs(mm - (size - from)) < SAME) continue;
        add(mm, of.origin.said(axis, mm), 1, isExact(f, of.part));
      }
  }
  return found;
}

export function placesAlong(feature: Feature, axis: Axis): readonly number[] {
  const { points, outline, circle } = locatedOf(feature);
  if (outline) return [];
  const which = FACE_PLANE[feature.face][0] === axis ? 'u' : 'v';
  const row = circle ? undefined : rowAlong(feature, which);
  return row ? row.ends : points.map((p) => p[which]);
}

/** Its place is held by a position tolerance: the number is the true one (ISO 1101). */
function isExact({ name }: Feature, { tolerances }: Part): boolean {
  return tolerances.some(
    (t) => t.characteristic === 'position' && t.of.some((n) => n.name.replace(/\[\d+\]$/, '') === name),
  );
}

export function bodySize({ body }: Part, axis: Axis): Length | undefined {
  if (!body) return undefined;
  return body.form === 'box' ? body[axis] : body.axis === axis ? body.length : body.diameter;
}

export function sizeText(length: Length, { units }: Part): string {
  const both = length.tolerance && limits(length, units);
  return both ? `${sized(length, units)} (${both})` : sized(length, units);
}
