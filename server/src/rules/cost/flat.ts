/**
 * A blank cut flat from plate, and what a mill then has left: which features a flat cut makes, which of those it does not
 * make well enough, what milling takes with and without it, how long the cut is and what plate it takes. Not rules.
 */

import { lengthOf, pointAt } from '../../geometry/2d/edge';
import { regionEdges } from '../../geometry/2d/moments';
import { stockVolumeMm3 } from '../../geometry/stock-volume';
import type { Solid } from '../../geometry/types';
import { memo } from '../../memo';
import { type ByForm, isChannel, ofForm } from '../../model/feature-kinds';
import { materialOf } from '../../model/material-of';
import { type Axis, FACE_AXIS, type Feature, type Part } from '../../model/model';
import { valuesOf } from '../../model/values';
import { isWall } from '../../process/corners';
import { type Operation, operationsOf } from '../../process/operations';
import { machineFor } from '../../process/operations/machine';
import { priceOf } from '../../process/operations/priced';
import type { PartInShop } from '../../process/part-in-shop';
import { flatCutHoldsMm } from '../../tables/flat-cutting';
import { ROUNDING } from '../../tolerance';

export type Minutes = readonly [low: number, high: number];

export interface FlatBlank {
  readonly axis: Axis;
  readonly thicknessMm: number;
  /** Made by the flat cut, all of them. */
  readonly flat: readonly Feature[];
  /** Of those, what is finished afterwards, and why. */
  readonly finish: readonly { readonly feature: Feature; readonly why: string }[];
  /** What the flat cut does not make, broken edges among them. */
  readonly rest: readonly Feature[];
  /** Way of the flat cut, and how often it starts. */
  readonly cutMm: number;
  readonly starts: number;
}

/** Through features along the axis that has the most of them; undefined where none goes through, of a round body, or of a section: no plate has its hollow. */
export const flatBlankOf = memo((part: Part, solid: Solid): FlatBlank | undefined => {
  if (part.body?.form !== 'box' || part.stock.section || part.broken.size > 0) return undefined;
  const axes = [...new Set(part.features.map((f) => FACE_AXIS[f.face].axis))];
  const by = axes.map((axis) => ({ axis, flat: part.features.filter((f) => isFlat(f, axis)) }));
  const best = by.reduce<(typeof by)[0] | undefined>(
    (a, b) => (a && a.flat.length >= b.flat.length ? a : b),
    undefined,
  );
  if (!best || best.flat.length === 0) return undefined;
  const { axis, flat } = best;
  const thicknessMm = part.size['xyz'.indexOf(axis)]!;
  const finish = flat.flatMap((feature) => {
    const why = needsFinish(feature, thicknessMm);
    return why ? [{ feature, why }] : [];
  });
  return {
    axis,
    thicknessMm,
    flat,
    finish,
    rest: part.features.filter((f) => !flat.includes(f)),
    ...wayOf(flat, axis, part, solid),
  };
});

/** Straight through from one side: nothing of it has a floor, a seat or a lean. */
function isFlat(feature: Feature, axis: Axis): boolean {
  if (feature.tilt || feature.from || FACE_AXIS[feature.face].axis !== axis) return false;
  return ofForm(STRAIGHT_THROUGH, feature);
}

const STRAIGHT_THROUGH: ByForm<[], boolean> = {
  hole: ({ depth, counterbore, countersink }) => depth.through && !counterbore && !countersink,
  opening: ({ depth, islands, floorRadius }) => depth.through && islands.length === 0 && floorRadius.mm === 0,
  channel: ({ depth, tee, dovetail, counterbore, countersink }) =>
    depth.through && !tee && !dovetail && !counterbore && !countersink,
  outside: ({ depth }) => depth.through,
  shoulder: ({ depth }) => depth.through,
  edge: () => false,
  ring: () => false,
  letters: () => false,
  slope: () => false,
};

/** What a flat cut leaves undone: threads, fits, sizes closer than it holds, holes finer than the plate is thick. */
const needsFinish = memo((feature: Feature, thicknessMm: number): string | undefined => {
  if (feature.kind === 'hole') {
    if (feature.thread) return 'a thread';
    // Common practice, no source: jets and beams drift and taper in holes finer than the plate is thick.
    if (feature.diameter.mm < thicknessMm - ROUNDING) return 'finer than the plate is thick';
  }
  for (const { type, value } of valuesOf(feature)) {
    if (type !== 'length' || !value.tolerance || value.from) continue;
    const { fit, upperMm, lowerMm } = value.tolerance;
    if (fit) return `a fit, ${fit.letter}${fit.grade}`;
    const holds = flatCutHoldsMm(thicknessMm, value.mm);
    if (upperMm === undefined || lowerMm === undefined) continue;
    if (holds === undefined || upperMm - lowerMm < 2 * holds - ROUNDING)
      return 'a tolerance closer than a flat cut holds';
  }
  return feature.finish ? 'a surface that is asked for' : undefined;
});

/** Walls of what is cut out; without an outline of its own the body's. */
function wayOf(flat: readonly Feature[], axis: Axis, part: Part, solid: Solid) {
  let [cutMm, starts] = [0, 0];
  for (const f of flat)
    for (const v of solid.voidsOf(f.name)) {
      const edges = regionEdges(v.region);
      const walls = f.kind === 'hole' ? edges : edges.filter((e) => isWall(pointAt(e, 0.5), v, solid, f.face));
      cutMm += walls.reduce((sum, e) => sum + lengthOf(e), 0);
      if (f.kind === 'hole' || f.kind === 'pocket' || isChannel(f)) starts++;
    }
  if (!flat.some((f) => f.kind === 'contour')) {
    const [a, b] = part.size.filter((_, i) => 'xyz'[i] !== axis) as [number, number];
    cutMm += 2 * (a + b);
  }
  return { cutMm, starts: starts + 1 };
}

export interface Compared {
  /** Cutting minutes with everything milled, and with the blank cut flat. */
  readonly milled: Minutes;
  readonly flat: Minutes;
  readonly saved: Minutes;
}

/** Undefined where material or machine is not known, or some cut has no tool: then there is nothing to compare. */
export function compared(blank: FlatBlank, inShop: PartInShop): Compared | undefined {
  const { part, shop } = inShop;
  const material = materialOf(part);
  if (!material || shop.machines.length === 0) return undefined;
  const [milled, left]: [[number, number], [number, number]] = [
    [0, 0],
    [0, 0],
  ];
  for (const feature of part.features) {
    const machine = machineFor(part, shop, feature.name);
    if (!machine) return undefined;
    for (const o of operationsOf(feature, inShop)) {
      if (o.does === 'missing') return undefined;
      const { minutes } = priceOf(o, material, machine);
      if (!minutes.every(Number.isFinite)) return undefined;
      const stays = remains(o, feature, blank);
      for (const i of [0, 1] as const) {
        milled[i] += minutes[i];
        if (stays) left[i] += minutes[i];
      }
    }
  }
  return { milled, flat: left, saved: [milled[0] - left[0], milled[1] - left[1]] };
}

/** Holes to be finished are drilled as before; of an outline its finishing pass is left. */
function remains(o: Operation, feature: Feature, { flat, finish }: FlatBlank): boolean {
  if (!flat.includes(feature)) return true;
  if (!finish.some((f) => f.feature === feature)) return false;
  return feature.kind === 'hole' || o.does === 'finish' || o.does === 'rest';
}

/** Between pieces and round them on the plate. Common practice, no source: as much as the plate is thick, 5 mm at least. */
const WEB_MM = 5;

/** Plate for one piece, and the stock it is milled from otherwise, mm³. */
export function metalOf(
  { axis, thicknessMm }: FlatBlank,
  part: Part,
): { readonly plate: readonly [number, number]; readonly plateMm3: number; readonly stockMm3: number } {
  const web = Math.max(WEB_MM, thicknessMm);
  const [a, b] = part.size.filter((_, i) => 'xyz'[i] !== axis).map((mm) => mm + web) as [number, number];
  return { plate: [a, b], plateMm3: a * b * thicknessMm, stockMm3: stockVolumeMm3(part) };
}
