/** What stands round the work and must not be touched, as boxes in part axes. */
import { AXIS_INDEX } from '../../geometry/vector';
import { FACE_AXIS, FACES, type Face, type Hold, type Part } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import { plateObstacles } from './angle-plate';
import { boxOf } from './boxes';
import { alongOf } from './jaws-along';
import { screwHeads } from './screw-heads';
import type { InVise, Obstacle, Seating } from './seating-types';
import { clampObstacles } from './straps';
import { neighbour } from './two-pieces';
import { inVise, underBar } from './v-block';

type Base = Omit<Seating, 'held' | 'obstacles' | 'avoided'>;

/** How thick a jaw is behind its face, how thick a stop. Common sizes, no source. */
const JAW_MM = 40;
const STOP_MM = 10;

export function obstaclesOf(
  base: Base,
  held: InVise | undefined,
  hold: Hold | undefined,
  { part, shop }: { readonly part: Part; readonly shop: Shop },
): readonly Obstacle[] {
  if (held) {
    const block = hold?.vBlock ? inVise(base, held, hold, shop) : [];
    return [
      ...jaws(base, held, hold),
      ...block,
      ...parallels(base, held),
      ...stop(base, held, hold),
      ...neighbour(base, held),
    ];
  }
  if (hold?.type === 'v-block') return [...clampObstacles(base, hold, part), ...underBar(base, hold, shop)];
  if (hold?.type === 'angle-plate') return plateObstacles(base, hold, shop);
  if (hold?.type === 'clamps') return clampObstacles(base, hold, part);
  if (hold?.type === 'screws') return screwHeads(base, hold, part);
  return [];
}

function jaws(base: Base, h: InVise, hold: Hold | undefined): readonly Obstacle[] {
  // Jaws milled to the part's shape end where the part begins; nothing more is known of them.
  if (hold?.type === 'soft-jaws') return [];
  const top = base.lowestMm + base.upSign * h.gripMm;
  const foot = top - base.upSign * h.vise.jawHeightMm;
  const one = (what: Obstacle['what'], face: Face, at: number) =>
    alongOf(h).map(
      (along): Obstacle => ({
        what,
        box: boxOf({
          [base.upAxis]: [foot, top],
          [h.alongAxis]: along,
          [h.jawAxis]: [at, at + FACE_AXIS[face].sign * JAW_MM],
        }),
      }),
    );
  const moving = h.movingAtMm + FACE_AXIS[h.moving].sign * h.blockMm;
  return [...one('fixed jaw', h.fixed, h.fixedAtMm), ...one('moving jaw', h.moving, moving)];
}

/** As long as the jaws. */
function parallels(base: Base, h: InVise): readonly Obstacle[] {
  return (h.pair?.at ?? []).flatMap((across) =>
    alongOf(h).map((along) => ({
      what: 'parallel' as const,
      box: boxOf({
        [base.upAxis]: [base.lowestMm, base.lowestMm - base.upSign * h.parallelsMm],
        [h.alongAxis]: along,
        [h.jawAxis]: across,
      }),
    })),
  );
}

/** A pin against the end of the work near the fixed jaw, no higher than the jaws. */
function stop(base: Base, h: InVise, hold: Hold | undefined): readonly Obstacle[] {
  const face = FACES.find((f) => f === hold?.stop?.name);
  if (!face || AXIS_INDEX[FACE_AXIS[face].axis] !== h.alongAxis) return [];
  const at = FACE_AXIS[face].sign > 0 ? h.workToMm : h.workFromMm;
  const high = Math.min(h.gripMm, base.heightMm);
  const inward = -FACE_AXIS[h.fixed].sign;
  const deep = Math.min(STOP_MM, h.openingMm);
  return [
    {
      what: 'stop',
      box: boxOf({
        [base.upAxis]: [base.lowestMm, base.lowestMm + base.upSign * high],
        [h.alongAxis]: [at, at + FACE_AXIS[face].sign * STOP_MM],
        [h.jawAxis]: [h.fixedAtMm, h.fixedAtMm + inward * deep],
      }),
    },
  ];
}
