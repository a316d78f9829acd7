/** The tools that the set-ups of a part name for a feature: they go before any that would be chosen. */
import type { Part } from '../../spec/model';
import type { Shop, Tool } from '../../spec/shop-model';

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
