/** What reaching comes to for one cut in its set-up: the tool that does it, or what is in the way of each. Shapes only. */
import type { Vec3 } from '../../geometry/types';
import type { Face } from '../../model/model';
import type { Tool } from '../../model/shop-model';
import type { Cut } from '../stock/types';
import type { Clash, Near } from './collision';

export interface ToolUse {
  readonly tool: Tool;
  /** What it is for: `mill`, `drill`, `ream`, `bore`, `tap`, `face`; `form`: with a cutter that has the shape; `thread`: round a boss. */
  readonly does: 'mill' | 'drill' | 'ream' | 'bore' | 'tap' | 'face' | 'form' | 'thread';
  /** From its tip at the deepest to the highest material within its shank's radius. */
  readonly reachMm: number;
  /** To the highest thing within its holder's radius: how far it must stand out at least. */
  readonly outNeededMm: number;
  /** How far it does: as the shop says, else what is needed (no less than it cuts deep). */
  readonly outMm: number;
  /** Where it passes hardened steel nearer than the shop's margin, and no other tool keeps clear of it. */
  readonly near?: Near;
}

/** No tool that fits is long enough against what stands there then. */
export interface TooShort {
  readonly what: string;
  readonly neededMm: number;
  readonly longest?: { readonly name: string; readonly mm: number };
  readonly gapMm?: number;
  /** Others go round it; what is too short are those that its inside corners let in, of this radius. */
  readonly cornerMm?: number;
}

/** The holder of every tool that reaches meets the workpiece. */
export interface HolderMeets {
  readonly tool: Tool;
  readonly neededMm: number;
  readonly outMm: number;
  readonly holder: { readonly name: string; readonly radiusMm: number };
  readonly at?: Vec3;
  /** Its cut may be left out: a spot for a drill. */
  readonly spared?: true;
}

export interface FixtureMeets {
  readonly tool: Tool;
  readonly clash: Clash;
}

export interface Verdict {
  readonly cut: Cut;
  readonly up: Face;
  /** Those used, in order; empty where none does it. */
  readonly uses: readonly ToolUse[];
  readonly short?: TooShort;
  readonly holder?: HolderMeets;
  readonly fixture?: FixtureMeets;
  /** The tool is the one that the set-up names. */
  readonly asked: boolean;
}
