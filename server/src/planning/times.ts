/**
 * What set-ups take at the machine: tools changed, and minutes for the first piece and for each after it. Cutting comes
 * from the cuts of each feature; what hands take is the shop's `times:`. All are ranges: a quick hand and a slow one.
 */

import type { Feature, Setup } from '../model/model';
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
  const cuts = setup.cuts.map(({ name }): CutTime => {
    const cut = cutsOf(name, setup, checked);
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

function cutsOf(name: string, setup: Setup, { part, solid, shop }: ReadPart) {
  const feature = part.featureByName.get(name);
  if (!feature) {
    const then = timelineOf(part, solid).setups.find((s) => s.setup === setup);
    const cut = then?.cuts.find((c) => c.name === name);
    return { operations: cut ? facingThen(cut, setup, part, shop) : [], share: 1 };
  }
  return { operations: operationsOf(feature, part, solid, shop), share: shareOf(feature, setup, part.setups ?? []) };
}

/** Edges that are broken in several setups take their share in each. */
function shareOf(feature: Feature, setup: Setup, setups: readonly Setup[]): number {
  const others = setups.filter((s) => s !== setup && s.cuts.some((c) => c.name === feature.name)).length;
  return 1 / (1 + others);
}

export function machineOf(setup: Setup, { shop }: Pick<ReadPart, 'shop'>): Machine | undefined {
  return shop.machines.find((m) => m.name === setup.machine?.name) ?? shop.machines[0];
}
