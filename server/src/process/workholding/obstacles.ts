/** What stands round the work and must not be touched, as boxes in part axes. */
import type { Box } from '../../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { FACE_AXIS, FACE_PLANE, FACES, type Face, type Hold, type Part } from '../../model/model';
import { screwHeads } from './screw-heads';
import type { InVise, Obstacle, Seating } from './seating-types';

type Base = Omit<Seating, 'held' | 'obstacles'>;

/** How thick a jaw is behind its face, how thick a stop. Common sizes, no source. */
const JAW_MM = 40;
const STOP_MM = 10;
/** A strap clamp: how wide, how thick above the work, how far it lies on it beyond where it presses. Common sizes, no source. */
export const STRAP_OVER_MM = 10;
const CLAMP_MM = { wide: 25, high: 25, over: STRAP_OVER_MM, back: 60 } as const;

export function obstaclesOf(
  base: Base,
  held: InVise | undefined,
  hold: Hold | undefined,
  part: Part,
): readonly Obstacle[] {
  if (held) return [...jaws(base, held, hold), ...parallels(base, held), ...stop(base, held, hold)];
  if (hold?.type === 'clamps') return clamps(base, hold, part);
  if (hold?.type === 'screws') return screwHeads(base, hold, part);
  return [];
}

type Spans = Partial<Record<AxisIndex, readonly [number, number]>>;

function boxOf(spans: Spans): Box {
  const low = (i: AxisIndex) => Math.min(...spans[i]!);
  const high = (i: AxisIndex) => Math.max(...spans[i]!);
  return { min: [low(0), low(1), low(2)], max: [high(0), high(1), high(2)] };
}

function jaws(base: Base, h: InVise, hold: Hold | undefined): readonly Obstacle[] {
  // Jaws milled to the part's shape end where the part begins; nothing more is known of them.
  if (hold?.type === 'soft-jaws') return [];
  const top = base.lowestMm + base.upSign * h.gripMm;
  const foot = top - base.upSign * h.vise.jawHeightMm;
  const one = (what: Obstacle['what'], face: Face, at: number): Obstacle => ({
    what,
    box: boxOf({
      [base.upAxis]: [foot, top],
      [h.alongAxis]: [h.jawFromMm, h.jawToMm],
      [h.jawAxis]: [at, at + FACE_AXIS[face].sign * JAW_MM],
    }),
  });
  return [one('fixed jaw', h.fixed, h.fixedAtMm), one('moving jaw', h.moving, h.movingAtMm)];
}

/** As long as the jaws. */
function parallels(base: Base, h: InVise): readonly Obstacle[] {
  return (h.pair?.at ?? []).map((across) => ({
    what: 'parallel',
    box: boxOf({
      [base.upAxis]: [base.lowestMm, base.lowestMm - base.upSign * h.parallelsMm],
      [h.alongAxis]: [h.jawFromMm, h.jawToMm],
      [h.jawAxis]: across,
    }),
  }));
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

/** Straps from outside over the nearest edge to where they press. */
function clamps(base: Base, hold: Hold, part: Part): readonly Obstacle[] {
  const [a, b] = FACE_PLANE[base.up].map((name) => AXIS_INDEX[name]) as [AxisIndex, AxisIndex];
  return (hold.clamps ?? []).map(({ u, v }) => {
    const ways = [
      { axis: a, sign: -1, far: u, mid: v },
      { axis: a, sign: 1, far: part.size[a] - u, mid: v },
      { axis: b, sign: -1, far: v, mid: u },
      { axis: b, sign: 1, far: part.size[b] - v, mid: u },
    ];
    const way = ways.reduce((best, w) => (w.far < best.far ? w : best));
    const across = way.axis === a ? b : a;
    const at = way.axis === a ? u : v;
    return {
      what: 'clamp' as const,
      box: boxOf({
        [base.upAxis]: [base.highestMm, base.highestMm + base.upSign * CLAMP_MM.high],
        [way.axis]: [at - way.sign * CLAMP_MM.over, at + way.sign * CLAMP_MM.back],
        [across]: [way.mid - CLAMP_MM.wide / 2, way.mid + CLAMP_MM.wide / 2],
      }),
    };
  });
}
