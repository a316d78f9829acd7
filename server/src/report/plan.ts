/** A plan in words, for the terminal and the editor: each setup, what it is there for, and what would save one. */

import type { CutEntry, Part, SawCut, Setup } from '../model/model';
import { inEachVise, onEachMachine, thickerStock } from '../planning/alternatives';
import { saidOfPlan } from '../planning/as-written';
import { type Comparison, compareWritten, type Way } from '../planning/compare';
import { costOf } from '../planning/cost';
import { hiddenIn, hiddenText, writePlan } from '../planning/keep';
import { missingTool } from '../planning/missing-tool';
import { timeIn } from '../planning/piece-time';
import type { Plan } from '../planning/plan';
import { batchMinutes, type PlanTime, type SetupTime } from '../planning/times';
import { benchWork } from '../process/benches';
import type { CheckedPart } from '../rules/checked-part';
import type { Finding } from '../rules/kit/rule';
import { formatLength } from '../text/format';
import { moneyText } from './costs';
import { minutesText } from './cuts';
import { heldText } from './held';
import { choicesOf, choiceText, type PlanChoice } from './plan-choices';
import { blockedLine, reasonsBySetup, uncutLines } from './plan-reasons';
import { setUpNotes } from './set-up-notes';

/** The plan, a line each; empty ones part its setups. */
export function planLines(plan: Plan, checked: CheckedPart): readonly string[] {
  const { headline, about, setups, besides, time, uncut: left } = planTold(plan, checked);
  const lines = [headline, ...about];
  for (const setup of setups) lines.push('', ...setupLines(setup));
  if (besides.length > 0) lines.push('', ...saidLines(besides, '  '));
  if (time.length > 0) lines.push('', ...time);
  const words = setups.flatMap((s) => s.why);
  if (words.length > 0) lines.push('', ...words);
  if (left.length > 0) lines.push('', ...left.map((words) => `  not cut: ${words}`));
  return lines;
}

/** A plan piece by piece, for whoever lays it out. */
export interface PlanTold {
  readonly headline: string;
  /** What it leaves out, or what is in the way of fewer. */
  readonly about: readonly string[];
  readonly setups: readonly SetupTold[];
  /** Said of no set-up alone. */
  readonly besides: readonly Said[];
  readonly time: readonly string[];
  readonly uncut: readonly string[];
}

/** What is done after the set-ups, beside the mill. */
function benchLines(checked: CheckedPart): readonly string[] {
  return benchWork(checked).map(
    ({ hole, on, minutes }) =>
      `  ${hole.name} ${on.type === 'press' ? `on ${on.press.name}` : 'by hand at the bench'}, after the set-ups: ${minutesText(minutes)} a piece.`,
  );
}

interface SetupTold {
  readonly name: string;
  readonly up: string;
  readonly held: string;
  readonly zero: string;
  readonly notes: readonly string[];
  readonly cuts: readonly string[];
  readonly saw?: string;
  /** In the order they are put in. */
  readonly tools: readonly string[];
  readonly cutting?: string;
  readonly lacks: readonly string[];
  /** What it is there for, and what would spare it. */
  readonly why: readonly string[];
  readonly said: readonly Said[];
}

type Said = Pick<Finding, 'severity' | 'message' | 'rule'>;

export function planTold(plan: Plan, checked: CheckedPart): PlanTold {
  const { part } = checked;
  const hidden = hiddenIn(checked);
  const { bySetup, besides } = saidOfPlan(plan, checked);
  const notes = setUpNotes(
    checked,
    plan.setups.map((s) => s.setup),
  );
  const why = hidden.length > 0 ? [] : reasonsBySetup(plan, checked);
  const read = `It is planned without what could not be read: ${hiddenText(hidden)}`;
  return {
    headline: headline(plan, checked),
    about: hidden.length > 0 ? [read] : blockedLine(plan),
    setups: plan.setups.map(({ setup }, i) => ({
      ...setupTold(setup, part, plan.time.setups[i]),
      notes: notes[i] ?? [],
      why: why[i] ?? [],
      said: bySetup[i]!.map(said),
    })),
    besides: besides.map(said),
    time: [
      ...(plan.setups.length > 0 ? [timeLine(plan.time, part.quantity), ...zeroLines(plan, part)] : []),
      ...benchLines(checked),
    ],
    uncut: uncutLines(plan.uncut),
  };
}

function said({ severity, message, rule }: Finding): Said {
  return { severity, message, rule };
}

/** What it costs and what else would do, a line each; empty where there is neither, or where not all could be read. */
export function alternativesLines(
  checked: CheckedPart,
  plan: Plan,
  choices: readonly PlanChoice[] = choicesOf(plan, checked),
): readonly string[] {
  const { part } = checked;
  if (plan.items.length === 0 || hiddenIn(checked).length > 0) return [];
  const lines: string[] = costLine(checked, plan);
  const compared = writePlan(plan, checked).kept === 'same' ? undefined : compareWritten(checked, plan);
  if (compared) lines.push(comparisonText(compared));
  for (const { face, extraMm, plan: other } of thickerStock(checked, plan).slice(0, 2))
    lines.push(
      `With ${formatLength(extraMm, part.units)} of stock on ${face} to grip, ${other.setups.length} set-ups are enough: ${other.setups.map((s) => s.setup.up?.name).join(', ')} up.`,
    );
  lines.push(...choices.map((c) => choiceText(c, part.quantity)));
  const cure = missingTool(checked);
  if (cure)
    lines.push(
      `One tool that is not in the shop would fix ${cure.cured.length} finding${cure.cured.length === 1 ? '' : 's'}: ${cure.what}.`,
    );
  lines.push(...machineLines(checked, plan), ...viseLines(checked));
  return lines;
}

/** `3 set-ups. Fewer are impossible: …` */
export function headline(plan: Plan, checked: CheckedPart): string {
  const { part } = checked;
  const n = plan.setups.length;
  const number = `${n} set-up${n === 1 ? '' : 's'}`;
  if (plan.uncut.length > 0)
    return `${part.name}: no plan cuts all of it. ${n === 0 ? 'Nothing can be cut' : `${number} ${n === 1 ? 'cuts' : 'cut'} ${cutOf(plan)}`}.`;
  if (n === 0) return `${part.name}: nothing of it is to be cut, as far as it could be read.`;
  // Of what could not be read nothing is known, so nothing is proven either.
  const proof = hiddenIn(checked).length > 0 ? ' for what could be read' : proofOf(plan);
  return `${part.name}: ${number}${proof}.`;
}

/** `7 of 9`, by name: edges broken from several faces are one thing. */
function cutOf({ items, uncut: left }: Plan): string {
  const all = new Set(items.map((i) => i.name)).size;
  return `${all - left.length} of ${all}`;
}

function proofOf({ setups, proof, attempts }: Plan): string {
  if (proof === 'bound')
    return setups.length <= 1 ? '' : `. Fewer are impossible: the cuts need ${setups.length} different sides up`;
  if (proof === 'tried')
    return `. No plan${setups.every((s) => s.setup.hold?.vise) ? ' in a vise' : ''} with fewer was found; every order of faces was tried (${attempts} set-ups)`;
  return `. Fewer were not found; not every order was tried (${attempts} set-ups were)`;
}

function setupTold(setup: Setup, part: Part, time?: SetupTime): Omit<SetupTold, 'notes' | 'why' | 'said'> {
  const length = (mm: number) => formatLength(mm, part.units);
  const { name, up, hold, zero } = setup;
  const tools = time?.tools.map((t) => t.name) ?? [];
  return {
    name,
    up: `${up?.name}`,
    held: hold ? heldText(hold, length) : '',
    zero: (['x', 'y', 'z'] as const).flatMap((a) => (zero[a] ? [`${a} ${zero[a].name}`] : [])).join(', '),
    cuts: setup.cuts.map((c) => cutText(c, length)),
    ...(setup.sawnOff && { saw: sawText(setup.sawnOff, length) }),
    tools,
    ...(time && tools.length > 0 && { cutting: minutesText(time.cutting) }),
    lacks: time?.missing ?? [],
  };
}

function setupLines(s: SetupTold): readonly string[] {
  return [
    `  ${s.name}: ${s.up} up`,
    `    held  ${s.held}`,
    `    zero  ${s.zero}`,
    ...s.notes.map((note) => `    note  ${note}.`),
    `    cuts  ${s.cuts.join(', ')}`,
    ...(s.saw !== undefined ? [`    saw   ${s.saw}`] : []),
    ...(s.cutting !== undefined ? [`    with  ${s.tools.join(', ')} (cutting ${s.cutting})`] : []),
    ...s.lacks.map((m) => `    lacks ${m}`),
    ...saidLines(s.said, '    '),
  ];
}

const SAID = { error: 'error', warning: 'mind', hint: 'hint' } as const;

function saidLines(said: readonly Said[], indent: string): readonly string[] {
  return said.map((f) => `${indent}${SAID[f.severity].padEnd(5)} ${f.message} [${f.rule}]`);
}

/** `off at left, 1 mm left to be milled` */
function sawText({ name, leave }: SawCut, length: (mm: number) => string): string {
  return `off at ${name}, ${leave ? `${length(leave.mm)} left to be milled` : 'the face stays as sawn'}`;
}

/** `window`, `window (half its depth)`, `window (12 mm deep)`. */
function cutText({ name, depth }: CutEntry, length: (mm: number) => string): string {
  if (depth === undefined) return name;
  return `${name} (${depth === 'half' ? 'half its depth' : `${length(depth.mm)} deep`})`;
}

/** `once`, `twice`, `14 times`. */
const oftenOf = (n: number): string => (n === 1 ? 'once' : n === 2 ? 'twice' : `${n} times`);

/** `About 35 to 80 min for the first piece, 9 to 15 for each after it. A tool is put in 14 times.` */
function timeLine(time: PlanTime, quantity: number): string {
  const { firstPiece, eachFurther, toolChanges } = time;
  const all = quantity > 1 ? ` All ${quantity} need ${minutesText(batchMinutes(time, quantity))}.` : '';
  return `About ${minutesText(firstPiece)} for the first piece and ${minutesText(eachFurther)} for each after it.${all} A tool is put in ${oftenOf(toolChanges)}. The speeds are starting values: follow your shop’s rules.`;
}

/** Only where the shop sets a rate. */
function costLine(checked: CheckedPart, plan: Plan): string[] {
  if (plan.setups.length === 0) return [];
  const { quantity } = checked.part;
  const time = timeIn(
    checked,
    'planned',
    plan.setups.map((s) => s.setup),
  );
  const cost = costOf([{ checked, quantity, time }]);
  if (!cost) return [];
  const without = cost.unpriced.length > 0 ? ', without its material, for which the rack has no price' : '';
  return [
    `By the rates of ${checked.shop.name} ${quantity === 1 ? 'it costs' : `${quantity} pieces cost`} ${moneyText(cost.total, cost.currency)}${without}.`,
  ];
}

/** Set once for all pieces of a batch, or where not, and why. */
function zeroLines({ time }: Plan, { quantity }: Part): readonly string[] {
  if (quantity < 2) return [];
  const anew = time.setups.filter((s) => s.zeroAnew.length > 0);
  if (anew.length === 0)
    return [
      `Set zero once in each set-up for all ${quantity} pieces. The fixed jaw, the stop and what the workpiece lies on do not move.`,
    ];
  return anew.map(
    ({ setup, zeroAnew }) =>
      `In ${setup.name} ${zeroAnew.join(' and ')} must be set anew on each of ${quantity} pieces: nothing that stays locates the workpiece there.`,
  );
}

function comparisonText({ written, planned, take, by }: Comparison): string {
  const count = (n: number, what: string) => `${n} ${what}${n === 1 ? '' : 's'}`;
  const told = (w: Way) =>
    [
      count(w.setups, 'set-up'),
      `${count(w.toolChanges, 'tool')} put in`,
      `${minutesText(w.firstPiece)} for the first piece`,
      ...(w.errors > 0 ? [count(w.errors, 'error')] : []),
      ...(w.warnings > 0 ? [count(w.warnings, 'warning')] : []),
    ].join(', ');
  const gain = {
    errors: 'it holds and reaches where the other does not',
    setups: `${count(Math.abs(written.setups - planned.setups), 'set-up')} fewer`,
    warnings: `${count(Math.abs(written.warnings - planned.warnings), 'warning')} fewer`,
    toolChanges: `${count(Math.abs(written.toolChanges - planned.toolChanges), 'fewer tool')} put in`,
    time: 'it is quicker',
    nothing: 'the plan gains nothing',
  }[by];
  const advice = take === 'plan' ? 'Take the plan' : 'Keep them';
  return `As written: ${told(written)}. As planned: ${told(planned)}. ${advice}: ${gain}.`;
}

function machineLines(checked: CheckedPart, plan: Plan): readonly string[] {
  const machines = onEachMachine(checked, plan);
  if (machines.length < 2 || plan.setups.length === 0) return [];
  return machines.map(({ machine, cannot, firstPiece, eachFurther }, i) =>
    cannot.length > 0
      ? `On ${machine.name} it would not do: ${cannot[0]!.message}`
      : `On ${machine.name}: ${minutesText(firstPiece)} for the first piece, ${minutesText(eachFurther)} for each after it${i === 0 ? ', the quickest' : ''}.`,
  );
}

function viseLines(checked: CheckedPart): readonly string[] {
  return inEachVise(checked).map(({ vise, plan }) =>
    plan.uncut.length > 0
      ? `With ${vise.name} alone ${listOf(plan.uncut.map((l) => l.item.name))} could not be cut.`
      : `With ${vise.name} alone: ${plan.setups.length} set-up${plan.setups.length === 1 ? '' : 's'}, ${minutesText(plan.time.firstPiece)} for the first piece${plan.setups.some((s) => s.setup.hold?.type !== 'vise') ? ', not all of it in the vise' : ''}.`,
  );
}

function listOf(names: readonly string[]): string {
  return names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}
