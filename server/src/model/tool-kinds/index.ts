/** The kinds of tools, each with its home. The record, and so every answer that depends on a kind, is complete or does not compile. */

import * as z from 'zod/mini';
import { noted } from '../schema/common';
import { ballUndercutter } from './ball-undercutter';
import { type Boring, boringHead } from './boring-head';
import { chamferMill } from './chamfer-mill';
import type { ChamferMill } from './cones';
import { cornerRounder } from './corner-rounder';
import { counterboreCutter } from './counterbore-cutter';
import { countersink } from './countersink';
import { dovetailCutter } from './dovetail-cutter';
import { drill } from './drill';
import type { Drill } from './drills';
import { endMill } from './end-mill';
import { engraver } from './engraver';
import { faceMill } from './face-mill';
import { flatDrill } from './flat-drill';
import type { HoleWay, ToolBody, ToolForm, ToolKindHome } from './kind';
import type { Mill } from './mills';
import { type Reamer, reamer } from './reamer';
import { type SlittingSaw, slittingSaw } from './slitting-saw';
import { spotDrill } from './spot-drill';
import { type Tap, tap } from './tap';
import { teeCutter } from './tee-cutter';
import { type ThreadMill, threadMill } from './thread-mill';
import type { UndercutMill } from './undercutters';

export type { Boring, ChamferMill, Drill, Mill, Reamer, Tap, ThreadMill, UndercutMill };
export type Tool = Mill | SlittingSaw | UndercutMill | Drill | Reamer | Boring | Tap | ThreadMill | ChamferMill;
export type ToolKind = Tool['kind'];

/** In the order in which they are listed. */
export const TOOL_KINDS_BY_NAME: {
  readonly [K in ToolKind]: ToolKindHome<Extract<Tool, { kind: K }> | (Tool & { readonly kind: K })>;
} = {
  'end-mill': endMill,
  'face-mill': faceMill,
  'corner-rounder': cornerRounder,
  engraver,
  'tee-cutter': teeCutter,
  'dovetail-cutter': dovetailCutter,
  'ball-undercutter': ballUndercutter,
  'slitting-saw': slittingSaw,
  drill,
  'spot-drill': spotDrill,
  'flat-drill': flatDrill,
  reamer,
  'boring-head': boringHead,
  tap,
  'thread-mill': threadMill,
  'chamfer-mill': chamferMill,
  countersink,
  'counterbore-cutter': counterboreCutter,
};
export const TOOL_KINDS = Object.keys(TOOL_KINDS_BY_NAME) as readonly ToolKind[];

/** The home of a tool's kind, which answers for it. */
export function homeOfTool(tool: Tool): ToolKindHome<Tool> {
  return TOOL_KINDS_BY_NAME[tool.kind] as ToolKindHome<Tool>;
}

export function formOfTool(tool: Tool): ToolForm {
  return homeOfTool(tool).form;
}

/** What makes round holes to size, each in its way. */
interface HoleMakers {
  'as-wide': Drill;
  'to-limits': Reamer;
  set: Boring;
  round: Mill;
}

export function makesHole<W extends HoleWay>(tool: Tool, ...ways: readonly W[]): tool is HoleMakers[W] {
  return ways.includes(homeOfTool(tool).hole as W);
}

/** An answer for each way of making a hole. */
export type ByHoleWay<A extends readonly unknown[], R> = {
  readonly [W in HoleWay]: (tool: HoleMakers[W], ...args: A) => R;
};

/** Undefined where the tool makes no hole. */
export function ofHoleWay<A extends readonly unknown[], R>(
  table: ByHoleWay<A, R>,
  tool: Tool,
  ...args: A
): R | undefined {
  const way = homeOfTool(tool).hole;
  return way && (table[way] as (tool: Tool, ...args: A) => R)(tool, ...args);
}

/** Makes a hole from the full as wide as it is. */
export function isDrill(tool: Tool): tool is Drill {
  return formOfTool(tool) === 'drill';
}

export function isCone(tool: Tool): tool is ChamferMill {
  return formOfTool(tool) === 'cone';
}

/** Makes a face flat. */
export function isFacer(tool: Tool): tool is Mill {
  const form = formOfTool(tool);
  return form === 'face' || (form === 'mill' && !('roughing' in tool));
}

/** How thick its shank is, is known. */
export function hasShank<T extends Tool>(tool: T): tool is T & { readonly shankMm: number } {
  return 'shankMm' in tool && tool.shankMm !== undefined;
}

export function isUndercutter(tool: Tool): tool is UndercutMill {
  return formOfTool(tool) === 'head';
}

/** How deep a tool cuts, mm. */
export function reachOf(tool: Tool): number {
  return homeOfTool(tool).reachMm(tool);
}

export function bodyOf(tool: Tool): ToolBody {
  return homeOfTool(tool).body(tool);
}

const [first, ...rest] = Object.values(TOOL_KINDS_BY_NAME).map((home) => home.schema);
export const tool = noted(z.discriminatedUnion('kind', [first!, ...rest]), {
  description: 'One tool: its `kind` decides which fields it has.',
});
export type { ToolMaterial } from './reader';
