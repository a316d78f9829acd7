/** A plan in words, for the terminal and the editor: each setup, what it is there for, and what would save one. */
import { onEachMachine, thickerStock } from '../planning/alternatives';
import { costOf } from '../planning/cost';
import type { Item } from '../planning/items';
import { missingTool } from '../planning/missing-tool';
import { timeIn } from '../planning/piece-time';
import type { Plan, PlannedSetup } from '../planning/plan';
import { type Change, type Reason, reasonsOf } from '../planning/reasons';
import type { PlanTime, SetupTime } from '../planning/times';
import type { CheckedPart } from '../rules/check';
import type { Part } from '../spec/model';
import { formatLength } from '../text/format';
import { moneyText } from './costs';
import { minutesText } from './cuts';

/** Lines of plain text, without a line end after the last. */
export function planText(plan: Plan, part: Part): string {
  const lines = [headline(plan, part)];
  for (const [i, setup] of plan.setups.entries()) lines.push('', ...setupLines(setup, part, plan.time.setups[i]));
  if (plan.setups.length > 0) lines.push('', timeLine(plan.time));
  const reasons = reasonsOf(plan.setups, plan.items);
  const words = reasons.flatMap((r) => reasonLines(r, plan));
  if (words.length > 0) lines.push('', ...words);
  if (plan.left.length > 0) lines.push('', ...leftLines(plan));
  return lines.join('\n');
}

/** What it costs and what else would do, a line each; empty where there is neither. */
export function alternativesText(checked: CheckedPart, plan: Plan): string {
  const { part } = checked;
  const lines: string[] = costLine(checked, plan);
  const written = part.setups?.length;
  if (written !== undefined && plan.left.length === 0) {
    const more = written - plan.setups.length;
    lines.push(
      more > 0
        ? `As written it takes ${written} set-ups: this plan saves ${more}.`
        : `As written it takes ${written} set-up${written === 1 ? '' : 's'} as well: keep them, unless this plan holds better.`,
    );
  }
  for (const { face, extraMm, plan: other } of thickerStock(checked, plan).slice(0, 2))
    lines.push(
      `With ${formatLength(extraMm, part.units)} of stock on ${face}, to hold it by, ${other.setups.length} set-ups would do: ${other.setups.map((s) => s.setup.up?.name).join(', ')} up.`,
    );
  const cure = missingTool(checked);
  if (cure)
    lines.push(
      `One tool that is not on hand would cure ${cure.cured.length} finding${cure.cured.length === 1 ? '' : 's'}: ${cure.what}.`,
    );
  const machines = onEachMachine(checked, plan);
  if (machines.length > 1)
    for (const m of machines)
      lines.push(
        `On ${m.machine.name}: ${minutesText(m.firstPiece)} for the first piece, ${minutesText(m.eachFurther)} for each after it.`,
      );
  return lines.join('\n');
}

/** `3 set-ups; no plan has fewer, …` */
export function headline(plan: Plan, part: Part): string {
  const n = plan.setups.length;
  const number = `${n} set-up${n === 1 ? '' : 's'}`;
  if (plan.left.length > 0)
    return `${part.name}: no plan cuts all of it. ${n === 0 ? 'Nothing can be cut' : `${number} cut ${plan.items.length - plan.left.length} of ${plan.items.length}`}.`;
  return `${part.name}: ${number}${proofOf(plan)}.`;
}

function proofOf({ setups, proof, attempts }: Plan): string {
  if (proof === 'bound')
    return setups.length <= 1 ? '' : ', and no plan has fewer: so many faces must look up for all to be reached';
  if (proof === 'tried')
    return `; with fewer no plan in a vise was found, though every order of faces was tried (${attempts} set-ups)`;
  return `; fewer were not found, though not every order was tried (${attempts} set-ups were)`;
}

function setupLines({ setup, warnings }: PlannedSetup, part: Part, time?: SetupTime): readonly string[] {
  const length = (mm: number) => formatLength(mm, part.units);
  const { up, hold } = setup;
  const on = hold?.parallels ? `on ${length(hold.parallels.mm)} parallels` : 'on the bed of the vise';
  const held = hold?.jaws
    ? `${hold.type === 'soft-jaws' ? `soft jaws milled to the work, in ${hold.vise?.name}` : hold.vise?.name}, ${hold.jaws[0]!.name} against the fixed jaw, ${length(hold.grip?.mm ?? 0)} in the jaws ${on}, stop at ${hold.stop?.name ?? '(none)'}`
    : (hold?.type ?? '');
  return [
    `  ${setup.name}: ${up?.name} up`,
    `    held  ${held}`,
    `    zero  ${(['x', 'y', 'z'] as const).flatMap((a) => (setup.zero[a] ? [`${a} ${setup.zero[a].name}`] : [])).join(', ')}`,
    `    cuts  ${setup.cuts.map((c) => c.name).join(', ')}`,
    ...(time && time.tools.length > 0
      ? [`    with  ${time.tools.map((t) => t.name).join(', ')} (cutting ${minutesText(time.cutting)})`]
      : []),
    ...(time?.missing ?? []).map((m) => `    lacks ${m}`),
    ...warnings.map((w) => `    mind  ${w.message} [${w.rule}]`),
  ];
}

/** `About 35 to 80 min for the first piece, 9 to 15 for each after it; 14 tools put in.` */
function timeLine({ firstPiece, eachFurther, toolChanges }: PlanTime): string {
  return `About ${minutesText(firstPiece)} for the first piece and ${minutesText(eachFurther)} for each after it; ${toolChanges} tools put in. Speeds behind it are where to begin; the shop’s own rules go before them.`;
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

function reasonLines({ setup, up, items, saves, changes }: Reason, plan: Plan): readonly string[] {
  if (items.length === 0 || plan.setups.length < 2) return [];
  const { name } = plan.setups[setup]!.setup;
  const names = listed(items);
  const there = `${name} is there for ${names}: ${items.length === 1 ? 'it is' : 'they are'} cut only with ${up} up.`;
  if (!saves) return [there];
  const would = changes.map(changeText);
  return [
    would.length > 0
      ? `${there} It would be saved by ${would.join(', or by ')}.`
      : `${there} Without ${items.length === 1 ? 'it' : 'them'} it is saved.`,
  ];
}

function changeText({ type, items, faces }: Change): string {
  switch (type) {
    case 'by-hand':
      return `breaking ${listed(items)} by hand`;
    case 'through':
      return `taking ${listed(items)} through, to be cut with ${faces.join(' or ')} up`;
    case 'other-face':
      return `putting ${listed(items)} on ${faces.join(' or ')}`;
  }
}

function leftLines({ left }: Plan): readonly string[] {
  return left.map(({ item, why, waits }) =>
    waits
      ? `  not cut: ${item.name}: it comes after ${waits.name}, which is not cut`
      : item.from === 0
        ? `  not cut: ${item.name}: no straight tool gets to it from any of the six faces (it leans)`
        : `  not cut: ${item.name}${why ? `: ${why.message} [${why.rule}]` : ''}`,
  );
}

function listed(items: readonly Item[]): string {
  const names = [...new Set(items.map((i) => i.name))];
  return names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}
