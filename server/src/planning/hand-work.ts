/** What a piece takes beside the machine: the saw cut, the sharp edges broken by hand, the toleranced sizes measured. */

import { lengthOf, pointAt } from '../geometry/2d/edge';
import { regionEdges } from '../geometry/2d/moments';
import type { Solid, Void } from '../geometry/types';
import { memo } from '../memo';
import { breaksEdges } from '../model/feature-kinds';
import type { Face, Feature, Part } from '../model/model';
import { valuesOf } from '../model/values';
import { benchWork } from '../process/benches';
import { type Boss, threadedBosses } from '../process/boss-threads';
import { edgesByHand } from '../process/by-hand';
import { beside } from '../process/column';
import { isWall } from '../process/corners';
import { operationsOf } from '../process/operations';
import { comesCut } from '../process/stock/brought';
import { ENDS } from '../process/supplied';
import type { ReadPart } from '../rules/judging';
import { ROUNDING } from '../tolerance';
import { add, type Range, scaled } from './ranges';

export interface HandWork {
  readonly sawCuts: number;
  /** Sharp edges that no cutter breaks: of the body and round each opening, about. */
  readonly edgeMm: number;
  /** Toleranced sizes and geometric tolerances, each once on each member of a pattern. */
  readonly sizes: number;
  readonly sawing: Range;
  readonly deburring: Range;
  readonly measuring: Range;
  /** Threads on bosses, cut with a die. */
  readonly threading: Range;
  /** Holes made on a drill press or at the bench. */
  readonly benching: Range;
  /** All of it, for each piece. */
  readonly each: Range;
}

export function handWork(checked: ReadPart): HandWork {
  const { part, shop } = checked;
  // A block is bought as it is, and a blank or casting has its shape; bars and plates are sawn.
  const sawCuts = ['block', 'blank', 'casting'].includes(part.stock.form) ? 0 : 1;
  const edgeMm = sharpEdgeMm(checked);
  const sizes =
    part.tolerances.length + part.features.reduce((n, f) => n + (comesCut(f, part, checked.solid) ? 0 : sizesOf(f)), 0);
  const sawing = scaled(shop.times.saw, sawCuts);
  const deburring = scaled(shop.times.deburr, edgeMm / 1000);
  const measuring = scaled(shop.times.measure, sizes);
  const threading = add(...[...threadedBosses(part.features)].map((boss) => threadedIn(boss, checked)));
  const benching = add(...benchWork(checked).map((b) => b.minutes));
  const each = add(sawing, deburring, measuring, threading, benching);
  return { sawCuts, edgeMm, sizes, sawing, deburring, measuring, threading, benching, each };
}

/** A die is started and turned as a tap is. */
function threadedIn(boss: Boss, checked: ReadPart): Range {
  const { tap, 'tap-turn': turn } = checked.shop.times;
  if (operationsOf(boss, checked).some((o) => o.does === 'thread')) return [0, 0];
  const { deep, spec } = boss.thread;
  return scaled(add(tap, scaled(turn, deep.mm / spec.pitchMm)), boss.places.length);
}

/** Edges of the body and where each cut comes out of it, less those that a chamfer or round breaks. */
function sharpEdgeMm(read: ReadPart): number {
  const { part, solid } = read;
  let mm = bodyEdgesMm(part);
  const byHand = edgesByHand(read);
  for (const feature of part.features) {
    if (comesCut(feature, part, solid)) continue;
    if (breaksEdges(feature)) {
      mm += byHand.find((e) => e.feature === feature)?.wayMm ?? 0;
      for (const o of operationsOf(feature, read)) if ('wayMm' in o) mm -= o.wayMm;
      continue;
    }
    const through = 'depth' in feature && feature.depth?.through === true ? 2 : 1;
    for (const v of solid.voidsOf(feature.name)) mm += through * rimMm(v, feature, solid);
  }
  return Math.max(0, mm);
}

/** Of a blank only those of faces that something is cut from. */
function bodyEdgesMm({ body, size, stock }: Part): number {
  const over = (f: Face) => (stock.extra[f]?.mm ?? 0) > ROUNDING;
  const [x, y, z] = [ENDS.x, ENDS.y, ENDS.z];
  const along = (mm: number, a: readonly Face[], b: readonly Face[]) =>
    mm * a.reduce((n, f) => n + b.filter((g) => over(f) || over(g)).length, 0);
  if (stock.blank && body?.form !== 'round') return along(size[0], y, z) + along(size[1], x, z) + along(size[2], x, y);
  if (body?.form === 'round') return 2 * Math.PI * body.diameter.mm;
  return 4 * (size[0] + size[1] + size[2]);
}

/** Of the outline what stands as a wall. */
const rimMm = memo(
  (v: Void, feature: Feature, solid: Solid) =>
    regionEdges(v.region)
      .filter((e) => feature.kind === 'hole' || isWall(pointAt(e, 0.5), v, solid, feature.face))
      .reduce((sum, e) => sum + lengthOf(e), 0),
  { by: (v, feature, solid) => [feature, solid.body, beside(v, solid)] },
);

const sizesOf = memo((feature: Feature) => {
  const spans = new Set<string>();
  for (const { value } of valuesOf(feature))
    if ('tolerance' in value && value.tolerance && !value.from) spans.add(JSON.stringify(value.span));
  return spans.size * Math.max(1, feature.places.length);
});
