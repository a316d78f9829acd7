/** Where the workpiece lies in a set-up, and what stands round it. Shapes only; mm in part axes. */
import type { Box, Vec3 } from '../../geometry/types';
import type { AxisIndex } from '../../geometry/vector';
import type { Face } from '../../model/model';
import type { Vise } from '../../model/shop-model';
import type { SetupInTime } from '../stock/types';

/** Something a tool must not touch. */
export interface Obstacle {
  readonly what:
    | 'fixed jaw'
    | 'moving jaw'
    | 'parallel'
    | 'stop'
    | 'clamp'
    | 'screw'
    | 'nut'
    | 'V-block'
    | 'angle plate'
    | 'other piece';
  readonly box: Box;
  /** Another piece: how far on from the work it lies. It is made as the work is. */
  readonly on?: Vec3;
}

/** From, to: places along one axis, mm. */
export type Span1 = readonly [number, number];

/** The pair of parallels under the work, along the axis that the jaws close along. */
export interface Pair {
  readonly widthMm: number;
  /** The one at the lower end of the axis first. */
  readonly at: readonly [Span1, Span1];
  /** `moved in`: away from a jaw, clear of what is cut through; `in the way`: no place is clear, they lie against the jaws. */
  readonly lies: 'against the jaws' | 'moved in' | 'in the way';
  /** Where they are in the way: so wide a pair would find a clear place. */
  readonly wouldDoMm?: number;
}

export interface InVise {
  readonly vise: Vise;
  /** Which face lies against the fixed, which against the moving jaw. */
  readonly fixed: Face;
  readonly moving: Face;
  /** The planes of the two jaws along their axis: the workpiece's own farthest surfaces within the grip. */
  readonly jawAxis: AxisIndex;
  readonly fixedAtMm: number;
  readonly movingAtMm: number;
  /** Between the jaws. */
  readonly openingMm: number;
  /** The same where a V-block or a soft strip is between the moving jaw and the work: so much farther apart. */
  readonly blockMm: number;
  /** Along the jaws: where they begin and end, and where the workpiece does within the grip. */
  readonly alongAxis: AxisIndex;
  readonly jawFromMm: number;
  readonly jawToMm: number;
  /** Of two vises in line, what lies between their jaws. */
  readonly gapMm?: Span1;
  /** Of two pieces in the jaws: how far along the part's axis the second lies from the first, which the rest here is of. */
  readonly secondMm?: number;
  readonly workFromMm: number;
  readonly workToMm: number;
  /** Height of the pair under the work; 0 where it lies on the bed of the vise. */
  readonly parallelsMm: number;
  /** As written, or chosen from those on hand. */
  readonly parallelsWritten: boolean;
  /** What the pair would have to be for the grip that is written. */
  readonly parallelsWantedMm: number;
  /** Where that pair lies; absent on the bed. */
  readonly pair?: Pair;
  /** Height of the jaws' tops above the lowest surface. */
  readonly gripMm: number;
}

export interface Seating {
  readonly of: SetupInTime;
  readonly up: Face;
  /** The part axis along the spindle, and which way along it is up. */
  readonly upAxis: AxisIndex;
  readonly upSign: 1 | -1;
  /** What is there when the set-up begins. */
  readonly box: Box;
  /** Of the lowest and the highest surface, along the part axis that is up. */
  readonly lowestMm: number;
  readonly highestMm: number;
  readonly heightMm: number;
  /** Absent where no vise holds it, or the text does not say. */
  readonly held?: InVise;
  readonly obstacles: readonly Obstacle[];
  /** What tools keep away from: of two pieces in the vise, as either has it about itself. */
  readonly avoided: readonly Obstacle[];
}

/** How far above the lowest surface a height along the part's up axis is. */
export function aboveLowest(s: Pick<Seating, 'lowestMm' | 'upSign'>, at: number): number {
  return (at - s.lowestMm) * s.upSign;
}
