/**
 * The workpiece in time: what it is before and after every cut of every setup. Shapes only.
 *
 * A workpiece is the stock with what was cut from it so far, in part axes and in the same form as the finished part
 * (`body` and `voids`), so that columns, sections, distances and volumes work on it as they do on the part. The stock's
 * box reaches beyond the finished body by what is left on each face; the part's own axes and zero stay where they are.
 */
import type { BodyShape, Void } from '../../geometry/types';
import type { Face, Feature, Setup } from '../../model/model';
import type { Span } from '../../text/tree';

/** Where a cut stops, along the spindle's axis, mm. */
export interface Stop {
  readonly at: number;
  /** That is where all of it ends. */
  readonly ends: boolean;
}

/** How much of a feature or face one set-up takes: half its depth, or so many mm of it. */
export type Share = 'half' | number;

export interface Workpiece {
  readonly body: BodyShape;
  readonly voids: readonly Void[];
}

/** One entry of a setup's `cuts`. */
export interface Cut {
  /** Which setup, and which cut in it, from 0. */
  readonly setup: number;
  readonly order: number;
  /** As written: a feature's name, or a face's: facing it down to the body. */
  readonly name: string;
  readonly feature?: Feature;
  readonly face?: Face;
  /** Only so far down in this set-up; absent: all of it that is left. */
  readonly share?: Share;
  /** Where it stops then. */
  readonly stop?: Stop;
  readonly span: Span;
  /**
   * What it removes: the feature's own volumes, carried on through the stock that is left outside the body where they
   * open to it, down to where this set-up stops; of a face, what is left over it. Each of `of` the feature that made it, or named after the face.
   */
  readonly removes: readonly Void[];
  readonly before: Workpiece;
  readonly after: Workpiece;
}

/** The part sawn off its bar after the cuts of a set-up. */
export interface SawnOff {
  readonly face: Face;
  /** What stays on the face, mm. */
  readonly leaveMm: number;
  /** What is beyond that: the kerf, and the bar that the next part comes off. */
  readonly restMm: number;
  readonly span: Span;
  readonly removes: readonly Void[];
}

export interface SetupInTime {
  readonly setup: Setup;
  readonly index: number;
  /** Absent where the text does not say. */
  readonly up: Face | undefined;
  readonly before: Workpiece;
  /** After its cuts, still held. */
  readonly after: Workpiece;
  readonly cuts: readonly Cut[];
  readonly sawnOff?: SawnOff;
  /** What the next set-up begins with. */
  readonly leaves: Workpiece;
}

export interface Timeline {
  readonly stock: Workpiece;
  readonly setups: readonly SetupInTime[];
  /** Features, and faces with stock left on them, that no setup cuts. */
  readonly unassigned: readonly (Feature | Face)[];
}
