/** The cut that makes the thread of a boss, where it is milled; a die is hand work, and a missing one is another rule's. */
import { threadedBoss } from '../../model/feature-kinds';
import type { Feature, Part } from '../../model/model';
import type { Shop, ThreadMill } from '../../model/shop-model';
import { toothMm } from '../../tables/thread-form';
import { runOutOf, threadingOf } from '../boss-threads';
import type { PartInShop } from '../part-in-shop';
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

/** The thread mill that a set-up names for it. */
export function millAsked(feature: Feature, part: Part, shop: Shop): ThreadMill | undefined {
  return askedOf(toolAsked(feature.name, part, shop), 'thread-mill');
}
