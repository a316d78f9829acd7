/** A wall or floor as the plate it is when it is cut last: its sides, and which of its edges are held. */
import type { Wall } from '../../geometry/types';
import { boxesNear } from '../../geometry/vector';
import { REACH, type Rim, rimsOf } from '../../geometry/walls/rims';
import type { Plate } from '../../process/cutting/plates';
import { cutsOf, timelineOf, type Workpiece } from '../../process/stock';
import { isMaterial } from '../../process/stock/in-process-stock';
import type { RuleContext } from '../kit/rule';
import { sidesOf } from './walls';

/** Undefined where there is no material in its middle. */
export function plateOf(wall: Wall, context: Pick<RuleContext, 'part' | 'solid'>): Plate | undefined {
  const work = near(wall, workOf(wall, context));
  const rims = rimsOf(wall, (p) => isMaterial(work, p));
  if (!rims) return undefined;
  const side = ([low, high]: readonly [Rim, Rim]) => low.mm + high.mm;
  const held = ([low, high]: readonly [Rim, Rim]) => [low.held, high.held] as const;
  return {
    thicknessMm: wall.thicknessMm,
    sidesMm: [side(rims[0]), side(rims[1])],
    held: [held(rims[0]), held(rims[1])],
  };
}

/** The work once both sides of the wall are cut: what set-ups cut later still holds it. Without set-ups the finished part. */
function workOf(wall: Wall, { part, solid }: Pick<RuleContext, 'part' | 'solid'>): Workpiece {
  if (!part.setups) return solid;
  const timeline = timelineOf(part, solid);
  const sides = sidesOf(wall, part);
  const cuts = sides.flatMap((s) => cutsOf(timeline, s.feature).at(-1) ?? []);
  const [last] = [...cuts].sort((a, b) => b.setup - a.setup || b.order - a.order);
  return last && cuts.length === sides.length ? last.after : solid;
}

function near({ at: [p, q], thicknessMm }: Wall, { body, voids }: Workpiece): Workpiece {
  const about = {
    min: [0, 1, 2].map((i) => Math.min(p[i]!, q[i]!)) as unknown as typeof p,
    max: [0, 1, 2].map((i) => Math.max(p[i]!, q[i]!)) as unknown as typeof p,
  };
  return { body, voids: voids.filter((v) => boxesNear(v.bounds, about, REACH * thicknessMm)) };
}

const COUNT = ['none', 'one', 'two', 'three', 'four'] as const;

/** `held on three edges`. */
export function heldWords(edges: number): string {
  return `held on ${COUNT[edges]} edge${edges === 1 ? '' : 's'}`;
}
