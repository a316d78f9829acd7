/** access/long-cutter – a mill hangs down too many of its own diameters. */

import { materialOf } from '../../model/material-of';
import type { Feature } from '../../model/model';
import { outlineReach } from '../../process/choice';
import { shankRadius } from '../../process/cutters';
import { operationsOf } from '../../process/operations';
import { machineFor } from '../../process/operations/machine';
import { priceOf } from '../../process/operations/priced';
import { milledSeen } from '../../process/operations/seen';
import type { Operation, Priced } from '../../process/operations/types';
import { cuttingOf } from '../../tables/cutting';
import type { Material } from '../../tables/materials';
import { SAME } from '../../tolerance';
import { change } from '../kit/changes';
import { defineRule } from '../kit/define';
import { setLength } from '../kit/edits';
import { figure, roundDown, spanOf, trimmed } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';

type Milled = Extract<Operation, { does: 'rough' | 'rest' | 'finish' }>;

interface Long {
  readonly feature: Feature;
  readonly operation: Milled;
  readonly priced: Priced | undefined;
  readonly freeMm: number;
  readonly ratio: number;
  readonly most: number;
}

/** ISO 513 letter N and plastics cut lightly; all else pushes harder. */
function mostFor(material: Material, { limit }: RuleContext): number {
  const { group } = cuttingOf(material);
  return group === undefined || group === 'N' ? limit('light') : limit('heavy');
}

function longIn(feature: Feature, material: Material, context: RuleContext): Long | undefined {
  const { part, solid, shop } = context;
  const most = mostFor(material, context);
  const { all, place } = milledSeen(feature, part, solid);
  const machine = machineFor(part, shop, feature.name);
  let worst: Long | undefined;
  for (const operation of operationsOf(feature, { part, solid, shop })) {
    if (operation.does !== 'rough' && operation.does !== 'rest' && operation.does !== 'finish') continue;
    const { tool, depthMm } = operation;
    const { diameterMm, reachMm } = tool;
    // Most cut no deeper than they are long allowed: only of the others is it measured.
    if (reachMm / diameterMm <= most + SAME) continue;
    const needs = all.map((m) => outlineReach(m, place, diameterMm / 2, shankRadius(tool), reachMm));
    const freeMm = Math.min(reachMm, Math.max(depthMm, ...needs));
    const ratio = freeMm / diameterMm;
    if (ratio <= most + SAME || (worst && worst.ratio >= ratio)) continue;
    const priced = machine && priceOf(operation, material, machine);
    worst = { feature, operation, priced, freeMm, ratio, most };
  }
  return worst;
}

function* longOnes(context: RuleContext): Generator<Long> {
  const material = materialOf(context.part);
  if (!material) return;
  for (const feature of context.part.features) {
    const found = longIn(feature, material, context);
    if (found) yield found;
  }
}

const sample = (width: number) => `part: comb
material: steel-c45
body: { x: 60, y: 40, z: 30 }
features:
  gap: { kind: slot, face: top, ends: [{ x: 15, y: center }, { x: 45, y: center }], width: ${width}, depth: 20 }
`;

export const longCutter: Rule = defineRule({
  name: 'access/long-cutter',
  severity: 'warning',
  summary: 'An end mill has a free length of too many diameters.',
  why: 'A cutter bends with the cube of its free length. Past a few diameters no table of feeds is valid. It chatters and wanders, and a slender one breaks.',
  formula:
    'Free length over diameter, for every mill that roughs or finishes. It is free from its tip at the deepest up to the highest material within its shank’s radius. Its layers and its feed are reduced until it bends no more than allowed.',
  limits: [
    {
      name: 'heavy',
      value: 5,
      unit: 'ratio',
      what: 'Free length in diameters, in steel, stainless steel, cast iron and titanium.',
      source: 'common practice, no source: 3 is comfortable, 4 to 5 the most without special cutters',
    },
    {
      name: 'light',
      value: 8,
      unit: 'ratio',
      what: 'Free length in diameters, in aluminium, brass and plastics.',
      source: 'common practice, no source: 5 is comfortable, 8 the most with relieved necks',
    },
  ],
  bad: sample(3),
  good: sample(6),
  mends: 'Make the depth what the cutter reaches easily.',
  find: longOnes,
  tell({ feature, operation: { tool }, priced, freeMm, ratio, most }, { about }) {
    const m = priced?.milling;
    const slowed = m ? `; here it cuts ${about(m.apMm)} deep at ${trimmed(m.feedMmPerMin, 0)} mm/min` : '';
    return {
      message: `End mill ${tool.name} has ${about(freeMm)} of free length in ${feature.name}: ${figure(ratio, most)} times its diameter. Over ${most} times it breaks (rule of thumb)${slowed}. Make it ${about(most * tool.diameterMm)} deep, or wider for a thicker cutter.`,
      of: [feature.name],
      span: spanOf(feature, 'depth', 'width', 'shape'),
      facts: {
        tool: tool.name,
        free_mm: freeMm,
        diameter_mm: tool.diameterMm,
        ratio,
        most_ratio: most,
        easy_depth_mm: most * tool.diameterMm,
        deep_mm: m?.apMm,
        feed_mm_per_min: m?.feedMmPerMin,
        bends_mm: m?.deflectionMm,
      },
    };
  },
  keep: ({ feature, operation: { tool }, freeMm, most }) => ({
    of: feature.name,
    overMm: freeMm - most * tool.diameterMm,
  }),
  *mend({ of, overMm }, { part, length }) {
    const feature = part.featureByName.get(of);
    const depth = feature && 'depth' in feature ? feature.depth : undefined;
    if (!depth || !('length' in depth) || !depth.length) return;
    const mm = roundDown(depth.length.mm - overMm, part.units);
    if (mm > 0) yield change(`Make it ${length(mm)} deep`, setLength(depth.length, mm, part));
  },
});
