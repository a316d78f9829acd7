/**
 * What the documents' models are made of: names, lengths and places as written and as worked out, outlines, and what every
 * feature has. Shapes only, each value with its place in the text.
 */

import type * as z from 'zod/mini';
import type { Position } from '../text/lines';
import type { ListNode, MapEntry, MapNode, Span } from '../text/tree';
import type { Axis, Face } from './faces';
import type { stockForm, units } from './schema/common';

export * from './faces';
export type Units = z.infer<ReturnType<typeof units>>;

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
  /** As written along each of the two; of a pattern's members: where the pattern is. Absent where nobody wrote it. */
  readonly written?: readonly [Coordinate, Coordinate];
  readonly span: Span;
}

/** One coordinate of a place as it is written. */
export interface Coordinate {
  /** What it counts along or from: `x`, `left`, `right`. */
  readonly key: Axis | Face;
  readonly keySpan: Span;
  /** `center` for the middle. */
  readonly length: Length;
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

export type StockForm = z.infer<ReturnType<typeof stockForm>>;
/** Across a bar that does not fill its outside. The same object while it and what it is made of are not edited. */
export interface Section {
  readonly wall: Length;
  readonly flange?: Length;
  readonly root?: Length;
  readonly open: readonly (Named & { readonly name: Face })[];
}

export interface Pattern {
  readonly type: 'line' | 'grid' | 'bolt-circle' | 'places';
  /** Of a line or grid, from one member to the next along each axis that it runs. */
  readonly pitch?: Readonly<Partial<Record<Axis, Length>>>;
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

/** Where a feature stands that another part's file brings. */
export interface Included {
  /** The entry of `include` that brings it. */
  readonly by: string;
  /** The other part's file, as written here and as the host names it. */
  readonly file: string;
  readonly path: string;
  /** Its name there, and where that stands. */
  readonly name: string;
  readonly range: { readonly start: Position; readonly end: Position };
}

export interface FeatureBase {
  readonly name: string;
  /** Of a feature that is not in this text. */
  readonly included?: Included;
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

/** What others may stand on, lie in or break. */
export interface Stands {
  /** A floor that a feature may start on. */
  readonly floor?: Depth;
  /** An upper edge that may be broken. */
  readonly rim: boolean;
  /** Round all the way down: this wide. */
  readonly boreMm?: number;
}

/** A feature of whatever kind, where only that it is one matters. */
export interface AnyFeature extends FeatureBase {
  readonly kind: string;
}

/** What stands wrong in the text, found while resolving: the `form/*` findings that need no geometry. */
/** A feature, or without `of` the whole part; `as`: the feature that is its copy, else a new one. */
export interface Mirroring {
  readonly of?: string;
  readonly as?: string;
  readonly axis: Axis;
  /** The key that asked for it, which goes. */
  readonly key?: string;
}

export interface SpecProblem {
  readonly rule:
    | 'form/schema'
    | 'form/unit'
    | 'form/unknown-name'
    | 'form/hash-comment'
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
    /** Entries of maps that are taken out with it, lines and all. */
    readonly without?: readonly (readonly [map: MapNode, entry: MapEntry])[];
    /** Entries that come into a map with it: key and value as they are written. */
    readonly added?: readonly (readonly [map: MapNode, key: string, value: string])[];
    /** A list of maps that becomes a map of them, under these names. */
    readonly named?: readonly [list: ListNode, names: readonly string[]];
    /** What is mirrored is written out: it changes the shape, and so is nobody's choice but the author's. */
    readonly mirrored?: Mirroring;
    /** The next one is as likely meant: none of them is preferred. */
    readonly equal?: true;
  }[];
}
