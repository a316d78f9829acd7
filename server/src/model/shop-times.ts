/**
 * What a shop's hands take besides cutting: setting up, loading, finding zero, touching tools off, measuring, deburring,
 * sawing, tapping, trial cuts, jaws and plates to make. Each a range in minutes, for nobody is as quick on a Monday; each a setting of the shop under `times:`.
 */
import { at, entry, type MapNode, type Span } from '../text/tree';
import { isSound } from './header';
import { readQuantity } from './quantity';
import { times as timesSchema } from './schema/shop';
import type { Fields } from './shop-fields';

/** Minutes: a quick hand and a slow one. */
export type Minutes = readonly [low: number, high: number];

/** Common practice, no source, all of them: of manual mills in teaching and tool-making shops. Minutes. */
export const USUAL_TIMES = {
  'set-up': { usual: [8, 30], what: 'a set-up, once: vise cleaned and squared, parallels, stop, the first zero' },
  load: { usual: [1, 3], what: 'one piece out, chips off, the next one in' },
  zero: { usual: [1, 3], what: 'setting zero again on one axis, for a piece that no stop or fixed jaw locates' },
  'touch-off': { usual: [0.5, 2], what: 'a tool’s length touched off, once a set-up' },
  measure: { usual: [1, 3], what: 'one toleranced size measured' },
  deburr: { usual: [5, 11], what: 'a metre of sharp edge broken by hand' },
  saw: { usual: [2, 5], what: 'one saw cut: marked out, clamped, sawn' },
  tap: { usual: [0.5, 1], what: 'one hole tapped by hand, besides its turns: put in, started square, taken out' },
  'tap-turn': { usual: [3 / 60, 5 / 60], what: 'one turn of a tap by hand, with its quarter back' },
  'bore-cut': { usual: [2, 3.5], what: 'one trial cut of a boring head, besides the cutting: measured, the head set' },
  'soft-jaws': { usual: [20, 40], what: 'a pair of soft jaws made for a set-up' },
  'fixture-plate': { usual: [15, 30], what: 'a fixture plate made for a set-up: drilled and tapped' },
} as const satisfies Readonly<Record<string, { readonly usual: Minutes; readonly what: string }>>;

type TimeName = keyof typeof USUAL_TIMES;
export const TIME_NAMES = Object.keys(USUAL_TIMES) as readonly TimeName[];
export const TIMES_SOURCE = 'common practice, no source';

export type ShopTimes = Readonly<Record<TimeName, Minutes>> & {
  /** Those that the shop itself says. */
  readonly given: readonly TimeName[];
};

/** The usual ones where the shop says none; what is no range is told. */
export function readTimes(fields: Fields, root: MapNode | undefined): ShopTimes {
  const node = entry(root, 'times');
  if (node?.value) isSound(fields, timesSchema, node.value, '`times`', node.key.span);
  const given: TimeName[] = [];
  const each = TIME_NAMES.map((name): [TimeName, Minutes] => {
    const read = node?.value && readRange(fields, at(node.value, name), name);
    if (read) given.push(name);
    return [name, read ?? USUAL_TIMES[name].usual];
  });
  return { ...(Object.fromEntries(each) as Record<TimeName, Minutes>), given };
}

function readRange(fields: Fields, node: ReturnType<typeof at>, name: TimeName): Minutes | undefined {
  if (node?.type !== 'list') return undefined;
  const wrong = (span: Span, message: string): undefined => {
    fields.problem('form/schema', `\`${name}\`: ${message}`, span);
    return undefined;
  };
  const minutes: number[] = [];
  for (const item of node.items) {
    if (item.type !== 'scalar') return undefined;
    const read = readQuantity(item.source, 'time', 'min');
    if (!read.ok) return wrong(item.span, read.message);
    minutes.push(read.value / 60);
  }
  const [low, high = low] = minutes;
  if (low === undefined || minutes.length > 2)
    return wrong(node.span, 'needs a quick time and a slow one. Write them like `[8 min, 20 min]`.');
  if (low > high!)
    return wrong(node.span, `the slow time comes first. Write the quick one first: \`[${high}, ${low}]\`.`);
  return [low, high!];
}
