/** What the set-ups of a part say of a feature's cuts: tools that go before any that would be chosen, and both sides. */
import { OPPOSITE, type Part } from '../../model/model';
import type { Shop, Tool } from '../../model/shop-model';

/** Of the first set-up that names one and that the shop has. */
export function toolAsked(feature: string, { setups }: Pick<Part, 'setups'>, shop: Shop): Tool | undefined {
  for (const setup of setups ?? []) {
    const name = setup.tools.find((t) => t.of.name === feature)?.tool.name;
    const tool = name === undefined ? undefined : shop.tools.find((t) => t.name === name);
    if (tool) return tool;
  }
  return undefined;
}

/** Asked for and of one of these kinds: a tap that is asked for says nothing of the drill before it. */
export function askedOf<K extends Tool['kind']>(
  asked: Tool | undefined,
  ...kinds: readonly K[]
): Extract<Tool, { kind: K }> | undefined {
  return asked && kinds.includes(asked.kind as K) ? (asked as Extract<Tool, { kind: K }>) : undefined;
}

/** Half of it in a set-up, or listed in two that look at it from opposite faces: each takes half. */
export function cutFromBothSides(feature: string, { setups }: Pick<Part, 'setups'>): boolean {
  const cutting = (setups ?? []).filter((s) => s.cuts.some((c) => c.name === feature));
  if (cutting.some((s) => s.cuts.some((c) => c.name === feature && c.depth === 'half'))) return true;
  const ups = cutting.flatMap((s) => s.up?.name ?? []);
  return ups.some((up) => ups.includes(OPPOSITE[up]));
}

/** What the set-ups cut before it. */
export function cutBefore(feature: string, { setups }: Pick<Part, 'setups'>): ReadonlySet<string> {
  const order = (setups ?? []).flatMap((s) => s.cuts.map((c) => c.name));
  return new Set(order.slice(0, Math.max(0, order.indexOf(feature))));
}

export const BOTH_SIDES = 'half from each side';
