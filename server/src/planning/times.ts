/**
 * What a plan takes: tools changed, and minutes for the first piece and for each after it. Cutting comes from the cuts of
 * each feature; putting the work in, finding zero and setting tools are common practice, told as ranges.
 */
import { operationsOf } from '../machining/operations';
import { priceOf } from '../machining/operations/priced';
import { findMaterial } from '../reference/materials';
import type { CheckedPart } from '../rules/check';
import type { Feature, Setup } from '../spec/model';
import type { Machine, Mill, Tool } from '../spec/shop-model';

export type Minutes = readonly [low: number, high: number];

export interface SetupTime {
  readonly setup: Setup;
  /** Tools in the order they are put in, each once. */
  readonly tools: readonly Tool[];
  /** What nothing on hand cuts. */
  readonly missing: readonly string[];
  readonly cutting: Minutes;
  /** Vise, parallels, stop and zero, the first time. */
  readonly settingUp: Minutes;
  /** Taking a piece out and putting the next one in. */
  readonly loading: Minutes;
  readonly changing: Minutes;
}

export interface PlanTime {
  readonly setups: readonly SetupTime[];
  readonly toolChanges: number;
  readonly firstPiece: Minutes;
  readonly eachFurther: Minutes;
}

/** Common practice, no source: clean, clamp, tap down, find three zeros. */
const SETTING_UP: Minutes = [8, 20];
const LOADING: Minutes = [1, 3];
/** Each tool's length is touched off once. Common practice, no source. */
const TOUCHING_OFF: Minutes = [0.5, 2];

export function timeOf(setups: readonly Setup[], checked: CheckedPart): PlanTime {
  const each = setups.map((setup) => setupTime(setup, checked));
  const sum = (pick: (s: SetupTime) => Minutes): Minutes =>
    each.reduce<Minutes>((all, s) => [all[0] + pick(s)[0], all[1] + pick(s)[1]], [0, 0]);
  const [cutting, settingUp, loading, changing] = [
    sum((s) => s.cutting),
    sum((s) => s.settingUp),
    sum((s) => s.loading),
    sum((s) => s.changing),
  ];
  const add = (...all: readonly Minutes[]): Minutes =>
    all.reduce((a, b) => [a[0] + b[0], a[1] + b[1]], [0, 0] as Minutes);
  return {
    setups: each,
    toolChanges: each.reduce((n, s) => n + s.tools.length, 0),
    firstPiece: add(cutting, settingUp, changing),
    eachFurther: add(cutting, loading, changing),
  };
}

function setupTime(setup: Setup, checked: CheckedPart): SetupTime {
  const { part, solid, shop } = checked;
  const material = part.material && findMaterial(part.material.name);
  const machine = machineOf(setup, checked);
  const tools: Tool[] = [];
  const missing: string[] = [];
  let [low, high] = [0, 0];
  for (const { name } of setup.cuts) {
    const feature = part.featureByName.get(name);
    const face = !feature ? facingTool(checked) : undefined;
    if (face && !tools.includes(face)) tools.push(face);
    if (!feature) {
      // A face: a pass or two at a finishing feed.
      low += 0.5;
      high += 2;
      continue;
    }
    const share = shareOf(feature, setup, checked);
    for (const operation of operationsOf(feature, part, solid, shop)) {
      if (operation.does === 'missing') missing.push(`${name}: ${operation.wanted}`);
      else if (!tools.includes(operation.tool)) tools.push(operation.tool);
      if (!material || !machine) continue;
      const { minutes } = priceOf(operation, material, machine);
      low += minutes[0] * share;
      high += minutes[1] * share;
    }
  }
  const change = (machine?.toolChangeS ?? 60) / 60;
  const n = tools.length;
  return {
    setup,
    tools,
    missing,
    cutting: [low, high],
    settingUp: [SETTING_UP[0] + n * TOUCHING_OFF[0], SETTING_UP[1] + n * TOUCHING_OFF[1]],
    loading: LOADING,
    changing: [n * change, 1.5 * n * change],
  };
}

/** Edges that are broken in several setups take their share in each. */
function shareOf(feature: Feature, setup: Setup, { part }: CheckedPart): number {
  const others = (part.setups ?? []).filter((s) => s !== setup && s.cuts.some((c) => c.name === feature.name)).length;
  return 1 / (1 + others);
}

export function machineOf(setup: Setup, { shop }: CheckedPart): Machine | undefined {
  return shop.machines.find((m) => m.name === setup.machine?.name) ?? shop.machines[0];
}

/** What faces are cut with: a face mill, or the largest end mill. */
function facingTool({ shop }: CheckedPart): Mill | undefined {
  const mills = shop.tools.filter((t): t is Mill => t.kind === 'face-mill' || t.kind === 'end-mill');
  return mills.find((t) => t.kind === 'face-mill') ?? mills.sort((a, b) => b.diameterMm - a.diameterMm)[0];
}
