/**
 * A setup without a vise: the work lies on a plate or the table, screwed down through its own holes, under clamps, or left in
 * its stock by tabs. Tried in the same way as a vise: what the rules object to is left out until the rest holds.
 */

import { rectOf } from '../geometry/2d/inside';
import { keptLoops } from '../geometry/solid/voids/contours';
import { AXIS_INDEX, type AxisIndex } from '../geometry/vector';
import { FACE_AXIS, FACE_PLANE, type Face, type Hold, type Setup } from '../model/model';
import type { Finding } from '../rules/kit/rule';
import { type Judged, judgedBy, leaving } from './blame';
import { judgeLast } from './check-setup';
import { clampings } from './clamps';
import type { Item } from './item';
import { boxAt, inOrder, layDown, planSpan, rawFaces } from './make-setup';
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
    new Set(ask.candidates.filter((i) => i.face === pose.up).map((i) => i.index)),
    ask.done,
  );
  for (let round = 0; round < MOST_ROUNDS && cut.length > 0; round++) {
    if (!ask.enough(cut)) return { tried: 'too-little', refused };
    const lot = cut;
    const ordered = inOrder(lot, pose.up);
    let best: Judged | undefined;
    for (const hold of holdsFor(trial, ask, pose, lot)) {
      const setup: Setup = layDown(prefix, pose, hold, ordered, part, raw);
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

/** The ways to lay it down like that, the best first; none where it has no holes for screws, no room for clamps, no stock round it. */
function holdsFor(trial: Trial, ask: Ask<Made>, pose: LaidDown, lot: readonly Item[]): readonly Hold[] {
  const span = planSpan(ask.before.length);
  const on = lot.some((i) => goesThrough(i, pose)) ? 'plate' : 'table';
  switch (pose.by) {
    case 'screws':
      return screwings(trial, ask, pose, lot).map((screws) => ({
        type: 'screws',
        screws: screws.map((name) => ({ name, span })),
        on: 'plate',
        span,
      }));
    case 'clamps':
      return clampings(trial, ask, pose, lot).map((places) => ({
        type: 'clamps',
        clamps: places.map(({ u, v }) => ({ u, v, span })),
        on,
        span,
      }));
    case 'tabs': {
      const raw = rawFaces(trial.items, ask.done);
      if (!lot.some((i) => standsInStock(i, trial, raw))) return [];
      const length = (mm: number) => ({ mm, text: String(mm), span });
      const tabs = { count: TABS.count, width: length(TABS.widthMm), height: length(TABS.heightMm), span };
      return [{ type: 'tabs', tabs, on: 'plate', span }];
    }
  }
}

/** Comes out on the far side, and goes on into what is there. */
function goesThrough({ feature }: Item, { up }: LaidDown): boolean {
  if (!feature) return true;
  return 'depth' in feature && feature.depth?.through === true && FACE_AXIS[feature.face].axis === FACE_AXIS[up].axis;
}

/** Room for a cutter and a frame outside the outline, on every side. Common practice, no source. */
const FRAME_MM = 8;

/** An outline right through, with stock left all round it to stay in. */
function standsInStock({ feature }: Item, { part, solid }: Trial, raw: ReadonlySet<Face>): boolean {
  if (feature?.kind !== 'contour' || !feature.depth.through) return false;
  const { min, max } = boxAt(part, solid.body.box, raw);
  const [a, b] = FACE_PLANE[feature.face].map((name) => AXIS_INDEX[name]) as [AxisIndex, AxisIndex];
  const loops = keptLoops(feature).map((l) => rectOf(l.edges));
  return loops.every(
    ({ u0, u1, v0, v1 }) => Math.min(u0 - min[a], max[a] - u1, v0 - min[b], max[b] - v1) >= FRAME_MM - 1e-6,
  );
}
