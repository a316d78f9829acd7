/** What the answer rests on: a part's figures, the defaults that nobody wrote, and the limits in force. */

import { materialOf } from '../model/material-of';
import type { Shop } from '../model/shop-model';
import { valuesOf } from '../model/values';
import { machineFor } from '../process/operations/machine';
import { addingOf } from '../process/stackup';
import { comesCut } from '../process/stock/brought';
import type { CheckedPart } from '../rules/checked-part';
import { sourceText, valueOfLimit } from '../rules/page';
import { RULES } from '../rules/registry';
import { formatLength } from '../text/format';
import { leadingPath } from '../text/shown';
import { chainLines, chainTitle, partChains } from './chains';
import { costLines, timeLines } from './costs';
import { formulaeOf } from './cut-formulae';
import { cutLine, passedOverLines, pricedCuts, unpricedLines, WHERE_TO_BEGIN } from './cuts';
import { facingsOf } from './facings';
import { figuresOf } from './figures';
import { leftOutText } from './left-out';
import { setUpNotes } from './set-up-notes';
import { standsOutOf } from './stands-out';
import { finishLines, generalText, partGenerals, positionLines } from './tolerances';

/** What a part comes to and what was taken for granted, as lines for a terminal. */
export function factsLines(path: string, checked: CheckedPart): readonly string[] {
  const lines = [
    ...figureLines(checked),
    ...heldLines(checked),
    ...cutLines(checked),
    ...timeLines(checked),
    ...costLines(checked),
    ...chainsLines(checked),
    ...roughnessLines(checked),
    ...positionedLines(checked),
    ...generalLines(checked),
    ...defaultLines(checked),
    ...limitLines(checked),
  ];
  return [leadingPath(path), ...lines.map(sourceText), ''];
}

function figureLines(checked: CheckedPart): string[] {
  const f = figuresOf(checked);
  const { units } = checked.part;
  const row = (label: string, value: string) => `  ${label.padEnd(22)} ${value}`;
  const point = (v: readonly number[]) => v.map((c) => formatLength(c, units)).join(', ');
  const lines = [row('part', f.name), row('shop', shopText(checked.shop))];
  if (f.volume_mm3 !== null)
    lines.push(row('volume', `${f.exact ? '' : 'about '}${(f.volume_mm3 / 1000).toFixed(3)} cm³`));
  if (f.mass_g !== null)
    lines.push(row('mass', `${f.exact ? '' : 'about '}${f.mass_g.toFixed(1)} g (${checked.part.material?.name})`));
  if (f.centroid_mm)
    lines.push(row('centre of gravity', `${f.exact ? '' : 'about '}x, y, z = ${point(f.centroid_mm)}`));
  if (f.stock_mm) {
    const { form, section } = checked.part.stock;
    const wall = section ? `, wall ${formatLength(section.wall.mm, units)}` : '';
    lines.push(row('stock', `${f.stock_mm.map((c) => formatLength(c, units)).join(' × ')}, ${form}${wall}`));
  }
  const without = leftOutText(checked);
  if (without) lines.push(row('without', `${without}, which could not be read`));
  lines.push(
    row('features', String(checked.part.features.length)),
    row('setups', f.setups === null ? 'none given' : String(f.setups)),
  );
  return lines;
}

function shopText({ name, builtIn, unread }: Shop): string {
  if (unread !== undefined) return `${name} ${unread}: what needs a shop is left out`;
  return name + (builtIn ? ' (built in)' : '');
}

/** How each set-up in a vise holds the work, and how far it stands out of the jaws. */
function heldLines(checked: CheckedPart): readonly string[] {
  const named = (setup: string, text: string) => `    ${setup.padEnd(22)} ${text}`;
  const notes = setUpNotes(checked).flatMap((texts, i) =>
    texts.map((text) => named(checked.part.setups![i]!.name, text)),
  );
  const lines = [...standsOutOf(checked).map(({ setup, text }) => named(setup, text)), ...notes];
  return lines.length > 0 ? ['  held', ...lines] : [];
}

/** Every cut, why other tools on hand do not do it, and once where the numbers come from. */
function cutLines(checked: CheckedPart): string[] {
  const { part, shop } = checked;
  const sources = new Set<string>();
  const material = materialOf(part);
  const lines = part.features.flatMap((feature) => {
    const machine = machineFor(part, shop, feature.name);
    const named = (line: string) => `    ${feature.name.padEnd(22)} ${line}`;
    if (comesCut(feature, part, checked.solid)) return [named('comes with the blank: nothing of it is left to cut')];
    const cuts = pricedCuts(feature, checked);
    for (const p of cuts)
      if (material && machine)
        for (const { what, source } of formulaeOf(p, material, machine))
          sources.add(`    ${what.padEnd(22)} ${source}`);
    return [
      ...(cuts.length > 0
        ? cuts.map((p) => named(cutLine(p, part.units, machine)))
        : unpricedLines(feature, checked).map(named)),
      ...passedOverLines(feature, checked).map(named),
    ];
  });
  for (const { face, setup, machine, cuts } of facingsOf(checked))
    for (const p of cuts) {
      lines.push(`    ${face.padEnd(22)} ${cutLine(p, part.units, machine)}, in ${setup.name}`);
      for (const { what, source } of material ? formulaeOf(p, material, machine) : [])
        sources.add(`    ${what.padEnd(22)} ${source}`);
    }
  if (lines.length === 0) return [];
  const by = sources.size > 0 ? ['  by (formulae in the hover):', ...sources] : [];
  return ['  cut with:', ...lines, `    ${WHERE_TO_BEGIN}`, ...by];
}

function chainsLines(checked: CheckedPart): string[] {
  const lines = partChains(checked).flatMap((chain) => {
    const own = chainLines(chain, checked.part.units, addingOf(checked.shop));
    return own.length > 0 ? [`    ${chainTitle(chain.of)}`, ...own.map((l) => `      ${l}`)] : [];
  });
  return lines.length > 0
    ? ['  dimension chains (likely: root of the sum of squares; at worst: the sum):', ...lines]
    : [];
}

function roughnessLines(checked: CheckedPart): string[] {
  const lines = checked.part.features.flatMap((f) =>
    finishLines(f, checked).map((l) => `    ${f.name.padEnd(22)} ${l}`),
  );
  return lines.length > 0 ? ['  roughness:', ...lines] : [];
}

function positionedLines({ part }: CheckedPart): string[] {
  const lines = positionLines(part).flatMap(({ title, lines }) => [`    ${title}`, ...lines.map((l) => `      ${l}`)]);
  return lines.length > 0 ? ['  positions:', ...lines] : [];
}

function generalLines({ part }: CheckedPart): string[] {
  const lines = partGenerals(part).map(
    (g) => `    ${g.what.padEnd(34)} ${generalText(g, part.units).padEnd(10)} ${g.source}`,
  );
  return lines.length > 0 ? [`  without a tolerance of their own, by ${part.tolerance?.name}:`, ...lines] : [];
}

function defaultLines(checked: CheckedPart): string[] {
  const { part } = checked;
  const lines: string[] = [];
  for (const feature of part.features) {
    for (const { path, value, type } of valuesOf(feature)) {
      if (value.from === undefined) continue;
      const shown = type === 'length' ? formatLength(value.mm, part.units) : `${Number(value.deg.toFixed(4))}°`;
      lines.push(`    ${`${feature.name}.${path.join('.')}`.padEnd(34)} ${shown.padEnd(10)} ${value.from}`);
    }
  }
  return lines.length > 0 ? ['  not written, taken as:', ...lines] : [];
}

function limitLines(checked: CheckedPart): string[] {
  if (checked.shop.unread !== undefined) return [];
  const lines = RULES.flatMap((rule) =>
    rule.limits.map((limit) => {
      const set = checked.shop.limits.get(rule.name)?.get(limit.name);
      const where = set === undefined ? limit.source : `set in ${checked.shop.name}`;
      return `    ${`${rule.name} ${limit.name}`.padEnd(34)} ${valueOfLimit(set ?? limit.value, limit.unit).padEnd(10)} ${where}`;
    }),
  );
  return lines.length > 0 ? ['  limits in force:', ...lines] : [];
}
