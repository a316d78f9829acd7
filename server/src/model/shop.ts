/**
 * From a shop's text to the shop: what can be understood, in millimetres, newtons and watts, with the usual values where
 * something is left out (noted in `assumed`) and what stands wrong (in `problems`).
 */

import { memo } from '../memo';
import { at, entry, type MapEntry, type MapNode, scalarAt, type TextNode, type TextTree } from '../text/tree';
import { judgeTop } from './header';
import { quote, replace } from './resolve/problem';
import { shopSchema } from './schema/shop';
import { readBench, readDrillPress } from './shop-benches';
import { checkHeld, checkTool } from './shop-checks';
import { Fields } from './shop-fields';
import { readAnglePlate, readVBlock } from './shop-fixtures';
import { readDies, readLimits, readParallels, readRack, readRates } from './shop-lists';
import { readHolder, readMachine, readVise } from './shop-machines';
import { readMaterial } from './shop-materials';
import type { Machine, Shop } from './shop-model';
import { readTimes, type ShopTimes } from './shop-times';
import { readTool } from './shop-tools';

const NAME = /^[a-z][a-z0-9.-]*$/;

/** Works out a shop from its text. Never throws; what could not be understood is left out and named in `problems`. */
export function resolveShop(tree: TextTree, uri?: string): Shop {
  const root = tree.root;
  const fields = new Fields(scalarAt(root, 'units')?.source === 'in' ? 'in' : 'mm');
  judgeTop(fields, shopSchema, root, 'A shop', 'shop');
  const machines = readNamed(fields, root, 'machines', 'machine', (e) => readMachine(fields, e));
  const presses = readNamed(fields, root, 'drill-presses', 'drill press', (e) => readDrillPress(fields, e));
  const bench = readBench(fields, root);
  const vises = readNamed(fields, root, 'vises', 'vise', (e) => readVise(fields, e));
  const vBlocks = readNamed(fields, root, 'v-blocks', 'V-block', (e) => readVBlock(fields, e));
  const anglePlates = readNamed(fields, root, 'angle-plates', 'angle plate', (e) => readAnglePlate(fields, e));
  const holders = readNamed(fields, root, 'holders', 'holder', (e) => readHolder(fields, e));
  const materials = readNamed(fields, root, 'materials', 'material', (e) => readMaterial(fields, e));
  const own = new Map(materials.items.map((m) => [m.name, m]));
  const tools = readNamed(fields, root, 'tools', 'tool', (e) => {
    const tool = readTool(fields, e);
    if (tool && e.value?.type === 'map') checkTool(fields, tool, e.value);
    return tool;
  });
  checkHolders(fields, tools.entries, holders.entries);
  for (const tool of tools.items) {
    const { value } = tools.entries.find((e) => e.key.value === tool.name) ?? {};
    if (value?.type === 'map') checkHeld(fields, tool, value, holders.items);
  }
  const limits = readLimits(fields, root);
  const times = readTimes(fields, root);
  const dies = readDies(fields, root);
  return {
    name: scalarAt(root, 'shop')?.source ?? '',
    builtIn: false,
    ...(uri !== undefined && { uri }),
    units: fields.units,
    projection: projectionOf(fields, root),
    machines: machines.items.map((m) => asSet(m, limits, times)),
    drillPresses: presses.items,
    ...(bench && { bench }),
    vises: vises.items,
    vBlocks: vBlocks.items,
    anglePlates: anglePlates.items,
    parallelsMm: readParallels(fields, root),
    holders: holders.items,
    tools: tools.items,
    ...(dies && { dies }),
    ...(own.size > 0 && { materials: own }),
    rack: readRack(
      fields,
      root,
      materials.entries.map((e) => String(e.key.value)),
    ),
    rates: readRates(fields, root),
    times,
    limits,
    assumed: fields.assumed,
    problems: fields.problems,
    names: namesOf({ machines, presses, vises, vBlocks, anglePlates, holders, tools }),
  };
}

type Read = { readonly entries: readonly MapEntry[] };

function namesOf(
  of: Readonly<Record<'machines' | 'presses' | 'vises' | 'vBlocks' | 'anglePlates' | 'holders' | 'tools', Read>>,
): Shop['names'] {
  return [
    ...of.machines.entries.map((e) => named(e, 'machine')),
    ...of.presses.entries.map((e) => named(e, 'drill-press')),
    ...of.vises.entries.map((e) => named(e, 'vise')),
    ...of.vBlocks.entries.map((e) => named(e, 'v-block')),
    ...of.anglePlates.entries.map((e) => named(e, 'angle-plate')),
    ...of.holders.entries.map((e) => named(e, 'holder')),
    ...of.tools.entries.map((e) => named(e, 'tool')),
  ];
}

/** What a rule's setting and the shop's hands say of every machine. */
function asSet(machine: Machine, limits: Shop['limits'], times: ShopTimes): Machine {
  const efficiency = limits.get('machine/power')?.get('efficiency');
  const { tap, 'tap-turn': turn, 'bore-cut': trial } = times;
  const own = times.given.some((name) => name === 'tap' || name === 'tap-turn' || name === 'bore-cut');
  if (efficiency === undefined && !own) return machine;
  return {
    ...machine,
    ...(efficiency !== undefined && { efficiency }),
    ...(own && { hands: { tap, 'tap-turn': turn, 'bore-cut': trial } }),
  };
}

/** Where it is not said, as is usual where the shop's unit is. */
function projectionOf(fields: Fields, root: MapNode | undefined): Shop['projection'] {
  const usual = fields.units === 'in' ? 'third' : 'first';
  const written = at(root, 'projection');
  if (!written) return usual;
  const said = written.type === 'scalar' ? written.source : undefined;
  if (said === 'first' || said === 'third') return said;
  fields.problem(
    'form/schema',
    `\`projection\` cannot be ${said === undefined ? 'this' : quote(said)}. Write \`first\` or \`third\`.`,
    written.span,
  );
  return usual;
}

function named(entry: MapEntry, of: Shop['names'][number]['of']): Shop['names'][number] {
  return { name: String(entry.key.value), span: entry.key.span, of };
}

function readNamed<T>(
  fields: Fields,
  root: MapNode | undefined,
  key: string,
  what: string,
  read: (entry: MapEntry) => T | undefined,
): { readonly items: readonly T[]; readonly entries: readonly MapEntry[] } {
  const section = entry(root, key);
  if (!section?.value) return { items: [], entries: [] };
  if (section.value.type !== 'map') {
    fields.problem(
      'form/schema',
      `\`${key}\` needs a name for each ${what}, and what it is. Write it like \`name: { … }\`.`,
      section.value.span,
    );
    return { items: [], entries: [] };
  }
  const entries: MapEntry[] = [];
  const items: T[] = [];
  const seen = new Set<string>();
  for (const one of section.value.entries) {
    const name = String(one.key.value);
    if (!NAME.test(name)) {
      const tidy = name
        .toLowerCase()
        .replace(/[^a-z0-9.-]+/g, '-')
        .replace(/^[^a-z]+/, '');
      const message = `${quote(name)} is not a name for a ${what}. ${tidy ? `Write \`${tidy}\`: ` : 'Use '}small letters, digits and \`-\`, a letter first.`;
      fields.problem('form/schema', message, one.key.span, tidy ? { fixes: [replace(one.key.span, tidy)] } : {});
      continue;
    }
    if (seen.has(name)) continue; // said by the reader of the text
    seen.add(name);
    entries.push(one);
    const item = remembered(fields, one, read);
    if (item !== undefined) items.push(item);
  }
  return { items, entries };
}

function checkHolders(fields: Fields, tools: readonly MapEntry[], holders: readonly MapEntry[]): void {
  const known = holders.map((h) => String(h.key.value));
  for (const { value } of tools) {
    const holder = scalarAt(value, 'holder');
    if (holder && !known.includes(holder.source)) fields.unknownName('holder', holder.source, known, holder.span);
  }
}

/** What an entry's value came to: its text is the same as long as the node is. */
const readEntry = memo(
  (_: TextNode, _name: string, fields: Fields, read: () => unknown) => {
    const [problems, assumed] = [fields.problems.length, fields.assumed.length];
    const item = read();
    return { item, problems: fields.problems.splice(problems), assumed: fields.assumed.splice(assumed) };
  },
  { by: (_, name, fields) => [name, fields.units] },
);

/** Reads an entry, or takes over what its unchanged text came to before: the same object, the same problems. */
function remembered<T>(fields: Fields, one: MapEntry, read: (entry: MapEntry) => T | undefined): T | undefined {
  const { value, key } = one;
  if (!value) return read(one);
  const { item, problems, assumed } = readEntry(value, String(key.value), fields, () => read(one));
  fields.problems.push(...problems);
  fields.assumed.push(...assumed);
  return item as T | undefined;
}
