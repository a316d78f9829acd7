/** Views on a sheet: aligned as they are projected, with room for what stands round each, at the largest scale that fits. */
import { type Box, type Figure, type Mark, moved } from '../draw/marks';
import { type Scale, scaleFor } from '../view/projected';
import type { Drafted } from './callout';
import { Room } from './packing';
import type { Plans } from './plans';
import { type ViewFigure, type ViewPlan, viewFigure } from './view-figure';

interface Placed {
  readonly marks: readonly Mark[];
  readonly boxes: readonly Box[];
  readonly w: number;
  readonly h: number;
  readonly dropped: number;
}

const GAP = 3;

/** The views about the upper left corner of all of them. */
function gridAt({ columns }: Plans, scale: number, of: Drafted): Placed {
  const made = columns.map((c) => c.map((plan) => plan && viewFigure(plan, scale, of)));
  const rows = Math.max(0, ...made.map((c) => c.length));
  const widest = (c: readonly (ViewFigure | undefined)[], of1: (f: ViewFigure) => number) =>
    Math.max(0, ...c.map((f) => (f ? of1(f) : 0)));
  const inRow = (r: number) => made.flatMap((c) => c[r] ?? []);
  const feet: number[] = [];
  let y = 0;
  for (let r = 0; r < rows; r++) {
    y += Math.max(0, ...inRow(r).map((f) => f.up));
    feet.push(y);
    y += Math.max(0, ...inRow(r).map((f) => f.down)) + GAP;
  }
  const marks: Mark[] = [];
  const boxes: Box[] = [];
  let x = 0;
  for (const c of made) {
    x += widest(c, (f) => f.left);
    for (const [r, f] of c.entries()) {
      if (!f) continue;
      const foot = feet[r]!;
      marks.push(...moved(f.marks, x, foot));
      boxes.push({ x0: x - f.left, x1: x + f.right, y0: foot - f.up, y1: foot + f.down });
    }
    x += widest(c, (f) => f.right) + GAP;
  }
  const dropped = made.flat().reduce((sum, f) => sum + (f?.dropped ?? 0), 0);
  return { marks, boxes, w: x - GAP, h: y - GAP, dropped };
}

/** What goes on a sheet besides its views, by scale. */
type Beside = (scale: number) => readonly Figure[];

export interface Arranged {
  readonly scale: Scale;
  readonly marks: readonly Mark[];
  readonly room: Room;
  /** Whether all of it is there. */
  readonly whole: boolean;
  /** What found no room beside the views. */
  readonly leftOut: readonly Figure[];
}

interface On {
  /** Where figures may stand, and what is taken of it. */
  readonly field: Box;
  readonly taken: Box;
}

/** At the largest scale at which views and what goes beside them fit; where none does, the views alone. */
export function arranged(plans: Plans, of: Drafted, beside: Beside, on: On): Arranged {
  for (const whole of [true, false]) {
    let found: Arranged | undefined;
    scaleFor((s) => {
      found = at(plans, of, beside(s), { ...on, scale: s });
      return found !== undefined && (!whole || found.whole);
    });
    if (found && (!whole || found.whole)) return { ...found, scale: scaleFor((s) => s === found!.scale.scale) };
  }
  const none = gridAt(plans, 0.02, of);
  return {
    scale: scaleFor((s) => s === 0.02),
    marks: moved(none.marks, on.field.x0, on.field.y0),
    room: new Room(on.field),
    whole: false,
    leftOut: beside(0.02),
  };
}

function at(
  plans: Plans,
  of: Drafted,
  beside: readonly Figure[],
  { field, taken, scale }: On & { readonly scale: number },
): Arranged | undefined {
  // A picture that is larger than the field is not worked out with all that stands round it.
  const views = plans.columns.flat().filter((p): p is ViewPlan => p !== undefined);
  if (
    views.some(
      ({ drawn: { view } }) => view.width * scale > field.x1 - field.x0 || view.height * scale > field.y1 - field.y0,
    )
  )
    return undefined;
  const grid = gridAt(plans, scale, of);
  const room = new Room(field);
  room.take(taken);
  if (grid.dropped > 0 || grid.w > field.x1 - field.x0 || grid.h > field.y1 - field.y0) return undefined;
  const boxes = grid.boxes.map((b) => shifted(b, field.x0, field.y0));
  if (boxes.some((b) => b.x1 > taken.x0 && b.y1 > taken.y0)) return undefined;
  for (const b of boxes) room.take({ ...b, x1: b.x1 + GAP, y1: b.y1 + GAP });
  const marks = moved(grid.marks, field.x0, field.y0);
  const left: Figure[] = [];
  for (const f of beside) {
    if (f.h === 0) continue;
    const place = room.place(f.w + GAP, f.h + GAP);
    if (place) marks.push(...moved(f.marks, place.x, place.y));
    else left.push(f);
  }
  return { scale: { scale, words: '' }, marks, room, whole: left.length === 0, leftOut: left };
}

function shifted({ x0, y0, x1, y1 }: Box, dx: number, dy: number): Box {
  return { x0: x0 + dx, y0: y0 + dy, x1: x1 + dx, y1: y1 + dy };
}
