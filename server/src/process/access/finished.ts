/** Reaching where no set-up says anything: on the finished surroundings, from the approach that does best. */
import type { Solid } from '../../geometry/types';
import { memo } from '../../memo';
import type { Face, Feature, Part } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import { approachesOf } from '../approach';
import type { PartInShop } from '../part-in-shop';
import { removedBy } from '../stock/removes';
import type { Cut, Share } from '../stock/types';
import { verdictOf } from './';
import type { Verdict } from './verdict';

/** The verdict of the best approach: one without trouble where there is one. */
export function bestOnFinished(feature: Feature, { part, solid, shop }: PartInShop): Verdict | undefined {
  return best(feature, solid, part, shop);
}

const best = memo(
  (feature: Feature, solid: Solid, part: Part, shop: Shop): Verdict | undefined => work(feature, { part, solid, shop }),
  {
    owners: 'second',
    by: (_, __, { setups, stock, material, tolerance, features }, shop) => [
      shop,
      setups,
      stock,
      material?.name,
      tolerance?.name,
      features,
    ],
  },
);

function work(feature: Feature, inShop: PartInShop): Verdict | undefined {
  const { part, solid } = inShop;
  let best: Verdict | undefined;
  for (const up of approachesOf(feature, part, solid)) {
    const verdict = fromOn(feature, up, inShop);
    if (verdict && !verdict.short && !verdict.holder) return verdict;
    // Too short is worse: a holder can be changed.
    if (verdict && (!best || (best.short && !verdict.short))) best = verdict;
  }
  return best;
}

/** From one face, on the finished surroundings: less stands there at no time. */
export function fromOn(
  feature: Feature,
  up: Face,
  { part, solid, shop }: PartInShop,
  share?: Share,
): Verdict | undefined {
  const cut: Cut = {
    setup: 0,
    order: 0,
    name: feature.name,
    feature,
    span: feature.nameSpan,
    removes: share === undefined ? solid.voidsOf(feature.name) : removedBy(feature, up, share, solid, solid),
    before: solid,
    after: solid,
  };
  const setup = { name: '', span: feature.nameSpan, zero: {}, cuts: [], tools: [], whole: feature.span };
  return verdictOf(
    cut,
    { setup, index: 0, up, before: solid, after: solid, leaves: solid, cuts: [cut] },
    { part, solid, shop },
  );
}
