/** A shop as it is: machines, vises, tools and bars, in millimetres, newtons, watts. Shapes only; `shop.ts` resolves them. */
import type { Material } from '../tables/materials';
import type { Span } from '../text/tree';
import type { Named, SpecProblem, StockForm, Units } from './model';
import type { Bench, DrillPress } from './shop-benches';
import type { Assumed } from './shop-fields';
import type { Minutes, ShopTimes } from './shop-times';
import type { Tool } from './tool-kinds';

export type {
  Boring,
  ChamferMill,
  Drill,
  Mill,
  Reamer,
  Tap,
  ThreadMill,
  Tool,
  ToolMaterial,
  UndercutMill,
} from './tool-kinds';

export interface Machine {
  readonly name: string;
  readonly span: Span;
  readonly travelMm: readonly [number, number, number];
  readonly rpm: readonly [number, number];
  /** The only speeds it has, slowest first: of belts and gears. */
  readonly stepsRpm?: readonly number[];
  /** How a speed is set, where the shop says. */
  readonly setBy?: 'program' | 'dial' | 'unmarked';
  /** Between spindle nose and table, N/mm. */
  readonly stiffnessNPerMm?: number;
  readonly powerW: number;
  /** Of the motor's power, what reaches the cutter, where the shop sets it (`machine/power`). */
  readonly efficiency?: number;
  readonly torqueNm?: number;
  readonly feedMmPerMin?: number;
  readonly coolant: 'flood' | 'mist' | 'air' | 'none';
  /** Repeatability in mm of each way of finding zero. */
  readonly zeroErrorMm: Readonly<Record<string, number>>;
  /** Families of materials that it takes; left out: every one. */
  readonly takes?: readonly string[];
  readonly tableLoadKg?: number;
  /** Most between spindle nose and table, mm. */
  readonly daylightMm?: number;
  readonly toolChangeS: number;
  /** Who moves the axes: hands by dials, hands by a read-out, or a control. */
  readonly control: 'hand' | 'read-out' | 'program';
  /** `power`: the spindle turns the tap in, and back. */
  readonly tapping: 'hand' | 'power';
  /** Of its hand wheels, where the shop says: travel for a turn and for a mark, mm, and what they count in. */
  readonly dial?: { readonly unit: 'mm' | 'in'; readonly turnMm: number; readonly markMm: number };
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
  /** So many alike. */
  readonly count: number;
}

export interface VBlock {
  readonly name: string;
  readonly span: Span;
  /** Across the V at its top, from its foot to there, along the V; included angle. */
  readonly widthMm: number;
  readonly heightMm: number;
  readonly lengthMm: number;
  readonly angleDeg: number;
  readonly count: number;
}

export interface AnglePlate {
  readonly name: string;
  readonly span: Span;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly thicknessMm: number;
}

interface Limits {
  readonly upperMm: number;
  readonly lowerMm: number;
}

export type RackSide = 'width' | 'thickness' | 'diameter' | 'wall' | 'flange';

export interface RackItem {
  readonly form: StockForm;
  readonly material: string;
  readonly widthMm?: number;
  readonly thicknessMm?: number;
  readonly diameterMm?: number;
  /** Of tube, angle, channel and tee; flanges only where they are written. */
  readonly wallMm?: number;
  readonly flangeMm?: number;
  /** How far it is off as supplied, where its sheet says so. */
  readonly limits?: Readonly<Partial<Record<RackSide, Limits>>>;
  /** That can be bought. */
  readonly lengthsMm: readonly number[];
  readonly perMetre?: number;
  /** Of a whole bar of each of `lengthsMm`, in their order. */
  readonly prices?: readonly number[];
  /** That lie there, each as often as there are of it. */
  readonly offcutsMm: readonly number[];
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
  /** How views stand to each other on drawings. */
  readonly projection: 'first' | 'third';
  readonly machines: readonly Machine[];
  readonly drillPresses: readonly DrillPress[];
  /** Undefined where none is told of. */
  readonly bench?: Bench;
  readonly vises: readonly Vise[];
  readonly vBlocks: readonly VBlock[];
  readonly anglePlates: readonly AnglePlate[];
  readonly parallelsMm: readonly number[];
  /** Threads that there is a die for, as the tables name them; undefined where none are listed. */
  readonly dies?: readonly string[];
  readonly holders: readonly {
    readonly name: string;
    readonly span: Span;
    readonly diameterMm: number;
    readonly lengthMm: number;
    /** Along or around a shank, N: where it slips. Infinite: a screw keeps it; left out: by the shank's diameter. */
    readonly slipsAtN?: number;
  }[];
  readonly tools: readonly Tool[];
  /** Of its own, by name: they go before the tables. */
  readonly materials?: ReadonlyMap<string, Material>;
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
  readonly names: readonly (Named & {
    readonly of: 'machine' | 'vise' | 'v-block' | 'angle-plate' | 'holder' | 'tool' | 'drill-press';
  })[];
}
