/** What a plan's set-ups are there for, what would save one, and what is not cut and why, in words. */
import type { Item } from '../planning/item';
import type { Plan } from '../planning/plan';
import { type Change, type Reason, reasonsOf } from '../planning/reasons';
import type { Uncut } from '../planning/uncut';
import type { CheckedPart } from '../rules/checked-part';

/** Of each set-up, in their order. */
export function reasonsBySetup(plan: Plan, checked: CheckedPart): readonly (readonly string[])[] {
  const reasons = reasonsOf(plan, checked);
  return plan.setups.map((_, i) => reasons.filter((r) => r.setup === i).flatMap((r) => reasonLines(r, plan)));
}

const NUMBERS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight'];
const ORDINALS = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth'];

function number(n: number): string {
  return NUMBERS[n] ?? String(n);
}

function reasonLines({ setup, up, items, without, changes, halved, short }: Reason, plan: Plan): readonly string[] {
  if (items.length === 0) return [];
  const { name } = plan.setups[setup]!.setup;
  const one = namesOf(items).length === 1;
  const lines: string[] = [];
  if (without !== undefined && changes.length > 0)
    lines.push(
      `Set-up ${name} (${up} up): ${listed(items)} ${one ? 'is' : 'are'} the only thing that needs a ${ORDINALS[plan.setups.length - 1]} set-up. ${changes.map((c) => changeText(c, up)).join(' ')}`,
    );
  else lines.push(`Set-up ${name} is needed for what is cut with ${up} up: ${listed(items)}.`);
  for (const why of [undefined, 'jaws'] as const) {
    const here = halved.filter((i) => i.halvedFor === why);
    if (here.length > 0)
      lines.push(
        `${listed(here)} ${namesOf(here).length === 1 ? 'is' : 'are'} cut half from each side: from one alone ${why ? 'the jaws are in the way' : 'no tool in the shop reaches the floor'}.`,
      );
  }
  if (short.length > 0)
    lines.push(
      `${listed(short)} ${namesOf(short).length === 1 ? 'opens' : 'open'} to another face that is also up, but no tool in the shop is long enough there.`,
    );
  return lines;
}

/** Each was planned: so many set-ups it takes then. */
function changeText({ type, items, faces, setups }: Change, up: string): string {
  const enough = setups === 1 ? 'one set-up is enough' : `${number(setups)} set-ups are enough`;
  const it = namesOf(items).length === 1 ? 'it' : 'them';
  switch (type) {
    case 'by-hand':
      return `Break ${it} by hand after the others, and ${enough}.`;
    case 'through':
      return `Make ${it} go through, cut with ${either(faces)} up, and ${enough}.`;
    case 'other-face':
      return `Could ${listed(items)} be on ${either(faces)} instead of ${up}? Then ${enough}.`;
    default:
      return type satisfies never;
  }
}

/** What is not cut, a line each, with what was said where it came nearest. */
export function uncutLines(left: readonly Uncut[]): readonly string[] {
  return left.map((l) => `${l.item.name}: ${uncutText(l)}`);
}

/** Which cut is in the way of fewer set-ups, and what is in its way. */
export function blockedLine({ uncut: left, blocked }: Plan): readonly string[] {
  return left.length === 0 && blocked ? [`In the way of fewer: ${blocked.item.name}, ${uncutText(blocked)}`] : [];
}

function uncutText({ item, why, up, waits }: Uncut): string {
  if (waits) return `it comes after ${waits.name}, which is not cut`;
  if (item.from === 0) return 'no straight tool gets to it from any of the six faces (it is tilted)';
  if (!why) return 'no way to hold the workpiece for it was found before the attempts ran out';
  // The set-up that was tried is in no plan: its name says nothing.
  const message = why.message
    .replace(/^Set-up \S+(?: \(\w+ up\))?: /, '')
    .replace(/^Set-up \S+(?: \(\w+ up\))? /, 'it ');
  return `with ${up} up: ${message} [${why.rule}]`;
}

function namesOf(items: readonly Item[]): readonly string[] {
  return [...new Set(items.map((i) => i.name))];
}

function listed(items: readonly Item[]): string {
  const names = namesOf(items);
  return names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}

function either(faces: readonly string[]): string {
  return faces.length < 2 ? (faces[0] ?? '') : `${faces.slice(0, -1).join(', ')} or ${faces.at(-1)}`;
}
