/**
 * The part as it is meant: every expression worked out, every length in millimetres, every name looked up, every
 * value with its place in the text. Immutable; a feature whose text and surroundings did not change is the same
 * object in the next snapshot, so work can be kept by object identity.
 *
 * Shapes only. `part.ts` resolves them from the text; geometry (outlines, removed volumes) is made from them one floor up.
 */

import type { Material } from '../tables/materials';
import type { Span } from '../text/tree';
import type { Angle, Body, Length, Named, Parameter, Place, Section, SpecProblem, StockForm, Units } from './base';
import type { Turn } from './blank';
import type { Axis, Face } from './faces';
import type { Feature } from './feature-kinds';

export * from './base';
export type * from './feature-kinds';

export interface GeometricTolerance {
  readonly characteristic: string;
  readonly value: Length;
  readonly of: readonly Named[];
  readonly datums: readonly Named[];
  readonly axis?: Axis;
  readonly maximumMaterial: boolean;
  /** How far its zone stands out of the part. */
  readonly projected?: Length;
  /** One zone for all that it is of. */
  readonly commonZone?: true;
  readonly between?: readonly [Named, Named];
  readonly note?: string;
  readonly span: Span;
}

export interface Hold {
  readonly type: 'vise' | 'v-block' | 'angle-plate' | 'clamps' | 'screws' | 'tabs' | 'soft-jaws' | 'angle';
  readonly vise?: Named;
  /** Fixed, moving. */
  readonly jaws?: readonly (Named & { readonly name: Face })[];
  readonly grip?: Length;
  readonly parallels?: Length;
  readonly stop?: Named;
  /** How far the work stands out of the jaws at one end, as it is put in. */
  readonly overhang?: { readonly face: Face; readonly by: Length };
  /** The V-block that round work lies in; in a vise: that stands between it and the moving jaw. */
  readonly vBlock?: Named;
  readonly anglePlate?: Named;
  /** The face that lies against an angle plate, and how far the work stands out above that. */
  readonly against?: Named & { readonly name: Face };
  readonly out?: Length;
  /** Two such vises in line, so far from middle to middle. */
  readonly apart?: Length;
  /** Two pieces in the jaws, one beside the other along them. */
  readonly pieces?: TwoPieces;
  /** Where clamps press, in the plane of the face that is up; at an angle plate, of the face opposite the plate. */
  readonly clamps?: readonly Place[];
  /** Holes that screws go through. */
  readonly screws?: readonly Named[];
  readonly on?: 'table' | 'plate';
  readonly tabs?: { readonly count: number; readonly width: Length; readonly height: Length; readonly span: Span };
  /** Of work held tilted. */
  readonly tilt?: { readonly angle: Angle; readonly about?: Axis };
  readonly span: Span;
}

/** Two pieces of a batch in one vise: how far apart along the jaws, and how thick a soft strip the moving jaw presses through. */
export interface TwoPieces {
  readonly gapMm: number;
  readonly padMm: number;
  readonly span: Span;
}

/** An entry of `cuts`: a feature or a face; all of it that is left, or only so far down in this set-up. */
export interface CutEntry extends Named {
  /** Down from where it begins on the side that is up. */
  readonly depth?: 'half' | Length;
  /** The whole entry, where it is more than a name. */
  readonly whole?: Span;
}

/** The part is sawn off at this face, after all cuts of its set-up: the rest of the bar stays in the vise. */
export interface SawCut extends Named {
  readonly name: Face;
  /** What stays on the face, to be milled off later; nothing where it is not written. */
  readonly leave?: Length;
  /** The whole entry. */
  readonly whole: Span;
}

export interface Setup extends Named {
  readonly up?: Named & { readonly name: Face };
  readonly hold?: Hold;
  readonly zero: Readonly<Partial<Record<Axis, Named>>>;
  readonly method?: Named;
  /** What places it in rotation, and by which. */
  readonly clock?: { readonly by: 'indicator' | 'pin' | 'square'; readonly of: Named; readonly span: Span };
  /** Feature and face names in the order cut. */
  readonly cuts: readonly CutEntry[];
  /** The last entry of `cuts`, where that is a saw's. */
  readonly sawnOff?: SawCut;
  readonly cutsSpan?: Span;
  readonly machine?: Named;
  readonly note?: string;
  readonly tools: readonly { readonly of: Named; readonly tool: Named }[];
  readonly whole: Span;
}

export interface Accept {
  readonly rule: Named;
  readonly of?: Named;
  readonly because?: string;
  readonly span: Span;
}

/** A row of the table of variants: parameters that have another value in it, as written. */
export interface VariantRow extends Named {
  readonly values: readonly (Named & { readonly text: string })[];
}

export interface Coating {
  readonly name: string;
  readonly thickness?: Length;
  /** How far it stands out of the surface under it: least and most. */
  readonly growsMm: readonly [number, number];
  /** Features and faces without it. */
  readonly masked: readonly Named[];
  readonly span: Span;
  readonly kindSpan: Span;
}

export interface Stock {
  /** False when the text says nothing: the stock is the body. */
  readonly written: boolean;
  readonly form: StockForm;
  readonly sawn: readonly (Named & { readonly name: Face })[];
  /** Of a plan that is being tried: it is sawn off its bar at this face in the end, and so much is left on it. */
  readonly offBar?: { readonly face: Face; readonly leave: Length };
  readonly extra: Readonly<Partial<Record<Face, Length>>>;
  readonly diameter?: Length;
  readonly axis?: Axis;
  /** Of a casting, ISO 8062-3. */
  readonly grade?: number;
  /** Of a blank: the part that it is. */
  readonly blank?: Blank;
  /** Of tube, angle, channel and tee. */
  readonly section?: Section;
  /** Across it as supplied, where the text says so: with limits, where those are known. */
  readonly thickness?: Length;
  readonly width?: Length;
  /** Of its faces as supplied. */
  readonly flatness?: Length;
  readonly span: Span;
}

/** Another part’s finished body as the stock of this one. The same object while neither text is edited. */
export interface Blank {
  /** The other part’s file, as written here and as the host names it. */
  readonly file: string;
  readonly path: string;
  /** Where the file is named. */
  readonly span: Span;
  readonly part: Part;
  /** How its axes lie along those of this part. */
  readonly turn: Turn;
}

export interface Part {
  readonly name: string;
  readonly nameSpan: Span;
  readonly title?: string;
  readonly revision?: string;
  readonly shopPath?: Named;
  readonly units: Units;
  /** `own`: what its shop says under that name, where it does (`material-of.ts`). */
  readonly material?: Named & { readonly own?: Material };
  readonly quantity: number;
  readonly tolerance?: Named;
  /** Heat treatment, as the drawing says it. */
  readonly treatment?: Named;
  readonly coating?: Coating;
  /** Edges without a size: what may be missing outside, and be left inside. */
  readonly deburr?: { readonly outside?: Length; readonly inside?: Length };
  readonly notes: readonly string[];
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
  /** Of a plan that is being tried: so many of the first set-ups were judged before. They make the workpiece, and nothing more is said of them. */
  readonly settled?: number;
  readonly accept: readonly Accept[];
  /** Rows of its table: each is a part of its own (`variants.ts`). */
  readonly variants: readonly VariantRow[];
  readonly problems: readonly SpecProblem[];
  /** Where a new top-level entry or feature can be written. */
  readonly root: Span;
}
