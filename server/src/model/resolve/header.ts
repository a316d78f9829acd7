/** The head of a part document: what it is called, what it is made of, how many, and what stands where nothing is known. */

import { parseGeneralTolerance, unitTrouble } from '../../tables/general-tolerances';
import { findMaterial, nearestMaterial } from '../../tables/materials';
import {
  at,
  entry,
  type ListNode,
  type MapEntry,
  type MapNode,
  type ScalarNode,
  type Span,
  scalarAt,
} from '../../text/tree';
import { generalText } from '../everyday/elsewhere';
import { everydayHeader } from '../everyday/header';
import { standingInside } from '../everyday/inside';
import { insteadOfField } from '../everyday/instead';
import { familyOf } from '../everyday/material-words';
import { mirroredPart } from '../everyday/mirror-words';
import type { Named, Part } from '../model';
import { partSchema } from '../schema/part';
import { type Shape, shapeOf } from '../schema/shape';
import type { CellDatabase } from './database';
import { type Evaluation, namedOf, textOf } from './evaluation';
import { madeName } from './names';
import { NAME_KEY, nearest, quote, replace } from './problem';
import { alsoHas, onlyOf, wanted } from './validate';

type Header = Pick<
  Part,
  'name' | 'nameSpan' | 'title' | 'revision' | 'shopPath' | 'material' | 'quantity' | 'tolerance'
>;

const PART = shapeOf(partSchema) as Extract<ReturnType<typeof shapeOf>, { type: 'map' }>;
const MOST_PARTS = 1_000_000;

export function headerOf(doc: CellDatabase, root: MapNode | undefined, whole: Span, unread: boolean): Header {
  doc.cell('root', [root, unread], (work) => keysOf(work, root, whole, unread));
  const nodes = ['part', 'title', 'revision', 'shop', 'units', 'material', 'quantity', 'tolerance'].map((k) =>
    entry(root, k),
  );
  return doc.cell('header', [...nodes, whole.from], (work) => read(work, root, whole)) as Header;
}

/** Keys of the document that mean nothing, and needed ones that are not there. */
function keysOf(work: Evaluation, root: MapNode | undefined, whole: Span, unread: boolean): void {
  if (!root && unread) return;
  if (!root) {
    work.fail('This file is empty. Write `part: NAME` first, and its `body: { x: …, y: …, z: … }`.', {
      ...whole,
      to: whole.from,
    });
    return;
  }
  const given = new Set(root.entries.map((e) => String(e.key.value)));
  const inside = standingInside(root, PART.keys, 'a part');
  for (const { into, message, span, fix } of inside) {
    work.fail(message, span, { fixes: [fix] });
    given.add(into);
  }
  for (const e of root.entries) {
    if (inside.some((i) => i.entries.includes(e))) continue;
    const known = PART.keys.get(String(e.key.value));
    if (known) rightKind(work, e, known.shape);
    else unknownKey(work, e, given);
  }
  for (const [key, { required, shape }] of PART.keys) {
    if (!required || given.has(key)) continue;
    const first = root.entries[0]?.key.span ?? whole;
    work.fail(`A part needs \`${key}\`. Write it like \`${key}: ${shape.meta.example}\`.`, first);
  }
}

/** What it is like counts as given: that is what was meant. */
function unknownKey(work: Evaluation, e: MapEntry, given: Set<string>): void {
  const key = String(e.key.value);
  const mirrored = mirroredPart(e);
  if (mirrored) return void work.fail(mirrored.message, e.key.span, { fixes: mirrored.fixes });
  const free = [...PART.keys.keys()].filter((k) => !given.has(k));
  const everyday = everydayHeader(key, free);
  const instead = everyday ? undefined : insteadOfField(key, PART.keys);
  if (instead) return void work.fail(`A part has no field ${quote(key)}. ${instead}`, e.key.span);
  const like = everyday ?? nearest(key, free);
  const rest = everyday ? `. Write \`${like}\` here.` : like ? `. Did you mean \`${like}\`?` : `.${alsoHas(free)}`;
  const fixes = like ? { fixes: [replace(e.key.span, like)] } : {};
  work.fail(`A part has no field ${quote(key)}${rest}`, e.key.span, fixes);
  if (like) given.add(like);
}

function rightKind(work: Evaluation, { key, value }: MapEntry, shape: Shape): void {
  if (!value) return;
  const name = String(key.value);
  const only = onlyOf(shape, value);
  if (value.type !== 'scalar' && shape.type === 'scalar')
    work.fail(
      `\`${name}\` is a ${value.type}. Write ${only ? `\`${only}\`` : wanted(shape)}.`,
      value.span,
      only ? { fixes: [replace(value.span, only)] } : {},
    );
  else if (shape.type === 'record' && value.type !== 'map') {
    const names = value.type === 'list' ? namesOf(value) : undefined;
    const more = names && {
      fixes: [{ title: 'Give each a name', edits: [], named: [value as ListNode, names] as const }],
    };
    const eg = names ? `, like \`${names[0]}: …\`` : '';
    const asks = `Write one for each line${eg || ': `name: value`'}.`;
    work.fail(`\`${name}\` needs names with their values. ${asks}`, value.span, more ?? {});
  } else if (shape.type === 'list' && value.type !== 'list')
    work.fail(`\`${name}\` needs a list. Write one item for each line, beginning with \`- \`.`, value.span);
}

/** Names for the items of a list: their own where they have one, else by their kind, counted. */
function namesOf(list: ListNode): readonly string[] | undefined {
  const seen = new Set<string>();
  const names = list.items.map((item) => {
    if (item.type !== 'map') return undefined;
    const own = item.entries.find((e) => NAME_KEY.test(String(e.key.value)))?.value;
    const kind = at(item, 'kind') ?? at(item, 'type');
    const said = own?.type === 'scalar' ? nameOf(own.source) : undefined;
    const base = said ?? (kind?.type === 'scalar' ? nameOf(kind.source) : undefined) ?? 'item';
    for (let n = said ? 0 : 1; ; n++) {
      const name = n === 0 ? base : `${base}-${n}`;
      if (seen.has(name)) continue;
      seen.add(name);
      return name;
    }
  });
  return names.length > 0 && names.every((n) => n !== undefined) ? names : undefined;
}

function nameOf(text: string): string | undefined {
  return madeName(text) || undefined;
}

function read(work: Evaluation, root: MapNode | undefined, whole: Span): Header {
  const name = written(root, 'part');
  if (entry(root, 'part') && !at(root, 'part'))
    work.fail('The part needs a name. Write it like `part: bracket`.', entry(root, 'part')!.key.span);
  const title = written(root, 'title');
  const revision = written(root, 'revision');
  const shop = written(root, 'shop');
  const units = written(root, 'units');
  if (units && units.value !== 'mm' && units.value !== 'in') {
    const like = /^(inch|inches|imperial|")$/i.test(String(units.value)) ? 'in' : 'mm';
    const message = `\`units\` cannot be ${quote(units.source)}. Write \`mm\` or \`in\`.`;
    work.fail(message, units.span, { fixes: [replace(units.span, like)] }, 'form/unit');
  }
  const quantity = scalarAt(root, 'quantity') ? work.count(root, 'quantity', MOST_PARTS) : undefined;
  return {
    name: name ? textOf(name) : '',
    nameSpan: name?.span ?? { ...whole, to: whole.from },
    ...(title && { title: textOf(title) }),
    ...(revision && { revision: textOf(revision) }),
    ...(shop && { shopPath: namedOf(shop) }),
    ...materialIn(work, written(root, 'material')),
    quantity: quantity ?? 1,
    ...toleranceOf(work, written(root, 'tolerance')),
  };
}

function materialIn(work: Evaluation, node: ScalarNode | undefined): { material?: Named } {
  if (!node) return {};
  const name = String(node.value);
  if (!findMaterial(name)) {
    const family = familyOf(name);
    const like = family.length > 0 ? undefined : nearestMaterial(name)?.name;
    const rest =
      family.length > 0
        ? `; which one is meant? Write ${family.map((m) => `\`${m}\``).join(' or ')}.`
        : like
          ? `. Did you mean \`${like}\`?`
          : '. Write one like `aluminium-6061-t6`; what depends on it is not checked.';
    const ways = family.length > 0 ? family : like ? [like] : [];
    const fixes = ways.map((to) => ({ ...replace(node.span, to), ...(ways.length > 1 && { equal: true as const }) }));
    const more = fixes.length > 0 ? { fixes } : {};
    work.fail(`There is no material ${quote(name)} in the tables${rest}`, node.span, more, 'stock/unknown-material');
  }
  return { material: { name, span: node.span } };
}

function toleranceOf(work: Evaluation, node: ScalarNode | undefined): { tolerance?: Named } {
  if (!node) return {};
  const text = String(node.value);
  if (!parseGeneralTolerance(text)) {
    const message = `${quote(text)} is not a general tolerance. Write \`ISO 2768-m\`, or another class: f fine, c coarse, v very coarse.`;
    const meant = generalText(text, work.doc.units);
    if (meant)
      work.fail(`${quote(text)} is \`${meant}\` here. Write that.`, node.span, { fixes: [replace(node.span, meant)] });
    else work.fail(message, node.span);
    return {};
  }
  const trouble = unitTrouble(text, work.doc.units);
  if (trouble)
    work.fail(
      trouble === 'no unit'
        ? `${quote(text)} has no unit. Write it like \`ISO 22081 ±0.005 in\`.`
        : 'Tolerances by decimals are for sizes in inches. Write `units: in`, or `ISO 22081 ±0.1`.',
      node.span,
    );
  return trouble ? {} : { tolerance: { name: text, span: node.span } };
}

function written(root: MapNode | undefined, key: string): ScalarNode | undefined {
  const node = scalarAt(root, key);
  return node && node.value !== null ? node : undefined;
}
