/**
 * A set-up as hands carry it out: how the work is held, what each axis is set from, and every pass in its order, in the
 * numbers that the machine's read-out shows. Shapes only. One derivation: times, forces, picture and sheet read these.
 *
 * *Read-out*: X to the right, Y away from who stands at the machine, Z up, mm; the place of the spindle's axis (X, Y) and of
 * the tool's tip (Z) over the work. The fixed jaw stands at the back. Each counts from a face of the finished body (`from`),
 * so that no place in the finished part is below zero. Lengths are mm, speeds turns a minute, times minutes.
 */
import type { AxisIndex } from '../../geometry/vector';
import type { Face, Hold, Setup } from '../../model/model';
import type { Machine, Tool, Vise } from '../../model/shop-model';
import type { Operation } from '../operations/types';
import type { SetupInTime } from '../stock/types';

export type ReadOutAxis = 'X' | 'Y' | 'Z';

/** How one axis of the read-out lies in the part: value = (place − zeroMm) · sign. */
export interface ReadOutWay {
  readonly axis: AxisIndex;
  /** +1: counts the way that the part's own axis does. */
  readonly sign: 1 | -1;
  /** Reads zero on this face of the finished body; and where that is along the part's axis. */
  readonly from: Face;
  readonly zeroMm: number;
}
export type ReadOut = Readonly<Record<ReadOutAxis, ReadOutWay>>;

/** X, Y, mm. */
export type Station = readonly [x: number, y: number];

/** A side of the work with the state it is in when the set-up begins. */
export interface Side {
  readonly face: Face;
  readonly state: 'sawn' | 'raw' | 'supplied' | 'cut';
}

/** How the work lies and what holds it. */
export interface Holding {
  readonly type: Hold['type'] | undefined;
  /** As it is written. */
  readonly hold?: Hold;
  readonly clock?: NonNullable<Setup['clock']>;
  /** At an angle plate: how far the work stands out above it, and whether it hangs beside the table. */
  readonly plate?: { readonly outMm: number; readonly hangs: boolean };
  readonly vise?: Vise;
  /** Against the fixed jaw, which stands at the back. */
  readonly fixed?: Side;
  readonly moving?: Side;
  /** A round bar between the moving jaw and the work, while the side against it is rough or not yet square. */
  readonly roundBar?: boolean;
  /** Against the stop, and on which side of the work that stands as one looks at it. */
  readonly stop?: Side & { readonly at: 'left' | 'right' | 'front' | 'back' };
  /** How far each end of the finished work stands out of the jaws; below zero: so far inside. */
  readonly out?: Readonly<Record<'left' | 'right', { readonly face: Face; readonly mm: number }>>;
  /** Of two pieces in the jaws: how far to the right of the first (below zero: to the left) all places are on the second. */
  readonly second?: { readonly mm: number; readonly gapMm: number; readonly padMm: number };
  /** An offcut as wide as the work at the jaws' other end, so that the moving jaw stays square. */
  readonly packing?: { readonly at: 'left' | 'right'; readonly widthMm: number };
  /** Between the jaws, and above them. */
  readonly gripMm?: number;
  readonly aboveMm?: number;
  readonly openingMm?: number;
  /** Height of the pair under the work; 0: it lies on the bed. How wide each is, and where it stands along Y (front, back edge). */
  readonly parallelsMm?: number;
  readonly pair?: { readonly widthMm: number; readonly at: readonly (readonly [front: number, back: number])[] };
  /** What lies down, in its state. */
  readonly seat?: Side;
  /** Clamps and screws: where they press or go through, along the two axes of the face that they stand on. */
  readonly places?: readonly (readonly (readonly [axis: ReadOutAxis, mm: number])[])[];
}

/** What is touched for a zero, and what the read-out shows at that moment. */
export interface Touch {
  readonly axis: ReadOutAxis;
  /** A face, a feature (its middle, swept with an indicator), or the parallels. */
  readonly of: string;
  readonly how: 'face' | 'bore' | 'parallels' | 'top' | 'leaning';
  /** Of a plane that leans: where on it the pin lies (what begins there), and by how much its top is above the plane. */
  readonly leans?: { readonly at: Station; readonly deg: number; readonly topMm: number; readonly begins?: string };
  /** What touches: the tip's or the pin's diameter; 0 for an indicator that sweeps, and a probe whose control knows its tip. */
  readonly with: 'edge-finder' | 'probe' | 'tool-edge' | 'indicator' | 'stop' | 'pin';
  readonly tipMm: number;
  /** Which way the spindle comes at it, of a face across the table. */
  readonly cameFrom?: 'left' | 'right' | 'front' | 'back';
  /** Where the face, the bore's middle or the top is. */
  readonly placeMm: number;
  /** At contact: the place, half the tip beside it; of a pin under a tool, all of the pin above it. */
  readonly showsMm: number;
  /** The first pass after which it can be touched; 0: before any. */
  readonly afterPass: number;
  /** Each further piece is found by the stop, the fixed jaw or the parallels: not touched again. */
  readonly everyPiece: boolean;
  /** Nothing of it is there to be touched: what is wrong. */
  readonly missing?: string;
}

/** How a table is fed. */
export type Feed =
  | { readonly by: 'program'; readonly mmPerMin: number }
  /** Never above 5 mm/s; `secondsAStroke` over a stroke `strokeMm` long, from 2 s on. */
  | {
      readonly by: 'hand';
      readonly mmPerS: number;
      readonly mmPerMin: number;
      readonly strokeMm: number;
      readonly secondsAStroke: number;
    }
  /** Drills, taps and what else goes down by the quill. `mmPerMin`: about what it should be. */
  | { readonly by: 'feel'; readonly mmPerMin?: number };

/** What the spindle is set to. */
export interface Speed {
  /** What this machine can be set to: a step, or two digits; 0 where a hand turns the tool. */
  readonly rpm: number;
  /** Before the machine had its say. */
  readonly wantedRpm: number;
  readonly setBy: 'step' | 'dial' | 'program' | 'unmarked' | 'any' | 'hand';
  /** The tool has a highest speed that the shop does not say: ask, and stay at or below this till then. */
  readonly ask: boolean;
}

export type Move =
  | { readonly type: 'line'; readonly to: Station }
  /** About `centre`; a full circle ends where it begins. */
  | { readonly type: 'arc'; readonly to: Station; readonly centre: Station; readonly ccw: boolean };

/** Where the spindle's axis goes: a chain of moves. */
export interface Way {
  readonly start: Station;
  readonly moves: readonly Move[];
}

export type Where =
  /** Straight down at each. */
  | { readonly type: 'at'; readonly places: readonly Station[] }
  /** Along each way, in turn. */
  | { readonly type: 'along'; readonly ways: readonly Way[] }
  /** All over what lies within the ways, as an area of the spindle's axis: the outermost runs round it, others round what stands in it. `stepMm` from one stroke to the next. */
  | { readonly type: 'over'; readonly ways: readonly Way[]; readonly stepMm: number }
  /** Not told in places: held at an angle, from the side, or lettering. The text of the cut says where. */
  | { readonly type: 'as drawn' };

/** What to look for while it cuts, or right after. */
export type Look =
  | { readonly look: 'clean-all-over'; readonly then?: ReadOutAxis }
  | { readonly look: 'this-wide'; readonly diameterMm: number }
  | { readonly look: 'left-a-side'; readonly mm: number }
  | { readonly look: 'no-parallel-hit' }
  | { readonly look: 'chips-clear' }
  | { readonly look: 'square-start' }
  | { readonly look: 'smooth' }
  | { readonly look: 'even-width'; readonly mm: number }
  | { readonly look: 'clamp-free' }
  /** Lifted to there from so far before the middle of each tab to so far after it. */
  | { readonly look: 'over-tabs'; readonly z: number; readonly mm: number };

/** One pass, or one place's depths by one tool. */
export interface PassRow {
  readonly kind: 'pass';
  /** From 1 in each set-up. */
  readonly number: number;
  /** The entries of `cuts` that it is for: features or faces; more than one where one drill does several in a row. */
  readonly of: readonly string[];
  readonly operation: Exclude<Operation, { does: 'missing' }>;
  readonly tool: Tool;
  /** How far it stands out of its holder, as judged. */
  readonly stickoutMm: number;
  readonly speed: Speed;
  readonly feed: Feed;
  /** Of a cutter's side or end; `down`: straight into the work. */
  readonly direction: 'conventional' | 'climb' | 'down';
  readonly where: Where;
  /** At the same one place as the pass before: lock both. */
  readonly samePlace: boolean;
  /** How the first depth is come to, inside what is closed all round. */
  readonly enters?: 'helix' | 'ramp' | 'plunge' | 'drilled';
  /** How steep its helix or ramp is. */
  readonly rampDeg?: number;
  /** Heights of the tip, one by one; the last is where it ends. */
  readonly tipsZ: readonly number[];
  /** A drill comes up after each so many mm to clear its chips. */
  readonly liftEachMm?: number;
  /** Bored: diameters, one by one. */
  readonly diametersMm?: readonly number[];
  /** Of a cutter that has the shape, where once along is too much: so often, each time a little nearer; the last as told. */
  readonly strokes?: number;
  /** What stands on the walls after it, for a later pass. */
  readonly leavesMm: number;
  /** The way is a circle or a curve: hands bore in steps of 1 mm across instead, or follow a line that is marked. */
  readonly needsProgram: boolean;
  /** Diameters for hands instead of a circle, one by one, with a boring head. */
  readonly byHandMm?: readonly number[];
  /**
   * Axes that have no zero at this pass, so that on the first piece their places cannot be gone to. `later`: it is touched
   * on a face that this pass or a later one cuts; the end is touched with the cutter, and so much taken off at a time,
   * `offs`. `nowhere`: nothing that it could be touched on stands out.
   */
  readonly unset: readonly { readonly axis: 'X' | 'Y'; readonly zero: 'later' | 'nowhere' }[];
  readonly offs?: { readonly axis: ReadOutAxis; readonly mm: readonly number[] };
  readonly looks: readonly Look[];
  readonly minutes: readonly [low: number, high: number];
}

/** Before it goes on: measured with the work still held. */
export interface MeasureRow {
  readonly kind: 'measure';
  readonly of: string;
  /** Of a distance: its other end. */
  readonly to?: string;
  readonly what: 'diameter' | 'width' | 'depth' | 'distance' | 'thread';
  /** A thread has none: what goes in and what does not tells. */
  readonly limitsMm?: readonly [least: number, most: number];
  readonly nominalMm: number;
  /** `M5` */
  readonly thread?: string;
  /** ISO 286 class, where one is written. */
  readonly fit?: string;
  readonly with: Gauge;
  /** Of a fit: the hand stops here, cuts half of what is left, and measures again. */
  readonly stops: boolean;
}
export type Gauge =
  | 'bore gauge'
  | 'micrometer'
  | 'caliper'
  | 'depth gauge'
  | 'depth micrometer'
  | 'thread gauge'
  | 'mating part'
  | 'height gauge';

/** Stop: the work was unclamped since this bore was cut, and places count from it. Sweep it, then set the read-out. */
export interface IndicateRow {
  readonly kind: 'indicate';
  readonly of: string;
  readonly at: Station;
  /** Total movement of the needle that is good enough, mm. */
  readonly totalMm: number;
}

/** Zero: what is touched now. */
export interface TouchRow {
  readonly kind: 'touch';
  readonly touch: Touch;
}

/** Another tool is in: its length is touched off, where none is kept. */
export interface TouchZRow {
  readonly kind: 'touch z';
  readonly tool: Tool;
  readonly touch: Touch;
}

/** Of an edge that is broken: what a file does, once a neighbour is cut in a later set-up (its place in the list, from 1). */
export interface FileRow {
  readonly kind: 'file';
  readonly of: string;
  readonly edges: readonly (readonly [Face, Face])[];
  readonly sizeMm: number;
  readonly afterSetup: number;
}

/** Last of all, out of the vise: the part is sawn off its bar. */
export interface SawRow {
  readonly kind: 'saw';
  readonly of: Face;
  /** How long the piece is then, along the bar, and how much of that stands over the face. */
  readonly lengthMm: number;
  readonly leavesMm: number;
}

/** Nothing on hand does it. */
export interface MissingRow {
  readonly kind: 'missing';
  readonly of: string;
  readonly wanted: string;
}

export type Row = PassRow | MeasureRow | IndicateRow | TouchRow | TouchZRow | FileRow | SawRow | MissingRow;

/** One set-up as ordered rows. */
export interface SetupPasses {
  readonly setup: Setup;
  readonly then: SetupInTime;
  /** From 0, and of how many. */
  readonly index: number;
  readonly count: number;
  readonly machine?: Machine;
  readonly readOut: ReadOut;
  /** Held at an angle: heights count along the spindle from where a pin lies on that plane. */
  readonly heightsFrom?: { readonly on: string };
  /** Of hand wheels: then places are told in turns and marks too. */
  readonly dial?: NonNullable<Machine['dial']>;
  readonly holding: Holding;
  readonly zeros: readonly Touch[];
  readonly rows: readonly Row[];
  /** Before it leaves the vise. */
  readonly measures: readonly MeasureRow[];
}
