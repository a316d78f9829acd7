/**
 * Work on the end of its bar: everything that can be is cut with the bar's other end in the jaws, and the part is sawn off
 * last. So small parts are made, and long ends are not milled into chips.
 */
import type { Solid } from '../geometry/types';
import { AXIS_INDEX } from '../geometry/vector';
import { barOf } from '../model/bar';
import { FACE_AXIS, type Face, type Hold, OPPOSITE, type Part, type SawCut, type Setup } from '../model/model';
import { RUN_OUT_MM } from '../process/stock/sawn-off';
import type { Span } from '../text/tree';
import { SAME } from '../tolerance';
import { maskOf } from './directions';
import { type Item, needed } from './item';
import type { Pose } from './poses';

/** So much of a bar is held by and sawn off; of less a mill makes chips. Common practice, no source. */
const HELD_BY_MM = 15;
/** What the saw leaves to be milled; where it wanders farther, more. Common practice, no source. */
const LEAVE_MM = 1;
/** How far a saw cut is out of square over 100 mm, as `wander` of stock/extra. */
const WANDER_SHARE = 0.005;
const STEP_MM = 0.5;
/** Sawn when all else is there. */
const SAW_STAGE = 9;

interface OffBar {
  readonly face: Face;
  readonly leaveMm: number;
}

/** The face at which it is sawn off: where enough of its bar is left, and no outline frees it there. */
function endOfBar(part: Part, items: readonly Item[]): OffBar | undefined {
  const bar = barOf(part);
  const ends = items.filter((i) => i.face && bar?.axis === FACE_AXIS[i.face].axis && i.overMm! >= HELD_BY_MM);
  const [end] = ends.toSorted((a, b) => b.overMm! - a.overMm!);
  if (!bar || !end || items.some((i) => i.brings?.includes(end.index))) return undefined;
  const wander = Math.ceil((WANDER_SHARE * bar.sectionMm[0]) / STEP_MM - SAME) * STEP_MM;
  return { face: end.face!, leaveMm: Math.max(LEAVE_MM, wander) };
}

interface OnBar {
  readonly part: Part;
  readonly items: readonly Item[];
}

/** The same to be planned so: one more thing to do, that waits for all that the bar is not in the way of. */
export function sawnOffLast(part: Part, items: readonly Item[]): OnBar | undefined {
  const off = endOfBar(part, items);
  if (!off) return undefined;
  const { face, leaveMm } = off;
  const end = items.find((i) => i.face === face)!;
  const late = new Set(items.filter((i) => i === end || i.from === maskOf([face])).map((i) => i.index));
  for (let size = 0; size !== late.size; ) {
    size = late.size;
    for (const i of items) if (i.after.some((a) => late.has(a))) late.add(i.index);
  }
  const index = items.length;
  const saw: Item = {
    index,
    name: `${face}, sawn off`,
    sawn: face,
    overMm: end.overMm!,
    grips: true,
    from: maskOf(['left', 'right', 'front', 'back', 'bottom', 'top']),
    after: needed(items)
      .filter((i) => !late.has(i.index) && i.from !== 0)
      .map((i) => i.index),
    stage: SAW_STAGE,
    volumeMm3: 0,
  };
  const { grips: _, ...faced } = end;
  const others = items.map((i) => {
    if (i === end) return { ...faced, overMm: leaveMm, after: [...i.after, index] };
    return late.has(i.index) ? { ...i, after: [...i.after, index] } : i;
  });
  const { span } = part.stock;
  const offBar = { face, leave: { mm: leaveMm, text: String(leaveMm), span } };
  return { part: { ...part, stock: { ...part.stock, offBar } }, items: [...others, saw] };
}

/** What a set-up that ends with it says. */
export function sawCutOf(cut: readonly Item[], { stock: { offBar } }: Part, span: Span): Pick<Setup, 'sawnOff'> {
  if (!offBar || !cut.some((i) => i.sawn)) return {};
  const sawnOff: SawCut = { name: offBar.face, leave: offBar.leave, span, whole: span };
  return { sawnOff };
}

/** Still on its bar, which lies along the jaws. */
export function onItsBar({ up, jaws }: Pick<Pose, 'up' | 'jaws'>, { stock: { offBar } }: Part, raw: Raw): boolean {
  if (!offBar || jaws.length === 0 || (raw.get(offBar.face) ?? 0) <= offBar.leave.mm + SAME) return false;
  return ![up, ...jaws].some((f) => FACE_AXIS[f].axis === FACE_AXIS[offBar.face].axis);
}

type Raw = ReadonlyMap<Face, number>;

interface Ways {
  readonly pose: Pose;
  readonly part: Part;
  readonly solid: Solid;
  readonly raw: Raw;
  readonly clearMm: number;
}

/**
 * Its finished length and what is milled beyond that stand out of the jaws; no stop, for the bar is shorter with each piece:
 * zero comes from its free end.
 */
export function hangingOut(setup: Setup, lot: readonly Item[], ways: Ways): Setup {
  const { part, solid, raw, clearMm, pose } = ways;
  if (!onItsBar(pose, part, raw)) return setup;
  const { face } = part.stock.offBar!;
  const { axis } = FACE_AXIS[face];
  const i = AXIS_INDEX[axis];
  const { min, max } = solid.body.box;
  const free = OPPOSITE[face];
  const beyond = lot.some((item) => runsOut(item, face, solid)) ? RUN_OUT_MM : 0;
  const mm = max[i] - min[i] + (raw.get(free) ?? 0) + part.stock.offBar!.leave.mm + beyond + clearMm;
  const by = Math.ceil(mm / STEP_MM - SAME) * STEP_MM;
  const { stop: _, ...held } = setup.hold!;
  const hold: Hold = { ...held, overhang: { face: free, by: { mm: by, text: String(by), span: held.span } } };
  return { ...setup, hold, zero: { ...setup.zero, [axis]: { name: free, span: setup.span } } };
}

/** It is cut on past that end of the body. */
function runsOut({ face, feature }: Item, end: Face, solid: Solid): boolean {
  if (face) return FACE_AXIS[face].axis !== FACE_AXIS[end].axis;
  const { axis, sign } = FACE_AXIS[end];
  const i = AXIS_INDEX[axis];
  const { min, max } = solid.body.box;
  const voids = feature ? solid.voidsOf(feature.name) : [];
  return voids.some(({ bounds: b }) => (sign > 0 ? b.max[i] >= max[i] - SAME : b.min[i] <= min[i] + SAME));
}
