/**
 * How the thread of a boss is made: with a die by hand where the shop has one, else by a thread mill that goes round it. And
 * what either leaves uncut before a shoulder.
 */
import { threadedBoss } from '../model/feature-kinds';
import type { Feature } from '../model/model';
import type { Shop, ThreadMill } from '../model/shop-model';
import { toothMm } from '../tables/thread-form';
import { findThread } from '../tables/thread-names';
import { SAME_REACH_MM } from './cutters';
import { hasForm, movesInCircles, threadMillsIn } from './thread-milling';

export type Boss = NonNullable<ReturnType<typeof threadedBoss>>;

type BossThreading =
  | { readonly by: 'die' }
  | { readonly by: 'mill'; readonly tool: ThreadMill }
  /** `why`: of the nearest thread mill in the shop, why it does not do. */
  | { readonly by: 'nothing'; readonly why?: { readonly tool: ThreadMill; readonly because: string } };

/** A die goes first, as a tap does; `asked`: the thread mill that a set-up names. */
export function threadingOf(boss: Boss, shop: Shop, asked?: ThreadMill): BossThreading {
  if (asked) return { by: 'mill', tool: asked };
  if (shop.dies?.some((d) => findThread(d)?.designation === boss.thread.spec.designation)) return { by: 'die' };
  let why: { readonly tool: ThreadMill; readonly because: string } | undefined;
  for (const tool of threadMillsIn(shop)) {
    const because = unfitOutside(tool, boss, shop);
    if (because === undefined) return { by: 'mill', tool };
    if (because !== OTHER) why = { tool, because };
  }
  return { by: 'nothing', ...(why && { why }) };
}

const OTHER = 'another pitch or form';

function unfitOutside(tool: ThreadMill, boss: Boss, shop: Shop): string | undefined {
  const { spec } = boss.thread;
  if (!hasForm(tool, spec)) return OTHER;
  if (!movesInCircles(shop)) return 'no machine here moves in circles by itself';
  if (tool.cuts === 'inside') return 'its full teeth fit holes only';
  const reachMm = tipBelowMm(boss);
  if (tool.reachMm < reachMm - SAME_REACH_MM) return `it reaches ${mm(tool.reachMm)} of ${mm(reachMm)}`;
  return undefined;
}

/** How far below the boss's end the cutter's tip goes: half a tooth under the last full turn. */
export function tipBelowMm({ thread: { deep, spec } }: Boss): number {
  return deep.mm + spec.pitchMm / 2;
}

/** How far off the boss's axis the cutter's goes. */
export function roundMm({ thread: { spec } }: Boss, tool: ThreadMill): number {
  return spec.diameterMm / 2 - toothMm(spec, 'outside') + tool.diameterMm / 2;
}

/** Between the last full turn and the shoulder, mm; without end where the boss goes right through. */
export function runOutOf({ depth, thread }: Boss): number {
  return depth.through ? Number.POSITIVE_INFINITY : depth.mm - thread.deep.mm;
}

/** Bosses that get a thread. */
export function* threadedBosses(features: readonly Feature[]): Generator<Boss> {
  for (const feature of features) {
    const boss = threadedBoss(feature);
    if (boss) yield boss;
  }
}

function mm(value: number): string {
  return `${Number(value.toFixed(2))} mm`;
}
