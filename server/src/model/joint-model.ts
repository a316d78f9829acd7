/** Joints of a job as they are meant. Shapes only; `joints.ts` reads them. What the named parts have is not known here. */
import type { NUTS, Screw, WasherSize } from '../tables/fasteners';
import type { Pin } from '../tables/pins';
import type { Span } from '../text/tree';
import type { Length, Named } from './base';

/** `yoke.block-screws[2]`: a part of the job, and what of it. */
export interface Meeting {
  readonly text: string;
  readonly piece: Named;
  readonly feature: Named;
  readonly span: Span;
}

interface JointBase extends Named {
  readonly times: number;
  readonly whole: Span;
}

export type FitKind = 'clearance' | 'transition' | 'interference';

interface Washer extends WasherSize {
  /** `ISO 7089`; absent: by its own sizes. */
  readonly standard?: string;
  readonly span: Span;
}

export interface Screwed extends JointBase {
  readonly kind: 'screw';
  readonly screw: Screw;
  readonly screwSpan: Span;
  /** From the head on. */
  readonly through: readonly Meeting[];
  readonly into: readonly Meeting[];
  readonly nut?: { readonly standard: keyof typeof NUTS; readonly heightMm: number; readonly span: Span };
  readonly washer?: Washer;
  readonly nutWasher?: Washer;
  /** What the nut is let into. */
  readonly nutIn?: Meeting;
  readonly betweenMm: number;
  readonly with?: Named;
}

export interface Pinned extends JointBase {
  readonly kind: 'pin';
  readonly pin: Pin;
  readonly pinSpan: Span;
  readonly in: readonly Meeting[];
  readonly with?: Named;
}

/** A size of the job’s own, or of a part. */
export type Shaft = { readonly size: Length } | { readonly of: Meeting };

export interface Located extends JointBase {
  readonly kind: 'shaft';
  readonly shaft: Shaft;
  readonly seat: Meeting;
  readonly fit?: { readonly kind: FitKind; readonly span: Span };
}

export interface Bearing extends JointBase {
  readonly kind: 'bearing';
  /** `608`; absent: by its own sizes. */
  readonly designation?: string;
  readonly bore: Length;
  readonly outside: Length;
  readonly width: Length;
  readonly seat?: Meeting;
  readonly shaft?: Shaft;
  readonly fit?: { readonly kind: FitKind; readonly span: Span };
}

export interface Bought extends JointBase {
  readonly kind: 'bought';
  readonly what: string;
  readonly diameter?: Length;
  readonly length?: Length;
  readonly width?: Length;
  readonly height?: Length;
  readonly cornerMm: number;
  readonly seat: Meeting;
  readonly fit?: { readonly kind: FitKind; readonly span: Span };
}

export interface Stacked extends JointBase {
  readonly kind: 'stack';
  readonly heights: readonly {
    readonly sign: 1 | -1;
    readonly height: Shaft;
    readonly text: string;
    readonly span: Span;
  }[];
  readonly leastMm: number;
  readonly mostMm: number;
  readonly leavesSpan: Span;
}

export type Joint = Screwed | Pinned | Located | Bearing | Bought | Stacked;
