/**
 * What a finding carries for the fixes of its rule: plain data with nothing of the solid in it but numbers and names, so
 * that it can cross to another thread.
 */
import type { Frame, Point2, Void, Wall } from '../geometry/types';
import type { Face } from '../model/model';

/** A removed volume as one side of a wall: whose it is, and how it lies. */
export interface CutSide extends Pick<Void, 'feature' | 'member' | 'role'> {
  readonly frame: Frame;
}

/** A wall between two cuts, or between a cut and a face of the body. */
export interface WallBetween extends Omit<Wall, 'a' | 'b'> {
  readonly a: CutSide;
  readonly b: CutSide | Face;
}

/** A sharp edge at a corner of an outline, or where a cut leaves through a side of the body. */
export interface SharpEdge {
  /** In the plane of the cut. */
  readonly point: Point2;
  readonly cut: CutSide;
  /** The side of the body it breaks, and how far it reaches beyond, mm. */
  readonly breaks?: { readonly face: Face; readonly byMm: number };
}

export interface FindingData {
  readonly wall?: WallBetween;
  /** How thick the wall would have to be. */
  readonly neededMm?: number;
  readonly sharp?: SharpEdge;
}
