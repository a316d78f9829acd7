/** What stands round the work in a set-up, to size, and what hands measure before they begin: how much is held, what stands out. */
import type { Vec3 } from '../../geometry/types';
import type { AxisIndex } from '../../geometry/vector';
import { FACE_AXIS, type Hold, type Part } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import type { SetupInTime } from '../../process/stock/types';
import { atPlate } from '../../process/workholding/angle-plate';
import { boxOf } from '../../process/workholding/boxes';
import { gripOf } from '../../process/workholding/contact';
import { alongOf } from '../../process/workholding/jaws-along';
import type { InVise, Seating } from '../../process/workholding/seating';
import { veesOf } from '../../process/workholding/v-block';
import { formatLength } from '../../text/format';
import { SAME } from '../../tolerance';
import type { PictureSetup, PictureThing } from './protocol';

/** How far a plate or the table is drawn beyond the work, and how thick: only that the work lies on it is known. */
const BEYOND_MM = 30;
const THICK_MM = 12;
/** What is left of a soft jaw behind the work. Common practice, no source. */
const SOFT_BEHIND_MM = 15;

export function aroundOf(seating: Seating, hold: Hold | undefined, shop: Shop): readonly PictureThing[] {
  const vees = hold ? veesOf(seating, seating.held, hold, shop).map(asPrism) : [];
  const boxes = seating.obstacles.filter((o) => vees.length === 0 || o.what !== 'V-block');
  const known: readonly PictureThing[] = [
    ...rounded(
      boxes.map(({ what, box }) => ({ what, ...box })),
      seating.upAxis,
    ),
    ...vees,
  ];
  if (!hold) return known;
  const { held } = seating;
  if (held) return hold.type === 'soft-jaws' ? [...known, ...softJaws(seating, held)] : known;
  const lies = ON_TABLE.has(hold.type)
    ? [under(seating, known, (hold.on ?? (hold.type === 'screws' ? 'plate' : 'table')) === 'plate')]
    : [];
  return [...known, ...lies];
}

const ON_TABLE: ReadonlySet<Hold['type']> = new Set<Hold['type']>([
  'clamps',
  'screws',
  'tabs',
  'v-block',
  'angle-plate',
]);

/** What is round is judged as several boxes about one axis: it is drawn by the corners of all of them, which lie on its rim. */
function rounded(boxes: readonly PictureThing[], upAxis: AxisIndex): readonly PictureThing[] {
  const [a, b] = ([0, 1, 2] as const).filter((i) => i !== upAxis) as [AxisIndex, AxisIndex];
  const middle = ({ min, max }: PictureThing) => [0, 1, 2].map((i) => ((min[i]! + max[i]!) / 2).toFixed(6)).join();
  const groups = new Map<string, PictureThing[]>();
  for (const box of boxes) {
    const key = `${box.what} ${middle(box)}`;
    groups.set(key, [...(groups.get(key) ?? []), box]);
  }
  return [...groups.values()].map((group): PictureThing => {
    const [first, ...others] = group as [PictureThing, ...PictureThing[]];
    if (others.length === 0) return first;
    const [u, v] = [a, b].map((i) => (first.min[i] + first.max[i]) / 2) as [number, number];
    const outline = group
      .flatMap(({ min, max }) => [min[a], max[a]].flatMap((x) => [min[b], max[b]].map((y) => [x, y] as const)))
      .toSorted(([x, y], [p, q]) => Math.atan2(y - v, x - u) - Math.atan2(q - v, p - u));
    return { what: first.what, ...reachOf(group), along: upAxis, outline };
  });
}

function reachOf(boxes: readonly PictureThing[]): Pick<PictureThing, 'min' | 'max'> {
  const each = (pick: (...n: number[]) => number, of: 'min' | 'max') =>
    [0, 1, 2].map((i) => pick(...boxes.map((box) => box[of][i]!))) as unknown as Vec3;
  return { min: each(Math.min, 'min'), max: each(Math.max, 'max') };
}

function asPrism({ along, span, outline }: ReturnType<typeof veesOf>[number]): PictureThing {
  const [a, b] = ([0, 1, 2] as const).filter((i) => i !== along) as [AxisIndex, AxisIndex];
  const reach = (k: 0 | 1) => {
    const all = outline.map((p) => p[k]);
    return [Math.min(...all), Math.max(...all)] as const;
  };
  return { what: 'V-block', ...boxOf({ [along]: span, [a]: reach(0), [b]: reach(1) }), along, outline };
}

/** Milled to the work: each from the middle of the opening to behind the work, as high as the grip. The work stands in them. */
function softJaws(seating: Seating, h: InVise): readonly PictureThing[] {
  const middle = (h.fixedAtMm + h.movingAtMm) / 2;
  const one = (face: InVise['fixed'], at: number): readonly PictureThing[] => {
    const { sign } = FACE_AXIS[face];
    return alongOf(h).map((along) => ({
      what: 'soft jaw',
      ...boxOf({
        [seating.upAxis]: [
          seating.lowestMm - seating.upSign * h.parallelsMm,
          seating.lowestMm + seating.upSign * h.gripMm,
        ],
        [h.alongAxis]: along,
        [h.jawAxis]: [middle + sign * 1, at + sign * SOFT_BEHIND_MM],
      }),
    }));
  };
  return [...one(h.fixed, h.fixedAtMm), ...one(h.moving, h.movingAtMm)];
}

/** The plate or table under the work, or under what carries it. */
function under(seating: Seating, known: readonly PictureThing[], onPlate: boolean): PictureThing {
  const { upAxis, upSign, box } = seating;
  const carriers = known.filter((k) => k.what === 'V-block' || k.what === 'angle plate');
  const lows = carriers.map(({ min, max }) => (upSign > 0 ? min[upAxis] : max[upAxis]));
  const top = [seating.lowestMm, ...lows].reduce((a, b) => ((b - a) * upSign < 0 ? b : a));
  const all = [box, ...carriers];
  const spans = [0, 1, 2].map((i): readonly [number, number] =>
    i === upAxis
      ? [top, top - upSign * THICK_MM]
      : [Math.min(...all.map((b) => b.min[i]!)) - BEYOND_MM, Math.max(...all.map((b) => b.max[i]!)) + BEYOND_MM],
  );
  return { what: onPlate ? 'plate' : 'table', ...boxOf({ 0: spans[0]!, 1: spans[1]!, 2: spans[2]! }) };
}

type Lengths = NonNullable<PictureSetup['lengths']>;

export function lengthsOf(made: SetupInTime, seating: Seating, part: Part, shop: Shop): Lengths {
  const told = (mm: number) => formatLength(Math.round(mm * 1000) / 1000, part.units);
  const { held, upAxis, upSign, lowestMm, highestMm, box } = seating;
  const corner = (axis: AxisIndex, at: number, level: number): Vec3 => {
    const p: [number, number, number] = [box.max[0], box.min[1], box.min[2]];
    p[axis] = at;
    p[upAxis] = level;
    return p;
  };
  if (held) return inJaws(seating, held, told);
  const plate = atPlate(seating, made.setup.hold, shop);
  if (plate) {
    const axis = FACE_AXIS[plate.against].axis === 'x' ? 0 : FACE_AXIS[plate.against].axis === 'y' ? 1 : 2;
    const top = highestMm - upSign * plate.outMm;
    const line: Lengths[number] = {
      at: [corner(axis, plate.atMm, top), corner(axis, plate.atMm, highestMm)],
      text: plate.outMm >= 0 ? `${told(plate.outMm)} above the plate` : `${told(-plate.outMm)} below its top`,
    };
    return Math.abs(plate.outMm) > SAME ? [line] : [];
  }
  const first = (upAxis === 0 ? 1 : 0) as AxisIndex;
  const at = box.max[first];
  return [{ at: [corner(first, at, lowestMm), corner(first, at, highestMm)], text: `${told(seating.heightMm)} high` }];
}

/** Beside the moving jaw, where who stands at the machine holds the rule. */
function inJaws(seating: Seating, h: InVise, told: (mm: number) => string): Lengths {
  const { upAxis, upSign, lowestMm, highestMm, box } = seating;
  const gripMm = gripOf(seating, h);
  const top = lowestMm + upSign * gripMm;
  const at = (along: number, level: number): Vec3 => {
    const p: [number, number, number] = [0, 0, 0];
    p[upAxis] = level;
    p[h.jawAxis] = h.movingAtMm;
    p[h.alongAxis] = along;
    return p;
  };
  const end = Math.min(box.max[h.alongAxis], h.workToMm);
  const lengths: Lengths[number][] = [
    { at: [at(end, lowestMm), at(end, top)], text: `${told(gripMm)} in the jaws` },
    { at: [at(end, top), at(end, highestMm)], text: `${told(seating.heightMm - gripMm)} above them` },
  ];
  const outs = [
    [h.workFromMm, h.jawFromMm],
    [h.jawToMm, h.workToMm],
  ] as const;
  for (const [from, to] of outs)
    if (to - from > SAME) lengths.push({ at: [at(from, top), at(to, top)], text: `${told(to - from)} out of them` });
  return lengths.filter(({ at: [a, b] }) => a.some((c, i) => Math.abs(c - b[i]!) > SAME));
}
