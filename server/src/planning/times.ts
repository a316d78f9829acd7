/**
 * What set-ups take at the machine: tools changed, and minutes for the first piece and for each after it. Cutting comes
 * from the cuts of each feature; what hands take is the shop's `times:`. All are ranges: a quick hand and a slow one.
 */

import { type Axis, FACE_AXIS, type Setup } from '../model/model';
import type { Tool } from '../model/shop-model';
import type { Minutes, ShopTimes } from '../model/shop-times';
import { cutsIn, type Step } from '../process/passes/cuts-in-setup';
import { machineOf } from '../process/workholding/forces';
import { axesTouched } from '../process/workholding/zero-anew';
import type { ReadPart } from '../rules/judging';
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
  /** In the vise at the same time; and the second zero that goes with the second of them, found with it. */
  readonly together: 1 | 2;
  readonly second: Minutes;
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

const AXES: readonly Axis[] = ['x', 'y', 'z'];

/** A change that goes badly takes half as long again. Common practice, no source. */
export const SLOW_CHANGE = 1.5;

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
      // One tool alone stays where it is; where two pieces are held, each change serves both.
      total((s) => scaled(add(changedAnew(s), s.second), 1 / s.together)),
    ),
  };
}

/** All pieces of a batch at the machine: set-up by set-up, each set once. */
export function batchMinutes({ setups }: PlanTime, quantity: number): Minutes {
  return sum(setups.map((s) => batchInSetup(s, quantity)));
}

/** One set-up for all pieces: each is put in and cut; tools are changed each time that the vise is filled anew. */
export function batchInSetup(s: SetupTime, quantity: number): Minutes {
  if (quantity < 1) return [0, 0];
  const fillings = Math.ceil(quantity / s.together);
  return add(
    s.settingUp,
    s.changing,
    scaled(s.cutting, quantity),
    scaled(s.loading, quantity - 1),
    scaled(changedAnew(s), fillings - 1),
    scaled(s.second, quantity - fillings),
  );
}

/** Tools put in again for the next filling. */
function changedAnew({ tools, changing }: SetupTime): Minutes {
  return tools.length > 1 ? changing : [0, 0];
}

function setupTime(setup: Setup, checked: ReadPart): SetupTime {
  const { shop } = checked;
  const machine = machineOf(setup, shop);
  const entries = cutsIn(setup, checked);
  const steps = entries.flatMap((e) => e.steps);
  const tools = [...new Set(steps.flatMap((s) => toolOf(s) ?? []))];
  const missing = entries.flatMap((e) => e.steps.flatMap((s) => (s.missing ? [`${e.entry.name}: ${s.missing}`] : [])));
  const cuts = entries.map(
    (e): CutTime => ({
      name: e.entry.name,
      minutes: sum(e.steps.map((s) => s.minutes)),
      tools: [...new Set(e.steps.flatMap((s) => toolOf(s)?.name ?? []))],
    }),
  );
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
    together: setup.hold?.pieces ? 2 : 1,
    second: setup.hold?.pieces && !zeroAnew.includes(alongOfJaws(setup)) ? times.zero : [0, 0],
    zeroAnew,
    changing: [n * change, SLOW_CHANGE * n * change],
  };
}

/** The part axis along the jaws, on which the second of two pieces has a zero of its own. */
function alongOfJaws({ up, hold }: Setup): Axis {
  const taken = [up?.name, hold?.jaws?.[0]?.name].map((f) => f && FACE_AXIS[f].axis);
  return AXES.find((a) => !taken.includes(a)) ?? 'x';
}

/** What holds it and is not on hand: jaws milled to its shape, a plate drilled for it. */
function makingOf({ hold }: Setup, times: ShopTimes): Minutes {
  if (hold?.type === 'soft-jaws') return times['soft-jaws'];
  return hold?.on === 'plate' ? times['fixture-plate'] : [0, 0];
}

function toolOf({ operation }: Step): Tool | undefined {
  return operation.does === 'missing' ? undefined : operation.tool;
}
