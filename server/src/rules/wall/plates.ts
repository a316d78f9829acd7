/** A wall or floor as the plate it is when it is cut last: its sides, and which of its edges are held. */
import type { BodyShape, Box, Void, Wall } from '../../geometry/types';
import { boxesNear } from '../../geometry/vector';
import { type Rim, rimsOf } from '../../geometry/walls/rims';
import { Around, memo } from '../../memo';
import type { Plate } from '../../process/cutting/plates';
import { cutsOf, timelineOf, type Workpiece } from '../../process/stock';
import { isMaterial } from '../../process/stock/in-process-stock';
import type { RuleContext } from '../kit/rule';
import { sidesOf } from './walls';

/** Undefined where there is no material in its middle. */
export function plateOf(wall: Wall, context: Pick<RuleContext, 'part' | 'solid'>): Plate | undefined {
  const { body, voids } = workOf(wall, context);
  return plateIn(wall, body, new Around((mm) => voids.filter((v) => boxesNear(v.bounds, boxOf(wall), mm))));
}

/** So far from the wall, in thicknesses, is looked at first; then twice as far, and so on. */
const FIRST_LOOK = 4;

/** Followed anew only where something changed as near to it as it was followed. */
const plateIn = memo((wall: Wall, body: BodyShape, around: Around<Void>): Plate | undefined => {
  const box = boxOf(wall);
  let mm = FIRST_LOOK * wall.thicknessMm;
  let work: Workpiece = { body, voids: around.within(mm) };
  const rims = rimsOf(wall, (p) => {
    const far = Math.max(...p.map((x, i) => Math.max(box.min[i]! - x, x - box.max[i]!)));
    if (far > mm) {
      while (far > mm) mm *= 2;
      work = { body, voids: around.within(mm) };
    }
    return isMaterial(work, p);
  });
  if (!rims) return undefined;
  const side = ([low, high]: readonly [Rim, Rim]) => low.mm + high.mm;
  const held = ([low, high]: readonly [Rim, Rim]) => [low.held, high.held] as const;
  return {
    thicknessMm: wall.thicknessMm,
    sidesMm: [side(rims[0]), side(rims[1])],
    held: [held(rims[0]), held(rims[1])],
  };
});

/** The work once both sides of the wall are cut: what set-ups cut later still holds it. Without set-ups the finished part. */
function workOf(wall: Wall, { part, solid }: Pick<RuleContext, 'part' | 'solid'>): Workpiece {
  if (!part.setups) return solid;
  const timeline = timelineOf(part, solid);
  const sides = sidesOf(wall, part);
  const cuts = sides.flatMap((s) => cutsOf(timeline, s.feature).at(-1) ?? []);
  const [last] = [...cuts].sort((a, b) => b.setup - a.setup || b.order - a.order);
  return last && cuts.length === sides.length ? last.after : solid;
}

/** From one side of it to the other, where it is thinnest. */
function boxOf({ at: [p, q] }: Wall): Box {
  return {
    min: [Math.min(p[0], q[0]), Math.min(p[1], q[1]), Math.min(p[2], q[2])],
    max: [Math.max(p[0], q[0]), Math.max(p[1], q[1]), Math.max(p[2], q[2])],
  };
}

const COUNT = ['none', 'one', 'two', 'three', 'four'] as const;

/** `held on three edges`. */
export function heldWords(edges: number): string {
  return `held on ${COUNT[edges]} edge${edges === 1 ? '' : 's'}`;
}
