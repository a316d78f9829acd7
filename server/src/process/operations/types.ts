/**
 * The single cuts that make a feature: which tool of the shop does what, and how much of it. Shapes only. Nothing here is
 * a tool path: amounts (volume, way, depth) are the geometry's own, and times are ranges worked out from them.
 */
import type { Void } from '../../geometry/types';
import type { Feature } from '../../model/model';
import type {
  Boring,
  ChamferMill,
  Drill,
  Mill,
  Reamer,
  Tap,
  ThreadMill,
  Tool,
  UndercutMill,
} from '../../model/shop-model';
import type { HeldIn } from '../cutting/bend';
import type { Conditions, MillingConditions } from '../cutting/conditions';
import type { WayIn } from '../room';

interface Base {
  readonly feature: Feature;
  /** How many times: the members of a pattern. */
  readonly times: number;
  /** What the tool sits in, where the shop says: it bends too. */
  readonly holder?: HeldIn;
  /** For the roughness that is asked, fed no more than that: mm a tooth, or a turn. */
  readonly finishFeedMm?: number;
  /** How the work lies for it, where that is not from its own face: `along the edge, from left`. */
  readonly how?: string;
  /** Of a hole: which part of it, where that is not its bore. `floor`: what a drill's point left on a flat floor. */
  readonly seat?: 'counterbore' | 'countersink' | 'floor';
  /** Of what is milled: the volume it makes, of the first member; layers of one pocket have a cut each. */
  readonly volume?: Void;
}

/** A hole's own tools: one plunge each. */
export interface Plunge extends Base {
  readonly does: 'spot' | 'drill' | 'ream' | 'counterbore' | 'countersink';
  readonly tool: Drill | Reamer | ChamferMill;
  readonly diameterMm: number;
  readonly depthMm: number;
}
export interface Tapping extends Base {
  readonly does: 'tap';
  readonly tool: Tap;
  readonly pitchMm: number;
  readonly depthMm: number;
}
/** A thread that is cut on the way round, on a helix of its pitch. */
export interface ThreadMilling extends Base {
  readonly does: 'thread';
  readonly tool: ThreadMill;
  /** Over its thread. */
  readonly majorMm: number;
  readonly pitchMm: number;
  readonly depthMm: number;
  readonly leftHand: boolean;
  /** How far its teeth go into the wall. */
  readonly toothMm: number;
  /** Round a boss: by so much stands its shoulder below the thread. */
  readonly outside?: { readonly runOutMm: number };
}
export interface BoreCut extends Base {
  readonly does: 'bore';
  readonly tool: Boring;
  readonly diameterMm: number;
  readonly depthMm: number;
}
/** Metal taken out in layers; `rest`: what a larger cutter left in the corners. */
export interface Roughing extends Base {
  readonly does: 'rough' | 'rest';
  readonly tool: Mill;
  readonly volumeMm3: number;
  readonly depthMm: number;
  /** The narrowest place between walls: a cutter that fills more than half of it cuts in the full at first. */
  readonly neckMm: number;
  /** How wide the metal is that it finds, less what is left to finish: no pass is wider. Infinite: wider than any cutter. */
  readonly wideMm: number;
  readonly enters?: Enters;
}
/** Once round the walls, at full depth as far as the flutes go. */
export interface Finishing extends Base {
  readonly does: 'finish';
  readonly tool: Mill;
  readonly wayMm: number;
  readonly depthMm: number;
  /** What is left on the wall. */
  readonly wideMm: number;
  readonly enters?: Enters;
}
/** How a cutter gets into an opening that is closed all round. */
export type Enters = WayIn | 'drilled';
/** A flat made by the end of a mill, in passes side by side. */
export interface Facing extends Base {
  readonly does: 'face';
  readonly tool: Mill;
  readonly lengthMm: number;
  readonly widthMm: number;
  /** All that comes off. */
  readonly depthMm: number;
}
/** Whatever is as thick as what its rim cuts. */
type DiscTool = Extract<Tool, { readonly thicknessMm: number; readonly flutes: number }>;

export interface FormCut extends Base {
  readonly does: 'chamfer' | 'round' | 'engrave' | 'undercut' | 'slot';
  readonly tool: ChamferMill | Mill | UndercutMill | DiscTool;
  readonly wayMm: number;
  readonly depthMm: number;
  /** How far it cuts sideways, where that is not its depth. */
  readonly wideMm?: number;
  /** As wide as what it makes: through in one pass, both sides at once. */
  readonly once?: true;
}
/** What kind of tool a cut lacks. */
export type Lack =
  | 'bore'
  | 'bore-before'
  | 'flat-bottom'
  | 'tap'
  | 'counterbore'
  | 'countersink'
  | 'mill'
  | 'sharp-corner'
  | 'chamfer'
  | 'round'
  | 'engraver'
  | 'undercutter'
  /** A saw or keyseat cutter. */
  | 'disc'
  | 'slope'
  | 'facing'
  /** One is there, and does not stand the cut. */
  | 'stronger';

/** Nothing on hand does it. */
export interface Missing extends Base {
  readonly does: 'missing';
  readonly lacks: Lack;
  /** `drill of 7 mm`, `M6 tap`. */
  readonly wanted: string;
}

export type Operation = Plunge | Tapping | ThreadMilling | BoreCut | Roughing | Finishing | Facing | FormCut | Missing;

/** What a cut takes. */
export interface Priced {
  readonly operation: Operation;
  /** Absent where nothing on hand does it, and where hands turn the tool. */
  readonly conditions?: Conditions;
  /** Force, power and deflection of a milling cut. */
  readonly milling?: MillingConditions;
  readonly torqueNm?: number;
  readonly powerW?: number;
  readonly thrustN?: number;
  /** Of a drill that clears its chips: how often it goes in, each time so much deeper. */
  readonly pecks?: number;
  readonly peckMm?: number;
  /** Of a cutter that has the shape: how often it goes along, where that is more than once. */
  readonly passes?: number;
  /** All members of a pattern together. */
  readonly minutes: readonly [low: number, high: number];
}

/** A tool that was looked at and passed over, and why. */
export interface PassedOver {
  readonly tool: Tool;
  readonly why: string;
  /** The same without the tool's own numbers: what several have in common. */
  readonly all: string;
}
