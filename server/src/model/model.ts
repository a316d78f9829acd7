/**
 * The part as it is meant: every expression worked out, every length in millimetres, every name looked up, every
 * value with its place in the text. Immutable; a feature whose text and surroundings did not change is the same
 * object in the next snapshot, so work can be kept by object identity.
 *
 * Shapes only. `part.ts` resolves them from the text; geometry (outlines, removed volumes) is made from them one floor up.
 */

import type { ClearanceClass } from '../tables/clearance';
import type { Thread } from '../tables/threads';
import type { Span } from '../text/tree';
import type { Axis, Face } from './faces';

export * from './faces';
export type Units = 'mm' | 'in';

/** A name written in the text. */
export interface Named {
  readonly name: string;
  readonly span: Span;
}

export interface Tolerance {
  /** `±0.05`, `+0.1/-0`, `H7`: as written. */
  readonly text: string;
  /** Limits relative to the nominal, mm; absent for a fit class whose limits are not in the tables. */
  readonly upperMm?: number;
  readonly lowerMm?: number;
  /** `H7` → { letter: 'H', grade: 7 }. */
  readonly fit?: { readonly letter: string; readonly grade: number };
  readonly span: Span;
}

/** A length as written and as worked out. */
export interface Length {
  readonly mm: number;
  readonly tolerance?: Tolerance;
  /** The scalar's text: `pitch / 2 + 3 mm`. */
  readonly text: string;
  /** Where the value stands: the whole scalar. For a default: the entry that left it out. */
  readonly span: Span;
  /** Says where a value that nobody wrote came from; absent where it is written. */
  readonly from?: string;
}

export interface Angle {
  readonly deg: number;
  readonly text: string;
  readonly span: Span;
  readonly from?: string;
}

/** A point in a face's plane: mm along the two part axes of `FACE_PLANE[face]`. */
export interface Place {
  readonly u: number;
  readonly v: number;
  readonly span: Span;
}

/** How deep: from where the feature starts (its face, or the floor named by `from`). */
export interface Depth {
  readonly through: boolean;
  /** For `through`: to the far side of the body. */
  readonly mm: number;
  readonly length?: Length;
  readonly span: Span;
}

export interface Parameter extends Named {
  /** A length in mm, an angle in degrees or a bare number; absent when the expression is broken. */
  readonly value?: { readonly dimension: 'length' | 'angle' | 'number'; readonly value: number };
  readonly text: string;
  readonly valueSpan: Span;
  readonly used: boolean;
}

export type Body =
  | { readonly form: 'box'; readonly x: Length; readonly y: Length; readonly z: Length; readonly span: Span }
  | {
      readonly form: 'round';
      readonly diameter: Length;
      readonly length: Length;
      readonly axis: Axis;
      readonly span: Span;
    };

export type StockForm = 'flat-bar' | 'square-bar' | 'round-bar' | 'plate' | 'block';
export interface Stock {
  /** False when the text says nothing: the stock is the body. */
  readonly written: boolean;
  readonly form: StockForm;
  readonly sawn: readonly (Named & { readonly name: Face })[];
  readonly extra: Readonly<Partial<Record<Face, Length>>>;
  readonly diameter?: Length;
  readonly axis?: Axis;
  readonly span: Span;
}

export interface Pattern {
  readonly type: 'line' | 'grid' | 'bolt-circle' | 'places';
  readonly span: Span;
}

/** One corner of a path; `round`, `bevel` treat this corner, `arc` is a point that the way to the next corner passes through. */
export interface PathCorner {
  readonly u: number;
  readonly v: number;
  readonly round?: Length;
  readonly bevel?: Length;
  readonly arc?: Place;
  readonly span: Span;
}

/** A closed 2-D shape in a face's plane, relative to the feature's place. */
export type Shape =
  | {
      readonly type: 'rectangle';
      readonly u: Length;
      readonly v: Length;
      readonly cornerRadius: Length;
      readonly rotateDeg: number;
      readonly span: Span;
    }
  | { readonly type: 'circle'; readonly diameter: Length; readonly span: Span }
  | { readonly type: 'path'; readonly corners: readonly PathCorner[]; readonly span: Span };

export interface FeatureBase {
  readonly name: string;
  readonly nameSpan: Span;
  /** Key and value: the whole entry in `features`. */
  readonly span: Span;
  readonly kindSpan: Span;
  /** Name of the text block, for edits: `features/mount`. */
  readonly block: string;
  /** The face it is cut from. For chamfers, rounds and grooves in a hole: the face of the edge or hole. */
  readonly face: Face;
  readonly faceSpan: Span;
  readonly from?: Named;
  /** How far below `face` it starts: 0, or the depth of the floor named by `from`. */
  readonly startMm: number;
  /** Where it is, once for each member of a pattern; one place where there is no pattern. */
  readonly places: readonly Place[];
  readonly pattern?: Pattern;
  readonly tilt?: { readonly about: Axis; readonly angle: Angle; readonly span: Span };
  /** Ra in µm. */
  readonly finish?: { readonly raUm: number; readonly span: Span };
  readonly note?: string;
}

export interface Hole extends FeatureBase {
  readonly kind: 'hole';
  /** The drilled (or bored) diameter: as given, or the thread's tap drill, or the clearance of a screw. */
  readonly diameter: Length;
  /** Whether `diameter` is in the text. */
  readonly diameterGiven: boolean;
  readonly thread?: { readonly designation: string; readonly span: Span; readonly spec?: Thread };
  /** The screw that passes through, where the diameter follows from it: named itself, or by its counterbore or countersink. */
  readonly clearance?: { readonly screw: string; readonly fit: ClearanceClass; readonly span: Span };
  readonly depth: Depth;
  readonly bottom: 'cone' | 'flat';
  readonly bottomSpan?: Span;
  readonly point: Angle;
  readonly threadDepth?: Length;
  readonly counterbore?: {
    readonly diameter: Length;
    readonly depth: Length;
    readonly screw?: string;
    readonly span: Span;
  };
  readonly countersink?: {
    readonly diameter: Length;
    readonly angle: Angle;
    readonly screw?: string;
    readonly span: Span;
  };
}

export interface Island extends Named {
  readonly shape: Shape;
  /** Relative to the pocket's place. */
  readonly place: Place;
  /** Above the pocket's floor; the full depth where not written. */
  readonly height: Length;
}

export interface Pocket extends FeatureBase {
  readonly kind: 'pocket';
  readonly shape: Shape;
  readonly depth: Depth;
  readonly floorRadius: Length;
  /**
   * `corner`: a round cut of this diameter through each square inside corner, so that a square mate can seat. Where
   * the text gives no diameter it is the one of `reliefDiameterMm`.
   */
  readonly relief?: { readonly style: 'corner'; readonly diameter: Length; readonly span: Span };
  readonly islands: readonly Island[];
}

export interface Slot extends FeatureBase {
  readonly kind: 'slot';
  /** Centre line, relative to the place, at least two corners, open. */
  readonly line: readonly PathCorner[];
  readonly width: Length;
  readonly depth: Depth;
  readonly floorRadius: Length;
  readonly tee?: { readonly width: Length; readonly height: Length; readonly span: Span };
  readonly dovetail?: { readonly angle: Angle; readonly span: Span };
}

export interface Step extends FeatureBase {
  readonly kind: 'step';
  /** One edge of `face`, or two for a corner. */
  readonly along: readonly (Named & { readonly name: Face })[];
  /** From the body's side, one for each of `along`. */
  readonly widths: readonly Length[];
  readonly depth: Depth;
  readonly floorRadius: Length;
}

export interface Contour extends FeatureBase {
  readonly kind: 'contour';
  /** What stays. */
  readonly shapes: readonly Shape[];
  readonly depth: Depth;
  readonly floorRadius: Length;
}

/** Which edges a chamfer or round breaks. */
export type EdgeChoice =
  | { readonly type: 'face'; readonly face: Face; readonly span: Span }
  | { readonly type: 'edge'; readonly faces: readonly [Face, Face]; readonly span: Span }
  | { readonly type: 'rim'; readonly feature: Named; readonly span: Span };

export interface Chamfer extends FeatureBase {
  readonly kind: 'chamfer';
  readonly edges: readonly EdgeChoice[];
  readonly size: Length;
  /** Between the chamfer and `face`: 45 unless told. */
  readonly angle: Angle;
}

export interface Round extends FeatureBase {
  readonly kind: 'round';
  readonly edges: readonly EdgeChoice[];
  readonly radius: Length;
}

export interface Groove extends FeatureBase {
  readonly kind: 'groove';
  /** On a face: the inner diameter, and the width outward. In a hole: the diameter reached, and the width along the axis. */
  readonly diameter: Length;
  readonly width: Length;
  /** On a face only. */
  readonly depth?: Depth;
  readonly in?: Named;
  /** In a hole: from `face` to the groove's near side. */
  readonly below?: Length;
}

export interface Engraving extends FeatureBase {
  readonly kind: 'engraving';
  readonly text: string;
  readonly height: Length;
  readonly depth: Depth;
  readonly stroke: Length;
}

export interface Incline extends FeatureBase {
  readonly kind: 'incline';
  readonly along: Named & { readonly name: Face };
  /** Between the plane and `face`. */
  readonly angle: Angle;
  /** How far the cut reaches along `face` from the edge, and down the side: each follows from the other by `angle`. */
  readonly widthMm: number;
  readonly depthMm: number;
  /** The one that is written. */
  readonly given: Length;
}

export type Feature = Hole | Pocket | Slot | Step | Contour | Chamfer | Round | Groove | Engraving | Incline;
export type FeatureKind = Feature['kind'];

export interface GeometricTolerance {
  readonly characteristic: string;
  readonly value: Length;
  readonly of: readonly Named[];
  readonly datums: readonly Named[];
  readonly axis?: Axis;
  readonly maximumMaterial: boolean;
  readonly span: Span;
}

export interface Hold {
  readonly type: 'vise' | 'clamps' | 'screws' | 'tabs' | 'soft-jaws' | 'angle';
  readonly vise?: Named;
  /** Fixed, moving. */
  readonly jaws?: readonly (Named & { readonly name: Face })[];
  readonly grip?: Length;
  readonly parallels?: Length;
  readonly stop?: Named;
  /** Where clamps press, in the plane of the face that is up. */
  readonly clamps?: readonly Place[];
  /** Holes that screws go through. */
  readonly screws?: readonly Named[];
  readonly on?: 'table' | 'plate';
  readonly tabs?: { readonly count: number; readonly width: Length; readonly height: Length; readonly span: Span };
  /** Of work held tilted. */
  readonly tilt?: { readonly angle: Angle; readonly about?: Axis };
  readonly span: Span;
}

export interface Setup extends Named {
  readonly up?: Named & { readonly name: Face };
  readonly hold?: Hold;
  readonly zero: Readonly<Partial<Record<Axis, Named>>>;
  readonly method?: Named;
  /** Feature and face names in the order cut. */
  readonly cuts: readonly Named[];
  readonly cutsSpan?: Span;
  readonly machine?: Named;
  readonly tools: readonly { readonly of: Named; readonly tool: Named }[];
  readonly whole: Span;
}

export interface Accept {
  readonly rule: Named;
  readonly of?: Named;
  readonly because?: string;
  readonly span: Span;
}

/** What stands wrong in the text, found while resolving: the `form/*` findings that need no geometry. */
export interface SpecProblem {
  readonly rule:
    | 'form/schema'
    | 'form/unit'
    | 'form/unknown-name'
    | 'form/swallowed-comment'
    | 'thread/unknown'
    | 'stock/unknown-material';
  readonly message: string;
  readonly span: Span;
  /** Feature it is about, where it is about one. */
  readonly of?: string;
  readonly facts?: Readonly<Record<string, number | string>>;
  /** Replacements that cure it, best first. */
  readonly fixes?: readonly {
    readonly title: string;
    readonly edits: readonly { readonly span: Span; readonly newText: string }[];
  }[];
}

export interface Part {
  readonly name: string;
  readonly nameSpan: Span;
  readonly title?: string;
  readonly revision?: string;
  readonly shopPath?: Named;
  readonly units: Units;
  readonly material?: Named;
  readonly quantity: number;
  readonly tolerance?: Named;
  readonly parameters: ReadonlyMap<string, Parameter>;
  /** Absent when it could not be understood: then nothing that needs geometry is judged. */
  readonly body?: Body;
  /** Size of the body's envelope along x, y, z in mm; [0, 0, 0] without a body. */
  readonly size: readonly [number, number, number];
  readonly stock: Stock;
  /** Those that could be understood, in text order. */
  readonly features: readonly Feature[];
  readonly featureByName: ReadonlyMap<string, Feature>;
  /** Names that are in the text but could not be understood: mentioning them is not an unknown name. */
  readonly broken: ReadonlySet<string>;
  readonly datums: ReadonlyMap<string, { readonly letter: Named; readonly target: Named }>;
  readonly tolerances: readonly GeometricTolerance[];
  /** Undefined when the text has no `setups`. */
  readonly setups?: readonly Setup[];
  /** So many of the first set-ups are history: they make the workpiece, and are not judged again. Of plans that are tried. */
  readonly settled?: number;
  readonly accept: readonly Accept[];
  readonly problems: readonly SpecProblem[];
  /** Where a new top-level entry or feature can be written. */
  readonly root: Span;
}
