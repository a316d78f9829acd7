/** The cut that makes the thread of a boss, where it is milled; a die is hand work, and a missing one is another rule's. */
import { threadedBoss } from '../../model/feature-kinds';
import type { Feature, Part } from '../../model/model';
import type { Shop, ThreadMill } from '../../model/shop-model';
import { toothMm } from '../../tables/thread-form';
import { runOutOf, threadingOf } from '../boss-threads';
import { undercutBoss, undercutDepthMm, unfitUndercutter } from '../boss-undercuts';
import type { PartInShop } from '../part-in-shop';
import { undercutLayers, undercuttersOf } from '../undercutters';
import { askedOf, toolAsked } from './asked';
import type { Operation } from './types';

export function bossThreadOperations(
  feature: Feature,
  { part, shop }: Pick<PartInShop, 'part' | 'shop'>,
): readonly Operation[] {
  const boss = threadedBoss(feature);
  if (!boss) return [];
  const made = threadingOf(boss, shop, millAsked(feature, part, shop));
  if (made.by !== 'mill') return [];
  const { spec, deep } = boss.thread;
  return [
    {
      feature,
      times: boss.places.length,
      does: 'thread',
      tool: made.tool,
      majorMm: spec.diameterMm,
      pitchMm: spec.pitchMm,
      depthMm: deep.mm,
      leftHand: spec.leftHand === true,
      toothMm: toothMm(spec, 'outside'),
      outside: { runOutMm: runOutOf(boss) },
    },
  ];
}

/** The undercut at its foot: before the thread, so that the die or thread mill runs out into it. */
export function bossUndercutOperations(
  feature: Feature,
  { part, shop }: Pick<PartInShop, 'part' | 'shop'>,
): readonly Operation[] {
  const boss = undercutBoss(feature);
  if (!boss) return [];
  const { width, diameter } = boss.thread.undercut;
  const asked = askedOf(toolAsked(feature.name, part, shop), 'tee-cutter', 'ball-undercutter');
  const tool = asked ?? undercuttersOf(shop).find((t) => unfitUndercutter(t, boss, shop) === undefined);
  const times = boss.places.length;
  if (!tool) return [{ feature, times: 1, does: 'missing', lacks: 'undercutter', wanted: 'grooving cutter' }];
  const layers = undercutLayers(tool, width.mm);
  const wideMm = undercutDepthMm(boss);
  const wayMm = layers * Math.PI * (diameter.mm + tool.diameterMm);
  return [{ feature, times, does: 'undercut', tool, wayMm, depthMm: width.mm / layers, wideMm }];
}

/** The thread mill that a set-up names for it. */
export function millAsked(feature: Feature, part: Part, shop: Shop): ThreadMill | undefined {
  return askedOf(toolAsked(feature.name, part, shop), 'thread-mill');
}
