/**
 * A setup without a vise: the work lies on a plate or the table, screwed down through its own holes, under clamps, or left in
 * its stock by tabs. Tried in the same way as a vise: what the rules object to is left out until the rest holds.
 */

import type { Vec3 } from '../geometry/types';
import { AXIS_INDEX } from '../geometry/vector';
import { FACE_AXIS, type Face, type Hold, type Setup } from '../model/model';
import type { Mill } from '../model/shop-model';
import { endMills, SAME_REACH_MM } from '../process/cutters';
import { operationsOf } from '../process/operations';
import { timelineOf } from '../process/stock';
import { frameShare, isThroughContour } from '../process/workholding/loose';
import { againstPlate } from '../process/workholding/plate-places';
import { deepestAtSides } from '../process/workholding/seats';
import { fitsIn, roundBarOf } from '../process/workholding/v-block';
import { cutFree } from '../rules/hold/cut-free';
import type { Finding } from '../rules/kit/rule';
import { limitOf } from '../rules/run';
import { SAME } from '../tolerance';
import { type Judged, judgedBy, leaving } from './blame';
import { judgeLast } from './check-setup';
import { clampings } from './clamps';
import { clocked } from './clock';
import type { Item } from './item';
import { boxAt, inOrder, layDown, planSpan, rawFaces } from './make-setup';
import { overBlocks } from './over-blocks';
import type { LaidDown } from './poses';
import { screwings } from './screws';
import type { Ask } from './search';
import { type Made, MOST_ROUNDS, madeOf, type Outcome, type Trial } from './trial';

/** Four of 5 mm, 1 mm high: what the rule on outlines that let go offers too. Common practice, no source. */
const TABS = { count: 4, widthMm: 5, heightMm: 1 } as const;

export function attemptLaidDown(trial: Trial, ask: Ask<Made>, pose: LaidDown): Outcome {
  const { part, solid, shop, items } = trial;
  const refused: { item: number; why: Finding }[] = [];
  const prefix = ask.before.map((m) => m.made.setup);
  const raw = rawFaces(items, ask.done);
  let unheld: Finding | undefined;
  // A face is milled off from above only where nothing lies on it.
  let cut = leaving(
    ask.candidates,
    new Set(ask.candidates.filter((i) => i.face === pose.up && pose.by !== 'angle-plate').map((i) => i.index)),
    ask.done,
  );
  for (let round = 0; round < MOST_ROUNDS && cut.length > 0; round++) {
    if (!ask.enough(cut)) return { tried: 'too-little', refused };
    const lot = cut;
    const ordered = inOrder(lot, pose.up);
    let best: Judged | undefined;
    for (const { hold, tools } of waysFor(trial, ask, pose, lot)) {
      const laid: Setup = {
        ...layDown({ before: prefix, cut: ordered, part, raw }, pose, hold),
        ...(tools && { tools }),
      };
      const setup = clocked(laid, prefix, trial);
      const judged = judgedBy(setup, judgeLast(part, shop, solid, trial.tree, [...prefix, setup]), lot);
      if (!best || judged.cost < best.cost) best = judged;
      if (best.cost < 1) break;
    }
    if (!best) break;
    if (best.blamed.size === 0 && best.against.length === 0)
      return { tried: { pose, cut, made: madeOf(best) }, refused };
    if (best.blamed.size === 0) {
      unheld = best.against[0];
      break;
    }
    for (const [item, why] of best.blamed) refused.push({ item: item.index, why });
    cut = leaving(cut, new Set([...best.blamed.keys()].map((i) => i.index)), ask.done);
  }
  return { tried: undefined, refused, ...(unheld && { unheld }) };
}

interface Way {
  readonly hold: Hold;
  readonly tools?: Setup['tools'];
}

/** The ways to lay it down like that, the best first; none where it has no holes for screws, no room for clamps, no stock round it. */
function waysFor(trial: Trial, ask: Ask<Made>, pose: LaidDown, lot: readonly Item[]): readonly Way[] {
  const span = planSpan(ask.before.length);
  const on = lot.some((i) => goesThrough(i, pose)) ? 'plate' : 'table';
  switch (pose.by) {
    case 'v-block':
      return inBlocks(trial, ask, pose, lot);
    case 'angle-plate':
      return atPlates(trial, ask, pose, lot);
    case 'screws':
      return screwings(trial, ask, pose, lot).map((screws) => ({
        hold: { type: 'screws', screws: screws.map((name) => ({ name, span })), on: 'plate', span },
      }));
    case 'clamps':
      return clampings(trial, ask, pose, lot).map((places) => ({
        hold: { type: 'clamps', clamps: places.map(({ u, v }) => ({ u, v, span })), on, span },
      }));
    case 'tabs': {
      const raw = rawFaces(trial.items, ask.done);
      const framed = lot.flatMap((i) => frameOf(i, trial, raw) ?? []);
      if (framed.length === 0) return [];
      const length = (mm: number) => ({ mm, text: String(mm), span });
      const tabs = { count: TABS.count, width: length(TABS.widthMm), height: length(TABS.heightMm), span };
      const tools = framed.flatMap(({ name, tool }) =>
        tool ? [{ of: { name, span }, tool: { name: tool, span } }] : [],
      );
      return [{ hold: { type: 'tabs', tabs, on: 'plate', span }, tools }];
    }
    default:
      return pose.by satisfies never;
  }
}

/** Lying in each V-block of the shop that takes it. */
function inBlocks(
  { part, solid, shop, items }: Trial,
  { before, done }: Ask<Made>,
  { up }: LaidDown,
  lot: readonly Item[],
): readonly Way[] {
  const span = planSpan(before.length);
  const bar = roundBarOf(timelineOf(part, solid).stock.body);
  if (!bar) return [];
  const box = boxAt(solid.body.box, rawFaces(items, done));
  const { axis } = bar;
  const cut = lot.flatMap(({ feature, face }): [number, number][] => {
    if (feature) return solid.voidsOf(feature.name).map((v) => [v.bounds.min[axis], v.bounds.max[axis]]);
    if (!face || AXIS_INDEX[FACE_AXIS[face].axis] !== axis) return [];
    const { min, max } = solid.body.box;
    return [FACE_AXIS[face].sign > 0 ? [max[axis], box.max[axis]] : [box.min[axis], min[axis]]];
  });
  return shop.vBlocks
    .filter((v) => fitsIn(v, 2 * bar.radiusMm))
    .flatMap((v) =>
      overBlocks(bar, v, box, up, cut).map((places) => ({
        hold: {
          type: 'v-block' as const,
          vBlock: { name: v.name, span },
          clamps: places.map((p) => ({ ...p, span })),
          on: 'table' as const,
          span,
        },
      })),
    );
}

/** How far work stands out above a plate beyond what is cut at its sides. Common practice, no source. */
const OUT_MM = 10;
const GRID_MM = 5;

/** Standing against each angle plate of the shop. */
function atPlates(
  { solid, shop, items }: Trial,
  { before, done }: Ask<Made>,
  { up }: LaidDown,
  lot: readonly Item[],
): readonly Way[] {
  const span = planSpan(before.length);
  const box = boxAt(solid.body.box, rawFaces(items, done));
  // Out as far as it is cut at its sides, and a little.
  const outMm = Math.ceil((deepestAtSides(lot, up, solid) + OUT_MM) / GRID_MM) * GRID_MM;
  return shop.anglePlates.flatMap((p) =>
    againstPlate(p, box, up, outMm).map(({ against, clamps, outMm: out }) => ({
      hold: {
        type: 'angle-plate' as const,
        anglePlate: { name: p.name, span },
        against: { name: against, span },
        clamps: clamps.map((c) => ({ ...c, span })),
        ...(out !== undefined && { out: { mm: out, text: String(out), span } }),
        span,
      },
    })),
  );
}

/** Comes out on the far side, and goes on into what is there. */
function goesThrough({ feature }: Item, { up }: LaidDown): boolean {
  if (!feature) return true;
  return 'depth' in feature && feature.depth?.through === true && FACE_AXIS[feature.face].axis === FACE_AXIS[up].axis;
}

/** An outline right through that stock stands all round, a frame beyond a cutter that gets down there; and that cutter. */
function frameOf({ feature }: Item, trial: Trial, raw: ReadonlyMap<Face, number>): Framed | undefined {
  const { part, solid, shop } = trial;
  if (!isThroughContour(feature)) return undefined;
  const { min, max } = boxAt(solid.body.box, raw);
  const deepMm = part.size[AXIS_INDEX[FACE_AXIS[feature.face].axis]];
  const isStock = (p: Vec3) => p.every((mm, i) => mm >= min[i]! - SAME && mm <= max[i]! + SAME);
  const frameMm = limitOf(cutFree, 'frame', shop, part);
  const leaves = (m: Mill) => frameShare(feature, part, m.diameterMm + frameMm, isStock) > 1 - SAME;
  const mill = operationsOf(feature, trial).find((o) => o.does === 'finish')?.tool;
  if (mill?.kind === 'end-mill' && leaves(mill)) return { name: feature.name };
  const slim = endMills(shop).find((m) => m.reachMm >= deepMm - SAME_REACH_MM && leaves(m));
  return slim && { name: feature.name, tool: slim.name };
}

interface Framed {
  readonly name: string;
  /** Written where another would be taken, too wide to leave a frame. */
  readonly tool?: string;
}
