/**
 * What the part view and the language server say to each other. Types and names of messages only: the panel (a browser),
 * the extension and the server all read this file. Lengths in millimetres, part axes; arrays of numbers travel as base64 of little-endian
 * 32-bit values, so that a picture of many thousand triangles is one string and not a list.
 */

import type { Vec3 } from '../../geometry/types';
import type { Range } from '../shapes';

/**
 * Request: `PictureRequest` → `PartPicture | null` (null: not a part, no body yet, or no such set-up), or `ToldPicture` to
 * one that says what it holds. Fails with ContentModified (−32801) when a later request for the same part came first: its answer is on its way.
 */
export const PICTURE = 'scribeline/picture';
/** Request: `MeasureRequest` → `Measured | null`. */
export const MEASURE = 'scribeline/measure';
/** Request: `SizesRequest` → `PictureSizes | null` (null: no such feature). */
export const SIZES = 'scribeline/sizes';
/** Request: `TypedRequest` → `TypedAnswer | null` (null: no such size). */
export const TYPED = 'scribeline/typed';

export interface PictureRequest {
  readonly uri: string;
  /** What is shown: the finished part, or the workpiece at a moment of its setups. */
  readonly moment?: Moment;
  /** The set-ups of the plan, whatever set-ups the text has; they are looked for where no plan is known. */
  readonly planned?: boolean;
  /** How far a chord may stray from its arc; 0.03 where left out. Measures do not depend on it. */
  readonly chordMm?: number;
  /** The `id` of the picture that the asker holds, empty for none: the answer is a `ToldPicture` then. */
  readonly held?: string;
}

export interface Moment {
  /** Which setup, from 0. */
  readonly setup: number;
  readonly when: 'before' | 'after';
  /** With `after`: after so many of its passes (from 1), the tool of the last standing where it ends. */
  readonly pass?: number;
}

/** A triangle mesh. Every triangle belongs to a surface; vertices are not shared between surfaces, so that edges stay crisp. */
export interface Mesh {
  /** base64 of float32: x, y, z of each vertex. */
  readonly positions: string;
  /** base64 of float32: the surface's outward normal at each vertex. */
  readonly normals: string;
  /** base64 of uint32: three a triangle. */
  readonly triangles: string;
  /** base64 of uint32: for each triangle the index of its surface. */
  readonly surfaceOf: string;
  /** base64 of float32: the part's own edges, two points (six numbers) a stretch. */
  readonly edges: string;
  /** base64 of uint32: for each stretch the two surfaces that meet in it. */
  readonly edgeOf: string;
}

/** One face of the part: a plane, a cylinder, … that a feature made, or a face of the body. */
export interface Surface {
  /** The feature that made it; absent for what is left of the body's (or the stock's) own faces. */
  readonly feature?: string;
  /** 0 for a lone feature, 1, 2, … for members of a pattern. */
  readonly member: number;
  /** `floor of bearing-seat`, `wall of lightening[2]`, `front`. */
  readonly name: string;
  readonly shape:
    | { readonly type: 'plane'; readonly normal: Vec3; readonly offsetMm: number }
    | { readonly type: 'cylinder'; readonly axis: Vec3; readonly through: Vec3; readonly radiusMm: number }
    | { readonly type: 'cone'; readonly axis: Vec3; readonly apex: Vec3; readonly halfAngleDeg: number }
    | { readonly type: 'free' };
}

interface PictureFeature {
  readonly name: string;
  readonly kind: string;
  /** Its whole entry in the text. */
  readonly range: Range;
  /** Where the cursor goes when it is chosen. */
  readonly nameRange: Range;
}

export interface PictureFinding {
  readonly rule: string;
  readonly severity: 'error' | 'warning' | 'hint';
  readonly message: string;
  /** The message's own sentence of what is wrong, and the rest of it. */
  readonly says: string;
  readonly more: string;
  readonly of: readonly string[];
  readonly range: Range;
  /** Where it is on the part. */
  readonly at: readonly Vec3[];
  /** The two points of `at` are the ends of what was measured; else each is a place of its own. */
  readonly gap?: true;
  /** What is written beside the mark: `0.4 mm`. Absent where the finding has no length of its own. */
  readonly label?: string;
}

/** A tool where it goes deepest in one cut, as cylinders about its axis, heights from its tip. */
export interface PictureCutter {
  readonly feature: string;
  readonly tool: string;
  readonly tip: Vec3;
  /** Unit vector from the tip to the spindle. */
  readonly towards: Vec3;
  readonly parts: readonly {
    readonly what: 'cut' | 'shank' | 'holder';
    readonly radiusMm: number;
    /** At its lower end, of a cone; left out: as thick all the way. */
    readonly tipRadiusMm?: number;
    readonly fromMm: number;
    readonly toMm: number;
  }[];
}

/** One pass of a set-up, as its sheet has it. */
export interface PicturePass {
  /** From 1. */
  readonly number: number;
  /** Features and faces that it is for. */
  readonly of: readonly string[];
  /** What is done with which tool, how deep and how often. */
  readonly text: string;
  /** Where it ends at its last place; absent where that is not told in places. */
  readonly cutter?: PictureCutter;
  /** Where the spindle's axis goes at its last depth. */
  readonly ways?: readonly (readonly Vec3[])[];
}

/** A length that hands look at before they begin. */
interface PictureLength {
  readonly at: readonly [Vec3, Vec3];
  readonly text: string;
}

/** Something beside the work, as a box to size; `outline` and `along`: as the outline has it, drawn out along that axis of the box. */
export interface PictureThing {
  readonly what: string;
  readonly min: Vec3;
  readonly max: Vec3;
  readonly along?: 0 | 1 | 2;
  /** In the two other axes, in their order. */
  readonly outline?: readonly (readonly [number, number])[];
  readonly holes?: readonly (readonly (readonly [number, number])[])[];
}

export interface PictureSetup {
  readonly name: string;
  readonly up?: string;
  readonly cuts: readonly string[];
  /** Where it is written; of a set-up that is not written the document's begin. */
  readonly range: Range;
  /** As it lies on the machine, unit vectors in part axes: to the right, away from who stands there, up to the spindle. */
  readonly frame?: readonly [Vec3, Vec3, Vec3];
  /** What stands round the workpiece, to size: jaws, parallels, stop. Absent where the hold is not known. */
  readonly around?: readonly PictureThing[];
  /** How much of the work is held and how far it stands out. */
  readonly lengths?: readonly PictureLength[];
  /** Where zero is, where all three axes say. */
  readonly zero?: Vec3;
  /** Of the set-up that is shown: the tool of each cut where one was found. */
  readonly cutters?: readonly PictureCutter[];
  /** Of the set-up that is shown. */
  readonly passes?: readonly PicturePass[];
}

export interface PartPicture {
  readonly uri: string;
  /** The document's version that it shows. */
  readonly version: number;
  readonly name: string;
  readonly units: 'mm' | 'in';
  readonly moment?: Moment;
  /** Its set-ups are the plan's, not the text's. */
  readonly planned?: true;
  /** Features of which nothing is cut yet at this moment. */
  readonly uncut?: readonly string[];
  readonly mesh: Mesh;
  readonly surfaces: readonly Surface[];
  readonly features: readonly PictureFeature[];
  readonly findings: readonly PictureFinding[];
  readonly setups: readonly PictureSetup[];
  readonly body: { readonly min: Vec3; readonly max: Vec3 };
  /** The bar it is cut from; `radiusMm` and `axis` (0, 1, 2) for a round one. */
  readonly stock: {
    readonly min: Vec3;
    readonly max: Vec3;
    readonly radiusMm?: number;
    readonly axis?: 0 | 1 | 2;
  } & Pick<PictureThing, 'along' | 'outline' | 'holes'>;
  /** Read aloud: what the part is, its size, its features, what was found. */
  readonly summary: string;
  /** Features that stand in the text and could not be read: the picture lacks what they cut. */
  readonly leftOut?: readonly { readonly name: string; readonly nameRange: Range }[];
  /** Features that could not be drawn: the mesh lacks what they cut. */
  readonly missing?: readonly string[];
}

/** What is told beside the mesh. */
export type PictureWords = Omit<PartPicture, 'mesh'>;

/** Lists of a picture, of which mostly little is new. */
export type PictureLists = Pick<PartPicture, 'surfaces' | 'features' | 'findings' | 'setups'>;

/** A picture told by another one: a number stands for what has that place there. */
export interface ToldPicture extends Omit<PartPicture, 'mesh' | keyof PictureLists> {
  readonly id: string;
  /** The `id` of the one that it is told by; absent where all of it is told. */
  readonly by?: string;
  readonly lists: { readonly [L in keyof PictureLists]: readonly (PictureLists[L][number] | number)[] };
  /** The mesh, to be put together in this order; each counts its own vertices and surfaces. */
  readonly pieces: readonly ({ readonly mesh: Mesh } | number)[];
  /** Of each piece, which of the picture's surfaces its own are. */
  readonly names: readonly (readonly number[])[];
}

/** What was touched: indices into `surfaces` of the picture of this version, and where each was touched. */
export interface MeasureTouch {
  readonly a: number;
  readonly atA: Vec3;
  readonly b: number;
  readonly atB: Vec3;
  /** An edge instead of the face: which of the mesh's stretches. Twice the same: it alone. */
  readonly edgeA?: number;
  readonly edgeB?: number;
}

export interface MeasureRequest extends MeasureTouch {
  readonly uri: string;
  readonly moment?: Moment;
  readonly planned?: boolean;
  readonly version: number;
}

export interface SizesRequest {
  readonly uri: string;
  readonly feature: string;
}

/** A feature's sizes and distances, of the document's version. */
export interface PictureSizes {
  readonly feature: string;
  readonly version: number;
  readonly sizes: readonly PictureSize[];
}

export interface PictureSize {
  /** `diameter`, `depth`, `thread`, `from left`. */
  readonly what: string;
  /** As a drawing has it: `⌀22 H7`, `7 deep`. */
  readonly text: string;
  /** From where to where; both the same: it is told at that place. */
  readonly at: readonly [Vec3, Vec3];
  /** Where it is written, and how; absent where it follows from something else. */
  readonly range?: Range;
  readonly typed?: string;
  /** What it meets by a joint of this job. */
  readonly job?: string;
}

export interface TypedRequest {
  readonly uri: string;
  /** The document's version that the sizes are of. */
  readonly version: number;
  readonly feature: string;
  /** Which of its sizes. */
  readonly size: number;
  readonly text: string;
}

/** The edit that writes it, for that version, or why it is none. */
export type TypedAnswer =
  | { readonly range: Range; readonly newText: string; readonly version: number }
  | { readonly why: string };

export interface Measured {
  /** `22 mm between parallel planes`, `axes 36 mm apart`: in the document's units. */
  readonly text: string;
  readonly distanceMm?: number;
  readonly angleDeg?: number;
  /** The ends of the line that is measured. */
  readonly at?: readonly [Vec3, Vec3];
}

/** Material that one of two parts has and the other has not, as closed meshes. */
export interface PictureLumps {
  /** base64 of float32: x, y, z of each corner. */
  readonly points: string;
  /** base64 of uint32: three a triangle, counter-clockwise seen from outside. */
  readonly triangles: string;
  readonly volumeMm3: number;
  /** The middle of each lump, the largest first. */
  readonly middles: readonly Vec3[];
}

/** One thing that changed, as it is listed. */
export interface PictureChange {
  /** `Features`, `Figures`, …: what it is listed under. */
  readonly section: string;
  /** `moved`, `new error`; empty where the text says all. */
  readonly word: string;
  readonly text: string;
  /** Features that it is about, as the old text calls them and as the new one does. */
  readonly before: readonly string[];
  readonly after: readonly string[];
  /** Where it stands, in the text that has it. */
  readonly line?: { readonly side: Side; readonly range: Range };
  /** Of a part of a job: the two that it is compared by itself with. */
  readonly opens?: { readonly [S in Side]: CompareSide };
}
export type Side = 'before' | 'after';

/** A document as it is now, or as a revision of its git repository has it; an empty name: what is put forward for the next commit. */
export interface CompareSide {
  readonly uri: string;
  readonly revision?: string;
  /** What it is called. */
  readonly title: string;
}

/** Two revisions of a part, side by side; or of a job, in words alone. */
export interface ComparedPicture {
  readonly name: string;
  /** How many things changed, or that none did. */
  readonly verdict: string;
  /** What each side is: a file, a revision. */
  readonly titles: { readonly [S in Side]: string };
  /** Without findings and set-ups. Absent where its text makes no body. */
  readonly before?: PartPicture;
  readonly after?: PartPicture;
  /** Material of the old part that the new one has not, and the other way round; absent where neither can be told. */
  readonly went?: PictureLumps;
  readonly came?: PictureLumps;
  readonly changes: readonly PictureChange[];
}
