/** A shop as it is: machines, vises, tools and bars, in millimetres, newtons, watts. Shapes only; `shop.ts` resolves them. */
import type { Span } from '../text/tree';
import type { Named, SpecProblem, StockForm, Units } from './model';
import type { Assumed } from './shop-fields';
import type { Minutes, ShopTimes } from './shop-times';

/** ISO 513 groups and kin are the material's; this is what the cutter is made of. */
export type ToolMaterial = 'hss' | 'cobalt' | 'carbide';

interface ToolBase {
  readonly name: string;
  readonly span: Span;
  readonly diameterMm: number;
  readonly material: ToolMaterial;
  readonly holder?: string;
  readonly stickoutMm?: number;
  /** Turns a minute that it bears; left out: whatever the spindle turns. */
  readonly mostRpm?: number;
  readonly note?: string;
}

/** Cuts on its side and (but for `face-mill`) its end. */
export interface Mill extends ToolBase {
  readonly kind: 'end-mill' | 'face-mill' | 'corner-rounder' | 'engraver';
  readonly flutes: number;
  readonly fluteLengthMm: number;
  /** From the tip to where something wider than the cut begins. */
  readonly reachMm: number;
  readonly shankMm: number;
  /** 0 square, D/2 ball. For a corner-rounder: the radius it makes on an outside edge. */
  readonly cornerRadiusMm: number;
  /** Of an end mill, from least to most: as the shop says, or what is usual. Left out: straight teeth. */
  readonly helixDeg?: readonly [low: number, high: number];
  /** Of an end mill: its end edges meet, and it goes straight down. */
  readonly centreCutting?: boolean;
  /** Of an engraver: included angle of its point; `diameterMm` is then the width of its tip. */
  readonly angleDeg?: number;
}
/** Wider than its neck: `tee-cutter` (also a slitting or grooving cutter), `dovetail-cutter`, `ball-undercutter`. */
export interface UndercutMill extends ToolBase {
  readonly kind: 'tee-cutter' | 'dovetail-cutter' | 'ball-undercutter';
  readonly flutes: number;
  readonly neckMm: number;
  readonly reachMm: number;
  readonly thicknessMm: number;
  /** Of a dovetail cutter: between its side and its face. */
  readonly angleDeg?: number;
}
export interface Drill extends ToolBase {
  readonly kind: 'drill' | 'spot-drill' | 'flat-drill';
  readonly fluteLengthMm: number;
  readonly pointDeg: number;
}
export interface Reamer extends ToolBase {
  readonly kind: 'reamer';
  /** `H7` */
  readonly fit: string;
  readonly reachMm: number;
}
export interface Boring extends ToolBase {
  readonly kind: 'boring-head';
  /** `diameterMm` is the least bore. */
  readonly largestMm: number;
  readonly reachMm: number;
}
export interface Tap extends ToolBase {
  readonly kind: 'tap';
  /** As `tables/threads` designates it: `M5`, `10-24 UNC`. `diameterMm` is its major diameter. */
  readonly thread: string;
  readonly chamfer: 'taper' | 'plug' | 'bottoming';
  /** Presses the thread in, without chips. */
  readonly forming?: true;
  readonly reachMm: number;
}
export interface ChamferMill extends ToolBase {
  readonly kind: 'chamfer-mill' | 'countersink' | 'counterbore-cutter';
  /** Included angle; 180 for a counterbore cutter. */
  readonly angleDeg: number;
  readonly reachMm: number;
  /** Smallest diameter of the cone: what it can still start in. 0 for a point. */
  readonly tipMm: number;
  /** Of a counterbore cutter: the pilot, which must enter the hole. */
  readonly pilotMm?: number;
}
export type Tool = Mill | UndercutMill | Drill | Reamer | Boring | Tap | ChamferMill;

export interface Machine {
  readonly name: string;
  readonly span: Span;
  readonly travelMm: readonly [number, number, number];
  readonly rpm: readonly [number, number];
  /** The only speeds it has, slowest first: of belts and gears. */
  readonly stepsRpm?: readonly number[];
  /** How a speed is set, where the shop says. */
  readonly setBy?: 'program' | 'dial' | 'no-read-out';
  /** Between spindle nose and table, N/mm. */
  readonly stiffnessNPerMm?: number;
  readonly powerW: number;
  /** Of the motor's power, what reaches the cutter, where the shop sets it (`machine/power`). */
  readonly efficiency?: number;
  readonly torqueNm?: number;
  readonly feedMmPerMin?: number;
  readonly coolant: 'flood' | 'mist' | 'air' | 'none';
  /** Repeatability in mm of each way of finding zero. */
  readonly locates: Readonly<Record<string, number>>;
  readonly tableLoadKg?: number;
  /** Most between spindle nose and table, mm. */
  readonly daylightMm?: number;
  readonly toolChangeS: number;
  /** Who moves the axes: hands by dials, hands by a read-out, or a control. */
  readonly control: 'hand' | 'read-out' | 'program';
  /** `power`: the spindle turns the tap in, and back. */
  readonly tapping: 'hand' | 'power';
  /** Play of its screws, mm. */
  readonly backlashMm: number;
  /** What tapping by hand and trial cuts take here, where the shop says. */
  readonly hands?: Readonly<Record<'tap' | 'tap-turn' | 'bore-cut', Minutes>>;
}

export interface Vise {
  readonly name: string;
  readonly span: Span;
  readonly jawWidthMm: number;
  readonly jawHeightMm: number;
  readonly opensMm: number;
  /** From the table up to where work or parallels lie. */
  readonly bedMm: number;
  readonly massKg?: number;
  readonly forceN: number;
  readonly face: 'smooth' | 'serrated';
}

export interface RackItem {
  readonly form: StockForm;
  readonly material: string;
  readonly widthMm?: number;
  readonly thicknessMm?: number;
  readonly diameterMm?: number;
  readonly lengthsMm: readonly number[];
  readonly perMetre?: number;
  readonly span: Span;
}

export interface Shop {
  readonly name: string;
  /** True for the one that comes with Scribeline. */
  readonly builtIn: boolean;
  /**
   * Set where a shop was named and could not be had: why, to follow its name (`is not there`). Such a shop has nothing, and
   * stands for itself: no other one judges, plans or prices in its place.
   */
  readonly unread?: string;
  readonly uri?: string;
  readonly units: Units;
  readonly machines: readonly Machine[];
  readonly vises: readonly Vise[];
  readonly parallelsMm: readonly number[];
  readonly holders: readonly {
    readonly name: string;
    readonly span: Span;
    readonly diameterMm: number;
    readonly lengthMm: number;
    /** Along or around a shank, N: where it slips. Infinite: a screw keeps it; left out: by the shank's diameter. */
    readonly slipsAtN?: number;
  }[];
  readonly tools: readonly Tool[];
  readonly rack: readonly RackItem[];
  readonly rates: { readonly machineHour: number; readonly personHour: number; readonly currency: string };
  /** What hands take besides cutting. */
  readonly times: ShopTimes;
  /** `limits:` of the shop file: rule → setting → value, over the rules' own defaults. Lengths in mm. */
  readonly limits: ReadonlyMap<string, ReadonlyMap<string, number>>;
  /** Every default that took the place of something left out. */
  readonly assumed: readonly Assumed[];
  readonly problems: readonly SpecProblem[];
  /** Every name that may be renamed or jumped to. */
  readonly names: readonly (Named & { readonly of: 'machine' | 'vise' | 'holder' | 'tool' })[];
}
