/** access/long-cutter – a mill hangs down too many of its own diameters. */

import type { Feature } from '../../model/model';
import { outlineReach } from '../../process/choice';
import { shankRadius } from '../../process/cutters';
import { operationsOf } from '../../process/operations';
import { machineFor } from '../../process/operations/machine';
import { priceOf } from '../../process/operations/priced';
import { milledSeen } from '../../process/operations/seen';
import type { Operation, Priced } from '../../process/operations/types';
import { cuttingOf } from '../../tables/cutting';
import { findMaterial, type Material } from '../../tables/materials';
import { SAME } from '../../tolerance';
import { change } from '../kit/changes';
import { defineRule } from '../kit/define';
import { setLength } from '../kit/edits';
import { roundDown, spanOf, trimmed } from '../kit/message';
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
  for (const operation of operationsOf(feature, part, solid, shop)) {
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
  const material = context.part.material && findMaterial(context.part.material.name);
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
  summary: 'A mill hangs down too many of its own diameters.',
  why: 'A cutter bends with the cube of its free length. Past a few diameters no table of feeds holds any more: it chatters, wanders, and a slender one breaks.',
  formula:
    'Free length over diameter, for every mill that roughs or finishes: `free_mm` from its tip at the deepest to the highest material within its shank’s radius. Speeds told elsewhere are those of this cutter: its layer (`deep_mm`) and feed come down until it bends (`bends_mm`) no more than it may.',
  limits: [
    {
      name: 'heavy',
      value: 5,
      unit: 'ratio',
      what: 'free length in diameters, in steel, stainless steel, cast iron, titanium',
      source: 'common practice, no source: 3 is comfortable, 4 to 5 the most without special cutters',
    },
    {
      name: 'light',
      value: 8,
      unit: 'ratio',
      what: 'free length in diameters, in aluminium, brass, plastics',
      source: 'common practice, no source: 5 is comfortable, 8 the most with relieved necks',
    },
  ],
  bad: sample(3),
  good: sample(6),
  mends: 'Less depth, as deep as the cutter goes with ease.',
  find: longOnes,
  tell({ feature, operation: { tool }, priced, freeMm, ratio, most }, { length }) {
    const m = priced?.milling;
    const slowed = m
      ? ` It is taken ${length(Number(m.apMm.toFixed(2)))} at a time at ${trimmed(m.feedMmPerMin, 0)} mm/min.`
      : '';
    return {
      message: `${tool.name} hangs ${length(freeMm)} free, ${trimmed(ratio, 1)} of its diameters; by the rule of thumb ${most} is the most here: it sings, bends and breaks.${slowed} Depth of ${length(most * tool.diameterMm)}, or room for a thicker cutter, would do.`,
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
