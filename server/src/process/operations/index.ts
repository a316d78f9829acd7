/** The cuts that make a feature with this shop's tools, in their order; worked out once for a feature in its surroundings. */

import { stockBody } from '../../geometry/solid/stock-body';
import type { BodyShape, Solid, Void } from '../../geometry/types';
import { Later, memo } from '../../memo';
import { type ByForm, type FeatureForm, type Forms, homeOf, ofForm } from '../../model/feature-kinds';
import { FACES, type Feature, type Part } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import { facesToJudge } from '../milling';
import type { PartInShop } from '../part-in-shop';
import { type Site, siteOf } from '../site';
import { comesCut } from '../stock/brought';
import { cutBefore, cutFromBothSides, toolAsked } from './asked';
import { bossThreadOperations, bossUndercutOperations } from './boss-thread';
import { onMill } from './by-hand';
import { discOperation } from './disc-cuts';
import { draftedOperations } from './drafted';
import { asFinished } from './finish-feed';
import {
  chamferOperations,
  engravingOperations,
  roundOperations,
  sinkOperation,
  undercutOperations,
} from './form-cutters';
import { holeOperations } from './holes';
import { inHolder, machineFor } from './machine';
import { outlineOperations } from './outlines';
import { slopeOperations } from './slopes';
import type { Operation } from './types';
import { StockInSetup } from './widths';

export type * from './types';

/** The text's own set-ups, and each of the faces up that a planner tries. */
const KEEP = 8;

/** Empty for what removes nothing. */
export function operationsOf(feature: Feature, { part, solid, shop }: PartInShop): readonly Operation[] {
  return operationsHere(siteOf(feature, solid), feature, solid, part, shop);
}

/** Asked again of the same part nothing near need be compared. */
const operationsHere = memo(
  (site: Site, feature: Feature, solid: Solid, part: Part, shop: Shop): readonly Operation[] => {
    const near = site.voids;
    return operationsNear(feature, { part, solid, shop, near }, new Later(() => standing(feature, part, near)));
  },
  {
    size: KEEP,
    by: (_, feature, __, { setups, stock, material, tolerance }, shop) => [
      feature,
      shop,
      setups,
      stock,
      material?.name,
      tolerance?.name,
    ],
  },
);

interface Beside {
  readonly part: Part;
  readonly solid: Solid;
  readonly shop: Shop;
  readonly near: readonly Void[];
}

/** Worked out anew only when the feature or something beside it changed. */
const operationsNear = memo(
  (feature: Feature, { part, solid, shop }: Beside, stands: Later<string>): readonly Operation[] =>
    work(feature, { part, solid, shop }, new StockInSetup(part, () => stands.look())).map((o) =>
      asFinished(inHolder(o, shop), shop),
    ),
  {
    size: KEEP,
    by: (feature, { part, solid, shop, near }, stands) => [
      shop,
      part.material?.name,
      part.tolerance?.name,
      part.stock.blank,
      solid.body,
      // Set-ups narrow the faces it is cut from, name tools, and the machine.
      facesToJudge(feature, part, solid),
      toolAsked(feature.name, part, shop),
      cutFromBothSides(feature.name, part),
      BY_LIE.has(homeOf(feature).form) ? liesFor(feature.name, part) : [],
      machineFor(part, shop, feature.name),
      near,
      stands,
    ],
  },
);

/** The stock as it stands when a feature is cut: what is walled all round has only to do with itself, and never looks. */
function standing(feature: Feature, part: Part, near: readonly Void[]): string {
  const gone = [...cutBefore(feature.name, part)];
  return [
    ...sizeOf(stockBody(part)),
    ...gone.filter((name) => isFace(name) || near.some((v) => v.feature === name)),
  ].join(' ');
}

/** Which of their cuts it is depends on how the work lies for them. */
const BY_LIE: ReadonlySet<FeatureForm> = new Set(['edge', 'slope']);

function liesFor(name: string, { setups = [] }: Part): readonly string[] {
  return setups.flatMap(({ up, hold, cuts }) =>
    cuts.some((c) => c.name === name) ? [`${up?.name}${hold?.type === 'angle' ? ' at an angle' : ''}`] : [],
  );
}

function isFace(name: string): boolean {
  return (FACES as readonly string[]).includes(name);
}

function sizeOf({ box, ...shape }: BodyShape): readonly number[] {
  return [...box.min, ...box.max, 'radius' in shape ? shape.radius : 0];
}

function work(feature: Feature, inShop: PartInShop, stock: StockInSetup): readonly Operation[] {
  if (inShop.solid.voidsOf(feature.name).length === 0 || comesCut(feature, inShop.part, inShop.solid)) return [];
  return ofForm(OPERATIONS, feature, inShop, stock);
}

type Making = [inShop: PartInShop, stock: StockInSetup];

const outlined = (feature: Feature, { part, solid, shop }: PartInShop, stock: StockInSetup) =>
  outlineOperations({ feature, part, shop }, solid, stock);

const OPERATIONS: ByForm<Making, readonly Operation[]> = {
  hole: (hole, inShop) => onMill(hole, holeOperations(hole, inShop)),
  opening: (pocket, inShop, stock) =>
    pocket.draft ? draftedOperations(pocket, outlined(pocket, inShop, stock), inShop) : outlined(pocket, inShop, stock),
  channel: (channel, inShop, stock) => {
    const { part, solid } = inShop;
    const [up] = facesToJudge(channel, part, solid);
    const sideways = discOperation(channel, inShop, up);
    if (sideways) return [sideways];
    const made = milledChannel(channel, inShop, stock);
    // What no mill is thin and long enough for is sawn, where a saw on hand gets in and no set-up says otherwise.
    const told = (part.setups ?? []).some((s) => s.cuts.some((c) => c.name === channel.name));
    const lacking = !told && made.some((o) => o.does === 'missing' && o.lacks === 'mill');
    const sawn = lacking ? discOperation(channel, inShop) : undefined;
    return sawn?.does === 'slot' ? [sawn] : made;
  },
  shoulder: outlined,
  outside: (outside, inShop, stock) => [
    ...outlined(outside, inShop, stock),
    ...bossUndercutOperations(outside, inShop),
    ...bossThreadOperations(outside, inShop),
  ],
  edge: (edge, inShop) => (edge.kind === 'chamfer' ? chamferOperations(edge, inShop) : roundOperations(edge, inShop)),
  ring: (ring, inShop, stock) => (ring.in ? undercutOperations(ring, inShop) : outlined(ring, inShop, stock)),
  letters: engravingOperations,
  slope: slopeOperations,
};

function milledChannel(channel: Forms['channel'], ...[inShop, stock]: Making): readonly Operation[] {
  const milled = outlined(channel, inShop, stock);
  if (channel.countersink) return [...milled, sinkOperation(channel, channel.countersink, inShop)];
  return channel.tee || channel.dovetail ? [...milled, ...undercutOperations(channel, inShop)] : milled;
}
