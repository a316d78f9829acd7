/** The lists and small maps of a shop: parallels, bars on the rack, rates, limits of rules. */

import { findThread } from '../tables/thread-names';
import { parseDimension } from '../text/dimension';
import { evaluate } from '../text/expression';
import { formatLength } from '../text/format';
import { entry, type MapNode, mapAt, scalarAt } from '../text/tree';
import { SAME } from '../tolerance';
import { isSound } from './header';
import { quote } from './resolve/problem';
import { rates as ratesSchema } from './schema/shop';
import type { Fields } from './shop-fields';
import { readRackItem } from './shop-machines';
import type { Shop } from './shop-model';

/** Heights of the pairs of parallels, mm; what is no height is told and left out. */
/** Threads that there is a die for; undefined where none are listed. */
export function readDies(fields: Fields, root: MapNode | undefined): readonly string[] | undefined {
  const node = entry(root, 'dies')?.value;
  if (node?.type !== 'list') return undefined;
  return node.items.flatMap((item) => {
    const found = item.type === 'scalar' ? findThread(item.source) : undefined;
    if (!found)
      fields.problem('thread/unknown', 'A die is named by its thread. Write it like `M8` or `1/4-20 UNC`.', item.span);
    return found ? [found.designation] : [];
  });
}

export function readParallels(fields: Fields, root: MapNode | undefined): readonly number[] {
  const node = entry(root, 'parallels')?.value;
  if (!node) return [];
  if (node.type !== 'list') {
    fields.problem(
      'form/schema',
      '`parallels` needs a list of heights. Write them like `[10, 14, 18, 22]`.',
      node.span,
    );
    return [];
  }
  const heights: number[] = [];
  for (const item of node.items) {
    if (item.type !== 'scalar') {
      fields.problem('form/schema', 'A pair of parallels is one height. Write it like `18`.', item.span);
      continue;
    }
    const mm = fields.lengthOf(item, 'parallels', 'over 0');
    if (mm === undefined) continue;
    if (heights.some((h) => Math.abs(h - mm) < SAME)) {
      fields.problem(
        'form/schema',
        `Parallels ${formatLength(mm, fields.units)} high are listed already. Delete one of the two.`,
        item.span,
      );
    } else {
      heights.push(mm);
    }
  }
  return heights.sort((a, b) => a - b);
}

/** Bars and plates that can be had, of the tables' materials and the shop's `own`; an item with a fault is told and left out. */
export function readRack(fields: Fields, root: MapNode | undefined, own: readonly string[]): Shop['rack'] {
  const node = entry(root, 'rack')?.value;
  if (!node) return [];
  if (node.type !== 'list') {
    fields.problem(
      'form/schema',
      '`rack` needs a list. Write one `- { form: …, material: …, … }` for each bar.',
      node.span,
    );
    return [];
  }
  return node.items.flatMap((item, i) => {
    if (item.type === 'map') return readRackItem(fields, item, i, own) ?? [];
    fields.problem(
      'form/schema',
      `Bar ${i + 1} of the rack has no entries. Write them like \`{ form: flat-bar, material: …, … }\`.`,
      item.span,
    );
    return [];
  });
}

export function readRates(fields: Fields, root: MapNode | undefined): Shop['rates'] {
  const node = entry(root, 'rates');
  if (node?.value) isSound(fields, ratesSchema, node.value, '`rates`', node.key.span);
  const rates = mapAt(root, 'rates');
  const or0 = (key: string) =>
    fields.number(rates, key, 0) ??
    (rates && !scalarAt(rates, key)
      ? fields.assume({ of: 'rates', span: node!.key.span, field: key }, 0, 'not given')
      : 0);
  return {
    machineHour: or0('machine-hour'),
    personHour: or0('person-hour'),
    currency: fields.word(rates, 'currency') ?? 'EUR',
  };
}

/** Rule → setting → value. Which rules and settings there are is not known here: `rules/shop-names.ts` tells. */
export function readLimits(fields: Fields, root: MapNode | undefined): Shop['limits'] {
  const limits = new Map<string, ReadonlyMap<string, number>>();
  const node = entry(root, 'limits')?.value;
  if (!node) return limits;
  if (node.type !== 'map') {
    fields.problem(
      'form/schema',
      '`limits` needs rules, each with its settings and values. Write them like `wall/thin: { metal: 1 }`.',
      node.span,
    );
    return limits;
  }
  for (const { key, value } of node.entries) {
    if (value?.type !== 'map') {
      fields.problem(
        'form/schema',
        `${quote(String(key.value))} needs settings with their values. Write them like \`{ metal: 1 }\`.`,
        value?.span ?? key.span,
      );
      continue;
    }
    const settings = new Map<string, number>();
    for (const setting of value.entries) {
      const number = setting.value?.type === 'scalar' ? limitValue(setting.value.source) : undefined;
      if (number !== undefined) settings.set(String(setting.key.value), number);
      else {
        const message = `${quote(String(setting.key.value))} needs a number, or a length with its unit, like \`0.8 mm\`.`;
        fields.problem('form/schema', message, setting.value?.span ?? setting.key.span);
      }
    }
    limits.set(String(key.value), settings);
  }
  return limits;
}

/** A bare number as it is; a length with its unit in mm; an angle in degrees. */
function limitValue(source: string): number | undefined {
  const parsed = parseDimension(source);
  if (!parsed.ok || parsed.dimension.tolerance) return undefined;
  const worked = evaluate(parsed.dimension.expression, { unitMm: 1, lookup: () => 'unknown' });
  return worked.ok && worked.value.value >= 0 ? worked.value.value : undefined;
}
