/** Which ISO 286 grade each way of cutting holds: settings of `tol/process`. Operations are chosen, and sizes judged, by the same. */

import type { Shop, Tool } from '../model/shop-model';
import { formOfTool } from '../model/tool-kinds';
import type { ToolForm } from '../model/tool-kinds/kind';
import type { Material } from '../tables/materials';

const TABLE = 'the table of processes (after ANSI B4.2, from memory)';

export const GRADES = [
  {
    name: 'drilling',
    value: 12,
    unit: 'count',
    what: 'ISO 286 grade that a twist drill holds',
    source: `${TABLE}: IT10 to IT13; 12 without a guide bush is common practice`,
  },
  {
    name: 'milling',
    value: 9,
    unit: 'count',
    what: 'ISO 286 grade that an end mill holds',
    source: `${TABLE}: IT10 to IT13, fine milling IT7 to IT9`,
  },
  {
    name: 'boring',
    value: 7,
    unit: 'count',
    what: 'ISO 286 grade that a boring head holds, measured between cuts',
    source: `common practice: seats to H7 are bored; ${TABLE} has IT8 as the usual finest`,
  },
  {
    name: 'reaming',
    value: 7,
    unit: 'count',
    what: 'ISO 286 grade that a reamer holds which is bought for the hole, or whose class is not known',
    source: `${TABLE}: IT6 to IT10; reamers are stocked to H7`,
  },
  {
    name: 'sawing',
    value: 11,
    unit: 'count',
    what: 'ISO 286 grade that a slitting saw holds on the width of its slit: it wobbles on its arbor',
    source: 'common practice, no source: a slit of 1 to 3 mm is up to 0.06 mm wider than the saw (IT11)',
  },
  {
    name: 'care',
    value: 2,
    unit: 'count',
    what: 'Grades finer than that which care may still reach: a warning only, an error beyond',
    source: 'common practice, no source: drills reach IT10, fine milling IT7 in the same table',
  },
  {
    name: 'plastic',
    value: 9,
    unit: 'count',
    what: 'ISO 286 grade that a stiff plastic holds whatever cuts it: it springs back, and grows with heat',
    source:
      'a Swiss works recommendation for cut plastics (SN 56570, public page): no IT6, 7 or 8. Plastics expand 8 to 10 times as metal does',
  },
  {
    name: 'soft-plastic',
    value: 11,
    unit: 'count',
    what: 'The same of a soft plastic, or one that swells with moisture: polyamide, polyethylene, PTFE',
    source:
      'the same page has them as a class of their own, with wider grades; two grades wider: common practice, no source',
  },
] as const;

type Process = 'drilling' | 'milling' | 'boring' | 'reaming' | 'sawing';

/** Of what gives a size; what is as wide as it was ground to, and passes once, is as good as a mill. */
const HOLDS_AS: Readonly<Record<ToolForm, Process>> = {
  mill: 'milling',
  face: 'milling',
  corner: 'milling',
  letters: 'milling',
  head: 'milling',
  saw: 'sawing',
  drill: 'drilling',
  spot: 'drilling',
  reamer: 'reaming',
  bore: 'boring',
  tap: 'milling',
  thread: 'milling',
  cone: 'milling',
  seat: 'milling',
};

/** How a tool of this kind gives a size. */
export function processOf(tool: Tool): Process {
  return HOLDS_AS[formOfTool(tool)];
}

/** The grade that a tool of this kind holds. */
export function gradeHeldBy(tool: Tool, shop: Shop): number {
  return gradeHeld(shop, processOf(tool));
}

const byName = new Map<string, number>(GRADES.map((l) => [l.name, l.value]));

/** A setting of `tol/process`, or its default. */
export function gradeHeld(shop: Shop, name: Process | 'care' | 'plastic' | 'soft-plastic'): number {
  return shop.limits.get('tol/process')?.get(name) ?? byName.get(name)!;
}

/** Class B of the page that `soft-plastic` is from: soft ones, and polyamides. */
const SOFT: ReadonlySet<string> = new Set(['pe-hd', 'pa-6', 'ptfe']);

/** No process holds a finer grade in this material; undefined where the process alone counts. */
export function gradeOfMaterial(material: Material | undefined, shop: Shop): number | undefined {
  if (material?.class !== 'plastic') return undefined;
  return gradeHeld(shop, SOFT.has(material.name) ? 'soft-plastic' : 'plastic');
}
