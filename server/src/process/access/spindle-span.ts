/** Where the spindle's axis goes in a set-up, across the table: beyond the work by the cutter's radius where it cuts along an outside. */
import type { Solid, Vec3 } from '../../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { FACE_AXIS, type Face, type Part } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import type { Cut, SetupInTime } from '../stock/types';
import { seatingOf } from '../workholding/seating';
import { toolFor } from './';
import { milledOf } from './candidates';
import { alongSpindle, standsIn } from './cutter-locations';
import { faceStands, leftOver } from './facing';
import { shapeOf } from './shape';

/** From the first to the last place along each part axis, mm, and the cutter that goes to each end. */
interface SpindleSpan {
  readonly mm: readonly [number, number, number];
  readonly radiusMm: readonly [number, number, number];
  readonly tools: readonly [string, string, string];
}

interface Place {
  readonly at: Vec3;
  readonly radiusMm: number;
  readonly tool: string;
}

interface Asked {
  readonly part: Part;
  readonly solid: Solid;
  readonly shop: Shop;
}

/** Which way a face that looks up is passed: on from beside, and out to its end. */
type Passes = 'lengthwise' | 'crosswise';

/**
 * It goes no farther than this along each part axis, mm: to the ends of what is cut, and beyond them by the thickest cutter
 * of the shop. Found without a look at any wall.
 */
export function mostSpan(s: SetupInTime, shop: Shop): Vec3 {
  const { cuts } = s;
  const radiusMm = shop.tools.reduce((most, t) => Math.max(most, shapeOf(t, shop).cutRadiusMm), 0);
  const boxes = cuts.flatMap((c) => c.removes.map((v) => v.bounds));
  const along = (i: AxisIndex) =>
    boxes.length === 0
      ? 0
      : Math.max(...boxes.map((b) => b.max[i])) - Math.min(...boxes.map((b) => b.min[i])) + 2 * radiusMm + besideMm(s);
  return [along(0), along(1), along(2)];
}

/** A second piece in the vise is no farther on, along any axis, than the work is long and the gap wide. */
function besideMm({ setup, before }: SetupInTime): number {
  const { pieces } = setup.hold ?? {};
  const { min, max } = before.body.box;
  return pieces ? pieces.gapMm + Math.max(...max.map((m, i) => m - min[i]!)) : 0;
}

/** Undefined where no cut has a place. */
export function spindleSpan(s: SetupInTime, asked: Asked, passes: Passes): SpindleSpan | undefined {
  const { up } = s;
  if (!up) return undefined;
  const first = s.cuts.flatMap((cut) => placesOf(cut, s, up, asked, passes));
  const places = [...first, ...onSecond(first, s, asked)];
  if (places.length === 0) return undefined;
  const along = ([0, 1, 2] as const).map((i) => {
    const low = places.reduce((a, b) => (b.at[i] < a.at[i] ? b : a));
    const high = places.reduce((a, b) => (b.at[i] > a.at[i] ? b : a));
    const end = high.radiusMm >= low.radiusMm ? high : low;
    return { mm: high.at[i] - low.at[i], radiusMm: end.radiusMm, tool: end.tool };
  });
  const of = <T>(pick: (x: (typeof along)[number]) => T) => along.map(pick) as unknown as readonly [T, T, T];
  return { mm: of((x) => x.mm), radiusMm: of((x) => x.radiusMm), tools: of((x) => x.tool) };
}

/** The same on the second of two pieces in the vise. */
function onSecond(first: readonly Place[], s: SetupInTime, { part, shop }: Asked): readonly Place[] {
  const { held } = seatingOf(s, part, shop) ?? {};
  const by = held?.secondMm;
  if (by === undefined) return [];
  return first.map((p) => {
    const at = [...p.at] as [number, number, number];
    at[held!.alongAxis] += by;
    return { ...p, at };
  });
}

function placesOf(cut: Cut, s: SetupInTime, up: Face, inShop: Asked, passes: Passes): readonly Place[] {
  const { shop } = inShop;
  const use = toolFor(cut, s, inShop)[0];
  const radiusMm = use ? shapeOf(use.tool, shop).cutRadiusMm : 0;
  const tool = use?.tool.name ?? '';
  const place = (at: Vec3, r = radiusMm): Place => ({ at, radiusMm: r, tool });
  if (cut.face === up) return overFace(cut, up, radiusMm, passes).map((p) => place(p));
  if (cut.face) return faceStands({ cut, up }, radiusMm).map((p) => place(p));
  if (cut.feature?.kind === 'hole')
    return cut.removes.map(({ bounds: { min, max } }) =>
      place([(min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2], 0),
    );
  const stands = milledOf(cut).flatMap((v) => standsIn(alongSpindle(v, up), cut.after, up, radiusMm));
  if (stands.length > 0) return stands.map((p) => place(p));
  return cut.removes.flatMap(({ bounds: { min, max } }) => [place(min, 0), place(max, 0)]);
}

/** On from beside, a radius out at one end, to the other end; across, so that the mill's edge reaches both sides. */
function overFace(cut: Cut, up: Face, radiusMm: number, passes: Passes): readonly Vec3[] {
  const left = leftOver(cut);
  if (!left) return [];
  const { min, max } = left;
  const upAxis = AXIS_INDEX[FACE_AXIS[up].axis];
  const plane = ([0, 1, 2] as const).filter((i) => i !== upAxis) as [AxisIndex, AxisIndex];
  const size = (i: AxisIndex) => max[i] - min[i];
  const [longer, shorter] = size(plane[0]) >= size(plane[1]) ? plane : [plane[1], plane[0]];
  const [long, short] = passes === 'lengthwise' ? [longer, shorter] : [shorter, longer];
  const inset = Math.min(radiusMm, size(short) / 2);
  const at = (l: number, w: number): Vec3 => {
    const p: [number, number, number] = [min[0], min[1], min[2]];
    p[long] = l;
    p[short] = w;
    return p;
  };
  return [at(min[long] - radiusMm, min[short] + inset), at(max[long], max[short] - inset)];
}
