/**
 * What set-ups take at the machine: tools changed, and minutes for the first piece and for each after it. Cutting comes
 * from the cuts of each feature; what hands take is the shop's `times:`. All are ranges: a quick hand and a slow one.
 */

import type { Solid } from '../geometry/types';
import { AXIS_INDEX, sharedBox } from '../geometry/vector';
import { type CutEntry, FACE_AXIS, type Face, type Feature, type Part, type Setup } from '../model/model';
import type { Machine, Tool } from '../model/shop-model';
import type { Minutes, ShopTimes } from '../model/shop-times';
import { facingThen } from '../process/access/facing';
import { operationsOf } from '../process/operations';
import { priceOf } from '../process/operations/priced';
import { unfit } from '../process/operations/unfit';
import { timelineOf } from '../process/stock';
import type { ReadPart } from '../rules/judging';
import { findMaterial } from '../tables/materials';
import { axesTouched } from './one-zero';
import { add, scaled, sum } from './ranges';

export type { Minutes };

interface CutTime {
  /** Feature or face. */
  readonly name: string;
  readonly minutes: Minutes;
  /** Names of the tools it is cut with. */
  readonly tools: readonly string[];
}

export interface SetupTime {
  readonly setup: Setup;
  /** Tools in the order they are put in, each once. */
  readonly tools: readonly Tool[];
  /** What nothing on hand cuts. */
  readonly missing: readonly string[];
  readonly cutting: Minutes;
  /** What each entry of `cuts` takes of that. */
  readonly cuts: readonly CutTime[];
  /** Vise, parallels, stop and zero, each tool's length touched off, and what is made for it: once. */
  readonly settingUp: Minutes;
  /** Of that: soft jaws or a plate made to hold it. */
  readonly making: Minutes;
  /** Taking a piece out and putting the next one in, and finding what zero does not hold for it. */
  readonly loading: Minutes;
  /** Axes along which zero is found anew for each piece. */
  readonly zeroAnew: readonly string[];
  /** Every tool put in once. */
  readonly changing: Minutes;
}

export interface PlanTime {
  readonly setups: readonly SetupTime[];
  readonly toolChanges: number;
  readonly firstPiece: Minutes;
  readonly eachFurther: Minutes;
}

/** A change that goes badly takes half as long again. Common practice, no source. */
const SLOW_CHANGE = 1.5;

export function timeOf(setups: readonly Setup[], checked: ReadPart): PlanTime {
  const each = setups.map((setup) => setupTime(setup, checked));
  const total = (pick: (s: SetupTime) => Minutes) => sum(each.map(pick));
  return {
    setups: each,
    toolChanges: each.reduce((n, s) => n + s.tools.length, 0),
    firstPiece: add(
      total((s) => s.cutting),
      total((s) => s.settingUp),
      total((s) => s.changing),
    ),
    eachFurther: add(
      total((s) => s.cutting),
      total((s) => s.loading),
      // One tool alone stays where it is.
      total((s) => (s.tools.length > 1 ? s.changing : [0, 0])),
    ),
  };
}

/** All pieces of a batch at the machine: set-up by set-up, each set once. */
export function batchMinutes({ firstPiece, eachFurther }: PlanTime, quantity: number): Minutes {
  return quantity < 1 ? [0, 0] : add(firstPiece, scaled(eachFurther, quantity - 1));
}

function setupTime(setup: Setup, checked: ReadPart): SetupTime {
  const { part, shop } = checked;
  const material = part.material && findMaterial(part.material.name);
  const machine = machineOf(setup, checked);
  const tools: Tool[] = [];
  const missing: string[] = [];
  const cuts = setup.cuts.map((entry): CutTime => {
    const { name } = entry;
    const cut = cutsOf(entry, setup, checked);
    let minutes: Minutes = [0, 0];
    for (const operation of cut.operations) {
      if (operation.does === 'missing') {
        missing.push(`${name}: ${operation.wanted}`);
        continue;
      }
      if (!tools.includes(operation.tool)) tools.push(operation.tool);
      if (!material || !machine) continue;
      const priced = priceOf(operation, material, machine).minutes;
      if (priced.every(Number.isFinite)) minutes = add(minutes, scaled(priced, cut.share));
      else missing.push(`${name}: ${unfit(operation, material, machine)}`);
    }
    const its = cut.operations.flatMap((o) => (o.does === 'missing' ? [] : [o.tool.name]));
    return { name, minutes, tools: [...new Set(its)] };
  });
  const { times } = shop;
  const zeroAnew = axesTouched(setup);
  const change = (machine?.toolChangeS ?? 60) / 60;
  const n = tools.length;
  const making = makingOf(setup, times);
  return {
    setup,
    tools,
    missing,
    cutting: sum(cuts.map((c) => c.minutes)),
    cuts,
    settingUp: add(times['set-up'], scaled(times['touch-off'], n), making),
    making,
    loading: add(times.load, scaled(times.zero, zeroAnew.length)),
    zeroAnew,
    changing: [n * change, SLOW_CHANGE * n * change],
  };
}

/** What holds it and is not on hand: jaws milled to its shape, a plate drilled for it. */
function makingOf({ hold }: Setup, times: ShopTimes): Minutes {
  if (hold?.type === 'soft-jaws') return times['soft-jaws'];
  return hold?.on === 'plate' ? times['fixture-plate'] : [0, 0];
}

function cutsOf(entry: CutEntry, setup: Setup, { part, solid, shop }: ReadPart) {
  const { name } = entry;
  const feature = part.featureByName.get(name);
  if (!feature) {
    const then = timelineOf(part, solid).setups.find((s) => s.setup === setup);
    const cut = then?.cuts.find((c) => c.span === entry.span && c.name === name);
    return { operations: cut ? facingThen(cut, setup, part, shop) : [], share: 1 };
  }
  return { operations: operationsOf(feature, part, solid, shop), share: portionOf(entry, feature, setup, part, solid) };
}

/**
 * Of what all of it takes: where depths are written, by depth, and what is named alone is the rest; else edges that are
 * broken in several setups, and what is cut half from each side, take the same in each.
 */
function portionOf(entry: CutEntry, feature: Feature, setup: Setup, { setups = [] }: Part, solid: Solid): number {
  const all = setups.flatMap((s) => s.cuts.filter((c) => c.name === feature.name).map((c) => ({ c, up: s.up?.name })));
  const deep = ({ depth }: CutEntry, up: Face | undefined) => {
    if (depth === undefined || depth === 'half' || !up) return 0.5;
    const i = AXIS_INDEX[FACE_AXIS[up].axis];
    const boxes = solid.voidsOf(feature.name).map((v) => sharedBox(v.bounds, solid.body.box, 0));
    const full = Math.max(...boxes.map((b) => b.max[i])) - Math.min(...boxes.map((b) => b.min[i]));
    return full > 0 ? Math.min(1, depth.mm / full) : 1;
  };
  if (entry.depth !== undefined) return deep(entry, setup.up?.name);
  const written = all.filter(({ c }) => c.depth !== undefined);
  if (written.length === 0) return 1 / Math.max(1, all.length);
  return Math.max(0, 1 - written.reduce((sum, { c, up }) => sum + deep(c, up), 0));
}

export function machineOf(setup: Setup, { shop }: Pick<ReadPart, 'shop'>): Machine | undefined {
  return shop.machines.find((m) => m.name === setup.machine?.name) ?? shop.machines[0];
}
