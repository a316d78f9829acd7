/** corner/floor-radius – the fillet between wall and floor needs a cutter with that corner. */

import type { Feature } from '../../model/model';
import type { Mill } from '../../model/shop-model';
import { reachingAlong } from '../../process/choice';
import { endMills, SAME_MM } from '../../process/cutters';
import { milledInSetup } from '../../process/milling-in-setup';
import { change, edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { removeField, setField } from '../kit/fields';
import { lengths, spanOf, subjectOf } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';

const BAD = `part: dish
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
`;
/** A cutter's corner as ground and worn; common practice. */
const SAME_CORNER_MM = 0.05;

interface Filleted {
  readonly feature: Feature;
  readonly floorMm: number;
  readonly cornerMm: number;
  /** Cutters that pass and reach, with the corner they leave. */
  readonly mills: readonly Mill[];
}

function* filleted({ part, solid, shop }: RuleContext): Generator<Filleted> {
  for (const feature of part.features) {
    if (!('floorRadius' in feature) || feature.floorRadius.mm <= 0) continue;
    const then = milledInSetup(feature, part, solid).filter((m) => Number.isFinite(m.milled.floorRadiusMm));
    // Where two set-ups cut it, the one that goes deeper makes its floor.
    const deepest = then.reduce((a, b) => (b.milled.tipMm > a.milled.tipMm ? b : a), then[0]!);
    if (!deepest) continue;
    const { milled, place } = deepest;
    const cornerMm = Math.min(...milled.corners.map((c) => c.radiusMm).filter((r) => r > 0));
    const most = Math.min(2 * cornerMm, milled.widestMm) + SAME_MM;
    const fits = endMills(shop).filter((m) => m.diameterMm <= most && m.cornerRadiusMm > 0);
    const mills = reachingAlong(milled, fits, place);
    const floorMm = feature.floorRadius.mm;
    if (mills.some((m) => Math.abs(m.cornerRadiusMm - floorMm) <= SAME_CORNER_MM)) continue;
    yield { feature, floorMm, cornerMm, mills };
  }
}

function tell({ feature, floorMm, cornerMm, mills }: Filleted, context: RuleContext): Told {
  const { length, part, about } = context;
  const smaller = mills.filter((m) => m.cornerRadiusMm < floorMm);
  const had = [...new Set(mills.map((m) => m.cornerRadiusMm))].sort((a, b) => a - b).slice(0, 6);
  const tooBig = floorMm > cornerMm + SAME_MM;
  const pass = smaller[0];
  const why = tooBig
    ? `${subjectOf(part, feature.name)} has a floor radius of ${length(floorMm)}, above its corner radius of ${about(cornerMm)}. No cutter makes both.`
    : `${subjectOf(part, feature.name)} has a floor radius of ${length(floorMm)}. No cutter in the ${context.shop.builtIn ? 'built-in ' : ''}shop with this radius fits and reaches.`;
  const what = pass
    ? ` ${pass.name} (${length(pass.cornerRadiusMm)}) can make it in many slow passes. Use ${length(nearest(had, floorMm)!)} for one pass.`
    : had.length > 0
      ? ` Use ${lengths(had, length, 'or')}.`
      : ' Make the floor without a radius.';
  return {
    severity: pass || (context.shop.builtIn && !tooBig) ? 'warning' : 'error',
    message: `${why}${what}`,
    has: length(floorMm),
    needs: had.length > 0 ? lengths(had, length, 'or') : undefined,
    of: [feature.name],
    span: 'floorRadius' in feature ? feature.floorRadius.span : spanOf(feature, 'depth'),
    facts: {
      floor_radius_mm: floorMm,
      corner_radius_mm: Number.isFinite(cornerMm) ? cornerMm : undefined,
      tool: pass?.name,
      tool_corner_mm: pass?.cornerRadiusMm,
      ...Object.fromEntries(had.map((mm, i) => [`on_hand_${i + 1}_mm`, mm])),
    },
  };
}

function nearest(sizes: readonly number[], mm: number): number | undefined {
  return [...sizes].sort((a, b) => Math.abs(a - mm) - Math.abs(b - mm))[0];
}

export const floorRadius: Rule = defineRule({
  name: 'corner/floor-radius',
  severity: 'error',
  summary: 'No cutter in the shop has the radius between wall and floor.',
  why: 'The fillet at the foot of a wall is cut by the corner of a bull-nose or ball cutter. With the cutter’s own radius it is one pass. A smaller radius needs many fine steps. No cutter makes a fillet larger than the radius of the corners.',
  formula:
    'An end mill must have the floor radius, fit the corner radius and the narrowest place, and reach the floor. One with a smaller radius can step it (warning). It is also a warning where only the built-in shop is known.',
  bounds: 'The corner radii, diameters and reaches of the end mills in the shop file.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['    floor-radius: 0.3\n', '']),
  mends: 'Use the floor radius of a cutter in the shop, or none.',
  find: filleted,
  tell,
  keep({ feature, floorMm, mills }) {
    const off = (mm: number) => Math.abs(mm - floorMm);
    const sizes = [...new Set(mills.map((m) => m.cornerRadiusMm))].sort((a, b) => off(a) - off(b));
    return { of: feature.name, sizes: sizes.slice(0, 2) };
  },
  *mend({ of, sizes }, { tree, length, write }) {
    for (const mm of sizes) {
      const edits = setField(tree, of, 'floor-radius', write(mm));
      yield change(`Make the floor radius ${length(mm)}, for a cutter in the shop`, edits);
    }
    yield change('Make the floor sharp, for a square end mill', removeField(tree, of, 'floor-radius'));
  },
});
