/** corner/floor-radius – the fillet between wall and floor needs a cutter with that corner. */

import type { Feature } from '../../model/model';
import type { Mill } from '../../model/shop-model';
import { reachingAlong } from '../../process/choice';
import { endMills, SAME_MM } from '../../process/cutters';
import { type MilledVoid, milledVoids } from '../../process/milling';
import { removeField, setField, subjectOf } from '../kit/fields';
import { fact, list, spanOf } from '../kit/message';
import type { Finding, Fix, Rule, RuleContext } from '../kit/rule';

const NAME = 'corner/floor-radius';
/** A cutter's corner as ground and worn; common practice. */
const SAME_CORNER_MM = 0.05;

interface Filleted {
  readonly feature: Feature;
  readonly milled: MilledVoid;
  readonly floorMm: number;
  readonly cornerMm: number;
  /** Cutters that pass and reach, with the corner they leave. */
  readonly mills: readonly Mill[];
}

function* filleted({ part, solid, shop }: RuleContext): Generator<Filleted> {
  for (const feature of part.features) {
    if (!('floorRadius' in feature) || feature.floorRadius.mm <= 0) continue;
    const milled = milledVoids(feature, part, solid).find((m) => Number.isFinite(m.floorRadiusMm));
    if (!milled) continue;
    const cornerMm = Math.min(...milled.corners.map((c) => c.radiusMm).filter((r) => r > 0));
    const most = Math.min(2 * cornerMm, milled.widestMm) + SAME_MM;
    const fits = endMills(shop).filter((m) => m.diameterMm <= most && m.cornerRadiusMm > 0);
    const mills = reachingAlong(milled, fits, solid);
    yield { feature, milled, floorMm: feature.floorRadius.mm, cornerMm, mills };
  }
}

function findingOf({ feature, floorMm, cornerMm, mills }: Filleted, context: RuleContext): Finding | undefined {
  const { length } = context;
  const exact = mills.some((m) => Math.abs(m.cornerRadiusMm - floorMm) <= SAME_CORNER_MM);
  if (exact) return undefined;
  const smaller = mills.filter((m) => m.cornerRadiusMm < floorMm);
  const had = [...new Set(mills.map((m) => m.cornerRadiusMm))].sort((a, b) => a - b).slice(0, 6);
  const tooBig = floorMm > cornerMm + SAME_MM;
  const pass = smaller[0];
  const why = tooBig
    ? `A floor radius of ${length(floorMm)} is above the corners' own ${length(cornerMm)}: no one cutter makes both`
    : `No cutter on hand that fits and reaches has a corner of ${length(floorMm)}`;
  const what = pass
    ? `${pass.name} (corner ${length(pass.cornerRadiusMm)}) can go round in scallop passes, which take long; ${length(nearest(had, floorMm)!)} would be one pass`
    : had.length > 0
      ? `there ${had.length === 1 ? 'is' : 'are'} ${list(had.map(length))}`
      : 'a floor without a radius would do';
  return {
    rule: NAME,
    severity: pass || (context.shop.builtIn && !tooBig) ? 'warning' : 'error',
    message: `${why}; ${what}${context.shop.builtIn && !tooBig && !pass ? ' (built-in shop)' : ''}.`,
    of: [feature.name],
    span: 'floorRadius' in feature ? feature.floorRadius.span : spanOf(feature, 'depth'),
    related: [],
    facts: {
      floor_radius_mm: fact(floorMm),
      ...(Number.isFinite(cornerMm) && { corner_radius_mm: fact(cornerMm) }),
      ...(pass && { tool: pass.name, tool_corner_mm: fact(pass.cornerRadiusMm) }),
      ...Object.fromEntries(had.map((mm, i) => [`on_hand_${i + 1}_mm`, fact(mm)])),
    },
  };
}

function nearest(sizes: readonly number[], mm: number): number | undefined {
  return [...sizes].sort((a, b) => Math.abs(a - mm) - Math.abs(b - mm))[0];
}

export const floorRadius: Rule = {
  name: NAME,
  severity: 'error',
  summary: 'The radius between wall and floor is not that of any cutter on hand.',
  why: 'The fillet at the foot of a wall is made by the corner of a bull-nose or ball cutter, in one pass when it is that cutter’s own, else in many fine steps with a smaller one. A fillet larger than the corners’ own radius is beyond any single cutter.',
  formula:
    'Of the end mills that fit `corner_radius_mm` and the narrowest place and reach the floor, one must have a corner of `floor_radius_mm`; one with a smaller corner can step it off (warning). A warning, too, where only the built-in shop is known.',
  limits: [],
  bad: `part: dish
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  dish:
    kind: pocket
    face: top
    at: { x: center, y: center }
    size: { x: 40, y: 24 }
    corner-radius: 5.5
    floor-radius: 0.3
    depth: 8
`,
  good: `part: dish
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  dish:
    kind: pocket
    face: top
    at: { x: center, y: center }
    size: { x: 40, y: 24 }
    corner-radius: 5.5
    depth: 8
`,
  mends: 'The floor radius of a cutter on hand; or none.',
  *find(context) {
    for (const found of filleted(context)) {
      const finding = findingOf(found, context);
      if (finding) yield finding;
    }
  },
  *mend(finding, context): Generator<Fix> {
    const found = [...filleted(context)].find((f) => f.feature === subjectOf(finding, context.part));
    if (!found) return;
    const sizes = [...new Set(found.mills.map((m) => m.cornerRadiusMm))];
    for (const mm of sizes.sort((a, b) => Math.abs(a - found.floorMm) - Math.abs(b - found.floorMm)).slice(0, 2)) {
      const edits = setField(context.tree, found.feature.name, 'floor-radius', context.write(mm));
      if (edits) yield { title: `Make the floor radius ${context.length(mm)}, as a cutter has it`, safe: false, edits };
    }
    const edits = removeField(context.tree, found.feature.name, 'floor-radius');
    if (edits) yield { title: 'Leave the floor sharp, for a square end mill', safe: false, edits };
  },
};
