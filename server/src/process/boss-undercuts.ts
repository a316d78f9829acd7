/** The undercut at the foot of a boss's thread: which cutters wider than their necks go round it, and where. */
import { featureFrame, inward, type Size } from '../geometry/frame';
import type { Vec3 } from '../geometry/types';
import { threadedBoss } from '../model/feature-kinds';
import type { BossUndercut } from '../model/feature-kinds/boss-undercut';
import { FACE_PLANE, type Feature, type Place } from '../model/model';
import type { Shop, UndercutMill } from '../model/shop-model';
import type { Boss } from './boss-threads';
import { SAME_MM, SAME_REACH_MM } from './cutters';
import { movesInCircles } from './thread-milling';

export type UndercutBoss = Boss & { readonly thread: Boss['thread'] & { readonly undercut: BossUndercut } };

/** Undefined of every feature but a boss with an undercut. */
export function undercutBoss(feature: Feature): UndercutBoss | undefined {
  const boss = threadedBoss(feature);
  return boss?.thread.undercut ? (boss as UndercutBoss) : undefined;
}

/** How far in from the outside of the boss. */
export function undercutDepthMm({ thread: { spec, undercut } }: UndercutBoss): number {
  return (spec.diameterMm - undercut.diameter.mm) / 2;
}

export const SLOPED = 'its sides are sloped';

/** Why it does not cut it; undefined where it does. */
export function unfitUndercutter(t: UndercutMill, boss: UndercutBoss, shop: Shop): string | undefined {
  const { undercut } = boss.thread;
  if (t.kind === 'dovetail-cutter') return SLOPED;
  if (t.thicknessMm > undercut.width.mm + SAME_MM) return `it is ${mm(t.thicknessMm)} thick`;
  const besideMm = (t.diameterMm - t.neckMm) / 2;
  if (besideMm < undercutDepthMm(boss) - SAME_MM) return `it cuts ${mm(besideMm)} beside its neck`;
  if (t.reachMm < boss.depth.mm - SAME_REACH_MM) return `it reaches ${mm(t.reachMm)}`;
  return movesInCircles(shop) ? undefined : 'no machine here moves in circles by itself';
}

/** From the axis of the boss to that of a cutter at the bottom of the undercut. */
export function roundUndercutMm({ thread: { undercut } }: UndercutBoss, cutterRadiusMm: number): number {
  return undercut.diameter.mm / 2 + cutterRadiusMm;
}

/** Directions in which a tool that goes round is looked at. */
const ROUND = 12;

/** Where the axis of a tool that goes round a boss stands: so far off the boss's, so far below its end. */
export function standsRound(
  boss: Boss,
  place: Place,
  size: Size,
  { offMm, belowMm }: { readonly offMm: number; readonly belowMm: number },
): readonly Vec3[] {
  const down = inward(boss.face);
  const { origin } = featureFrame(boss, size, place);
  const deep = boss.startMm + belowMm;
  const foot = origin.map((x, i) => x + down[i]! * deep) as [number, number, number];
  const [a, b] = FACE_PLANE[boss.face].map((axis) => 'xyz'.indexOf(axis)) as [number, number];
  return Array.from({ length: ROUND }, (_, i) => {
    const at: [number, number, number] = [...foot];
    at[a]! += offMm * Math.cos((2 * Math.PI * i) / ROUND);
    at[b]! += offMm * Math.sin((2 * Math.PI * i) / ROUND);
    return at;
  });
}

function mm(value: number): string {
  return `${Number(value.toFixed(2))} mm`;
}
