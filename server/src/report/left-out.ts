/**
 * What a part's figures are without: features and set-ups that stand in the text and could not be read. Said beside every
 * figure, for a mass that lacks a bore looks like any other.
 */
import { lossesOf } from '../rules/follows';
import type { ReadPart } from '../rules/judging';
import { list } from '../rules/kit/message';

export interface LeftOut {
  readonly features: readonly string[];
  readonly setups: readonly string[];
}

/** More names are counted, not told. */
const MOST_NAMED = 3;

/** Names in the order of the text; none where all could be read. */
export function leftOutOf({ part, tree }: Pick<ReadPart, 'part' | 'tree'>): LeftOut {
  const lost = lossesOf(part, tree);
  if (!lost) return { features: [], setups: [] };
  // Where the list itself is no YAML, nobody knows what stands in it.
  return {
    features: [...lost.features].map((name) => name || 'what could not be read of `features`'),
    setups: lost.unread,
  };
}

/** `` `draw-tube`, `rib` and set-up `second` ``; undefined where nothing is left out. */
export function leftOutText(
  checked: Pick<ReadPart, 'part' | 'tree'>,
  of: 'features' | 'all' = 'all',
): string | undefined {
  const { features, setups } = leftOutOf(checked);
  const names = [...features.map(code), ...(of === 'all' ? setups.map((name) => `set-up ${code(name)}`) : [])];
  if (names.length === 0) return undefined;
  if (names.length <= MOST_NAMED) return list(names);
  return `${names.slice(0, MOST_NAMED).join(', ')} and ${names.length - MOST_NAMED} more`;
}

function code(name: string): string {
  return name.includes(' ') ? name : `\`${name}\``;
}
