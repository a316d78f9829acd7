/** How the work is put in and held, in the order of the hands. */
import type { Solid } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { readMemberName } from '../../model/member-name';
import { FACE_AXIS, FACE_PLANE, FACES, type Face, OPPOSITE, type Part } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import { boxLeft } from '../stock';
import type { SetupInTime } from '../stock/types';
import { atPlate } from '../workholding/angle-plate';
import { gripOf } from '../workholding/contact';
import { isThroughContour } from '../workholding/loose';
import { isFreedOnTabs, tabPlaces } from '../workholding/on-tabs';
import { stateOf } from '../workholding/references';
import { type InVise, type Seating, seatingOf } from '../workholding/seating';
import { needsRoundBar } from '../workholding/square-up';
import { bothOf } from '../workholding/two-pieces';
import { rangeOf } from './read-out';
import { isAcross, toward } from './sides';
import type { Holding, ReadOut, Side } from './types';

interface Held {
  readonly then: SetupInTime;
  readonly part: Part;
  readonly solid: Solid;
  readonly shop: Shop;
  readonly readOut: ReadOut;
}

export function holdingOf(x: Held): Holding {
  const { then, part, shop } = x;
  const { hold } = then.setup;
  const seating = seatingOf(then, part, shop);
  const side = (face: Face): Side => ({ face, state: stateOf(face, then, 0, part, x.solid) });
  const seat = then.up && side(OPPOSITE[then.up]);
  const places = placesOf(x);
  const plate = seating && atPlate(seating, hold, shop);
  const { clock } = then.setup;
  return {
    type: hold?.type,
    ...(hold && { hold }),
    ...(clock && { clock }),
    ...(plate && { plate: { outMm: plate.outMm, hangs: plate.hangs } }),
    ...(seat && { seat }),
    ...(seating?.held && inVise(seating, seating.held, side, x)),
    ...stopOf(x, side),
    ...(places.length > 0 && { places }),
  };
}

/** On the face that is up; at an angle plate, on the one across from it. */
function placesOf({ then, part, readOut }: Held): NonNullable<Holding['places']> {
  const { hold } = then.setup;
  const face = hold?.against ? OPPOSITE[hold.against.name] : then.up;
  if (!hold || !face) return [];
  const axes = (['X', 'Y', 'Z'] as const).filter((k) => readOut[k].axis !== AXIS_INDEX[FACE_AXIS[face].axis]);
  const told = (u: number, v: number) =>
    axes.map((k) => {
      const { axis, zeroMm, sign } = readOut[k];
      return [k, ((AXIS_INDEX[FACE_PLANE[face][0]] === axis ? u : v) - zeroMm) * sign] as const;
    });
  const holes = (hold.screws ?? []).flatMap(({ name }) => {
    const { feature, member } = readMemberName(name);
    const all = part.featureByName.get(feature)?.places ?? [];
    return member === undefined ? all : all.slice(member - 1, member);
  });
  const on = then.cuts.find((c) => isFreedOnTabs(then.setup, c.feature))?.feature;
  const tabs = hold.tabs && isThroughContour(on) ? tabPlaces(on, hold.tabs.count, hold.tabs.width.mm) : [];
  return [...(hold.clamps ?? []), ...holes, ...tabs].map((p) => told(p.u, p.v));
}

function stopOf({ then, readOut }: Held, side: (face: Face) => Side): Pick<Holding, 'stop'> {
  const face = FACES.find((f) => f === then.setup.hold?.stop?.name);
  const at = face && toward(readOut, face);
  return face && at && isAcross(at) ? { stop: { ...side(face), at } } : {};
}

function inVise(seating: Seating, h: InVise, side: (face: Face) => Side, { then, readOut }: Held): Partial<Holding> {
  const [fixed, moving] = [side(h.fixed), side(h.moving)];
  const gripMm = gripOf(seating, h);
  const X = readOut.X;
  const [jawLeft, jawRight] = [h.jawFromMm, h.jawToMm].map((at) => (at - X.zeroMm) * X.sign).sort((a, b) => a - b) as [
    number,
    number,
  ];
  const second = secondOf(seating, h, X);
  const [left, right] = bothOf(rangeOf(X, boxLeft(then.after)), second?.mm);
  const ends = [...FACES].filter((f) => toward(readOut, f) === 'left' || toward(readOut, f) === 'right');
  const end = (at: 'left' | 'right') => ends.find((f) => toward(readOut, f) === at)!;
  const packing = packingOf(bothOf(rangeOf(X, seating.box), second?.mm), [jawLeft, jawRight]);
  const Y = readOut.Y;
  return {
    vise: h.vise,
    fixed,
    moving,
    roundBar: needsRoundBar(fixed.state, moving.state),
    out: {
      left: { face: end('left'), mm: jawLeft - left },
      right: { face: end('right'), mm: right - jawRight },
    },
    ...(second && { second }),
    ...(packing && { packing: { at: packing, widthMm: h.openingMm } }),
    gripMm,
    aboveMm: seating.heightMm - gripMm,
    openingMm: h.openingMm,
    parallelsMm: h.parallelsMm,
    ...(h.pair && {
      pair: {
        widthMm: h.pair.widthMm,
        at: h.pair.at.map(([a, b]) => {
          const on = (mm: number) => (mm - Y.zeroMm) * Y.sign;
          return [Math.min(on(a), on(b)), Math.max(on(a), on(b))] as const;
        }),
      },
    }),
  };
}

/** How far along X the second of two pieces counts from the first. */
function secondOf({ of }: Seating, { secondMm }: InVise, X: ReadOut['X']): Holding['second'] {
  const { pieces } = of.setup.hold ?? {};
  if (secondMm === undefined || !pieces) return undefined;
  return { mm: secondMm * X.sign, gapMm: pieces.gapMm, padMm: pieces.padMm };
}

/** Work that fills less of the jaws, or lies so far off their middle, lets the moving jaw go askew. Common practice, no source. */
const FILLS = 2 / 3;
const OFF = 1 / 6;
/** In the middle, mm. */
const MIDDLE_MM = 2;

/** At which end of the jaws an offcut keeps them apart. */
function packingOf(work: readonly [number, number], jaws: readonly [number, number]): 'left' | 'right' | undefined {
  const [a, b] = [Math.max(work[0], jaws[0]), Math.min(work[1], jaws[1])];
  const wide = jaws[1] - jaws[0];
  const off = (a + b) / 2 - (jaws[0] + jaws[1]) / 2;
  if (b <= a || Math.abs(off) <= MIDDLE_MM) return undefined;
  if ((b - a) / wide >= FILLS && Math.abs(off) <= OFF * wide) return undefined;
  return off > 0 ? 'left' : 'right';
}

/** The plane that the work lies on, and the jaws' tops, as the read-out shows them; tops only where jaws hold it. */
export function heightsOf(
  then: SetupInTime,
  readOut: ReadOut,
  holding: Holding,
): { readonly seatZ: number; readonly topZ: number; readonly jawsZ?: number } {
  const box = boxLeft(then.before);
  const [seatZ, topZ] = rangeOf(readOut.Z, box);
  return { seatZ, topZ, ...(holding.gripMm !== undefined && { jawsZ: seatZ + holding.gripMm }) };
}
