/**
 * The shapes geometry works with: outlines of lines and arcs, and the volumes a feature removes, in millimetres.
 * Types only; each file beside this one makes or measures them.
 */
import type { Face } from '../model/model';

export interface Point2 {
  readonly u: number;
  readonly v: number;
}
export type Vec3 = readonly [x: number, y: number, z: number];

export interface LineEdge {
  readonly type: 'line';
  readonly a: Point2;
  readonly b: Point2;
  /** Which corner of the path it leaves, for pointing at text. */
  readonly corner?: number;
}
export interface ArcEdge {
  readonly type: 'arc';
  readonly a: Point2;
  readonly b: Point2;
  readonly centre: Point2;
  readonly radius: number;
  /** From a to b counter-clockwise. A full circle has a = b. */
  readonly ccw: boolean;
  readonly corner?: number;
}
export type Edge = LineEdge | ArcEdge;

/** A closed chain of edges: each ends where the next begins. Outer loops run counter-clockwise, holes clockwise. */
export interface Loop {
  readonly edges: readonly Edge[];
}
export interface Region {
  readonly outer: Loop;
  readonly holes: readonly Loop[];
}

/** A right-handed or left-handed frame: `w` points from the feature's face into the material. Unit vectors, orthogonal. */
export interface Frame {
  readonly origin: Vec3;
  readonly u: Vec3;
  readonly v: Vec3;
  readonly w: Vec3;
}

export interface Box {
  readonly min: Vec3;
  readonly max: Vec3;
}

/**
 * How the section of a removed volume changes with depth w in [from, to]:
 * `straight`: the region all the way;
 * `taper`: the region inset (positive = smaller) by a length that runs linearly from `insetFrom` at `from` to `insetTo` at `to`
 *   (a drill point, a countersink, a dovetail, a chamfered rim);
 * `floor`: straight, with a fillet of `radius` between wall and floor at `to` (bull-nose or ball cutter).
 * `round`: widest at `from`, it comes in along a quarter circle, as a rounded rim does: d below `from` it is inset by
 *   √(radius² − (radius − d)²). `radius` is to − from.
 */
export type Profile =
  | { readonly type: 'straight' }
  | { readonly type: 'taper'; readonly insetFrom: number; readonly insetTo: number }
  | { readonly type: 'floor'; readonly radius: number }
  | { readonly type: 'round'; readonly radius: number };

export type VoidRole =
  | 'bore'
  | 'point'
  | 'counterbore'
  | 'countersink'
  | 'pocket'
  | 'slot'
  | 'undercut'
  | 'step'
  | 'contour'
  | 'edge'
  | 'groove'
  | 'engraving'
  | 'slope';

/** One removed volume: an outline swept along its frame's w, straight or with a profile. */
export interface Void {
  readonly feature: string;
  /** 0 for a lone feature, 1, 2, … for the members of a pattern. */
  readonly member: number;
  readonly role: VoidRole;
  readonly frame: Frame;
  readonly region: Region;
  readonly from: number;
  readonly to: number;
  readonly profile: Profile;
  /** Goes out of the body on its far side. What does not ends on a floor inside, which walls are measured from too. */
  readonly through: boolean;
  /** Drawn from its side: both ends are walls, whichever way it is turned. */
  readonly endsAreWalls?: boolean;
  readonly bounds: Box;
}

export type BodyShape =
  | { readonly form: 'box'; readonly box: Box }
  | { readonly form: 'round'; readonly box: Box; readonly axis: 0 | 1 | 2; readonly radius: number };

/** Least material between two removed volumes, or between one and the outside. */
export interface Wall {
  readonly thicknessMm: number;
  readonly a: Void;
  /** Another removed volume, the same one (two arms of one outline), or a face of the body. */
  readonly b: Void | Face;
  /** The two ends of the shortest line through the material. */
  readonly at: readonly [Vec3, Vec3];
  /** How far the wall stands along the cutters' axis: the overlap in depth of the two (0 for a floor). */
  readonly heightMm: number;
  /** Along the wall: how far it stays within 1.5 × the thickness, at least. */
  readonly lengthMm: number;
  /** `wall` between two sides, `floor` under a bottom. */
  readonly type: 'wall' | 'floor';
}

export interface Measures {
  readonly volumeMm3: number;
  readonly centroid: Vec3;
  /** False where the number is an approximation (then it must not be shown as exact). */
  readonly exact: boolean;
}

/** The part's geometry, worked out on demand and kept as long as the features it came from. */
export interface Solid {
  readonly body: BodyShape;
  readonly voids: readonly Void[];
  voidsOf(feature: string): readonly Void[];
  /** Of the finished part, overlaps counted once. */
  readonly measures: Measures;
  /**
   * Every wall thinner than `belowMm`, thinnest first; a gap that another feature removes is none. Where what lies askew
   * is held all round (`walls/order.ts`), only those thinner than `heldMm` need be there.
   */
  walls(belowMm: number, heldMm?: number): readonly Wall[];
  /** Pairs of volumes between which no such wall was looked for, as too many run into each other. */
  unjudgedWalls(belowMm: number, heldMm?: number): number;
  /** Volume that this void alone removes inside the body, mm³: 0 where it lies wholly in what others remove. */
  aloneMm3(v: Void): number;
  /** Volume shared by two voids inside the body, mm³. */
  sharedMm3(a: Void, b: Void): number;
  /** Volume of one void inside the body, mm³, and the whole of it, for `outside-body`. */
  insideMm3(v: Void): number;
  /** True where the point is material of the finished part. */
  isMaterial(p: Vec3): boolean;
  /** Connected lumps of material: 1 for a sound part. */
  readonly pieces: number;
}
