/** Milled features in their set-up: from above, or with the side of a mill from where they are open. */

import { inward } from '../../geometry/frame';
import type { Vec3 } from '../../geometry/types';
import type { Feature } from '../../model/model';
import type { Mill } from '../../model/shop-model';
import { atDepth, depthBelow } from '../column';
import { standsInCorner } from '../corners';
import { SAME_MM } from '../cutters';
import { lowestDepth } from '../lowest';
import { milledVoids } from '../milling';
import { milledInCut } from '../milling-in-setup';
import { operationsOf } from '../operations';
import { dot } from '../section';
import { gapOf, milledOf, millsFor } from './candidates';
import type { Case } from './case';
import { alongSpindle, roundMm, standsIn } from './cutter-locations';
import { sweptOver } from './swept';
import { type Task, type Tried, troubleOf, tryTools } from './try-tools';
import type { ToolUse, Verdict } from './verdict';

export function milled(c: Case, feature: Feature): Verdict {
  const { cut, up, part, solid, shop, asked } = c;
  const none: Verdict = { cut, up, uses: [], asked: asked !== undefined };
  const voids = milledOf(cut);
  if (voids.length === 0) return none;
  const sideways = voids.some((v) => Math.abs(dot(v.frame.w, inward(up))) < 0.5);
  const of = millsFor(feature, { part, solid, shop }, sideways);
  const mills = asked?.kind === 'end-mill' && !asked.roughing ? [asked] : of.all;
  if (mills.length === 0) return none;
  const task = taskOf(
    c,
    voids.map((v) => alongSpindle(v, up)),
  );
  const tried = tryTools(mills, task, shop);
  if (tried.use) {
    // Walls that lean are another cutter's, which stands where the upright one did.
    const planned = operationsOf(feature, { part, solid, shop }).find(
      (o) => o.does === 'finish' && o.tool.taperDeg !== undefined,
    );
    const tapered = planned?.does === 'finish' ? [planned.tool] : [];
    const leaning = tapered.length > 0 ? tryTools(tapered, task, shop) : undefined;
    if (leaning && !leaning.use)
      return {
        ...none,
        uses: [tried.use],
        ...troubleOf(leaning, tapered, 'tapered end mill', task.tipMm - task.topMm),
      };
    return { ...none, uses: [tried.use, ...(leaning?.use ? [leaning.use] : [])] };
  }
  const inCorners = asked || !of.round ? undefined : roundAndInto(c, feature, of.round, mills, task);
  if (inCorners?.uses) return { ...none, uses: inCorners.uses };
  const trouble = troubleOf(inCorners ?? tried, mills, 'end mill', task.tipMm - task.topMm);
  const { widestMm } = gapOf(milledVoids(feature, part, solid));
  if (!trouble?.short || sideways) return { ...none, ...trouble };
  const { cornerMm } = of;
  if (inCorners) return { ...none, short: { ...trouble.short, cornerMm, gapMm: Math.min(widestMm, 2 * cornerMm) } };
  if (!Number.isFinite(widestMm)) return { ...none, ...trouble };
  return { ...none, short: { ...trouble.short, gapMm: widestMm } };
}

/**
 * Where no cutter that its corners let in gets all round, a larger one does, and a thin one goes into the corners only.
 * Undefined where no larger one gets round either: then it is not the corners that ask.
 */
function roundAndInto(
  c: Case,
  feature: Feature,
  round: readonly Mill[],
  thin: readonly Mill[],
  task: Task,
): (Tried & { readonly uses?: readonly ToolUse[] }) | undefined {
  const along = tryTools(round, task, c.shop).use;
  if (!along) return undefined;
  const corners = milledInCut(c.cut, c.up, feature, c.part, c.solid).flatMap((m) =>
    m.milled.corners.map((corner) => ({ corner, frame: m.milled.of.frame })),
  );
  const stands = (radiusMm: number) =>
    corners.flatMap(({ corner, frame }) => {
      if (corner.radiusMm < radiusMm - SAME_MM) return [];
      return standsInCorner(corner, frame, radiusMm).map((p) => atDepth(c.cut.before, c.up, p, corner.floorMm));
    });
  const into = tryTools(thin, { ...task, stands }, c.shop);
  return into.use ? { ...into, uses: [along, into.use] } : into;
}

type Volumes = ReturnType<typeof milledOf>;

/** Depths from the stock's plane. */
function taskOf(c: Case, voids: Volumes): Task {
  const { up, obstacles, topMm } = c;
  const { before } = c.cut;
  const deep = (p: Vec3) => depthBelow(before, up, p);
  const tipMm = Math.max(...voids.map((v) => lowestDepth(v, before, c.cut.removes, up)));
  const known = new Map<number, readonly Vec3[]>();
  const down = inward(up);
  const lifted = (p: Vec3): Vec3 => {
    const by = Math.min(0, tipMm - deep(p));
    return [p[0] + down[0] * by, p[1] + down[1] * by, p[2] + down[2] * by];
  };
  return {
    up,
    get place() {
      return c.place;
    },
    body: before.body,
    obstacles,
    topMm,
    tipMm,
    does: 'mill',
    leastReachMm: 0,
    sweeps(near, marginMm) {
      const floors = voids.map((v) => lowestDepth(v, before, c.cut.removes, up));
      return sweptOver(c.placesWithin(marginMm), up, floors, near, marginMm);
    },
    stands(radiusMm) {
      let made = known.get(radiusMm);
      if (!made) {
        const { place, was } = c.placesWithin(roundMm(radiusMm));
        made = voids.flatMap((v) => standsIn(v, place, up, radiusMm, { was })).map(lifted);
        known.set(radiusMm, made);
      }
      return made;
    },
  };
}
