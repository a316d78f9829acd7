/** What a plan leaves uncut, each with what was said against it where it came nearest to being cut. */

import type { Face } from '../model/model';
import type { Finding } from '../rules/kit/rule';
import type { Item } from './item';
import type { Refusal, Trial } from './trial';

export interface Uncut {
  readonly item: Item;
  readonly why?: Finding;
  /** With which face up that was. */
  readonly up?: Face;
  /** What would have to be cut before it, and is not. */
  readonly waits?: Item;
}

/** What is said nearer the machine comes nearer to a cut: a longer tool is bought sooner than another way to hold is found. */
const NEARNESS = ['access/jaw', 'access/holder', 'access/reach', 'hold/in-the-cut', 'hold/cut-free'];

/** One entry for each name: edges that are broken from several faces are told once. */
export function uncutOf(items: readonly Item[], cut: ReadonlySet<number>, trial: Trial): readonly Uncut[] {
  const told = new Set<string>();
  return items.flatMap((item) => {
    if (cut.has(item.index) || told.has(item.name)) return [];
    told.add(item.name);
    return [oneUncut(item, cut, trial)];
  });
}

function oneUncut(item: Item, cut: ReadonlySet<number>, { items, refusals, unheld }: Trial): Uncut {
  if (item.from === 0) return { item };
  const before = item.after.find((a) => !cut.has(a));
  const said = refusals.get(item.index) ?? [];
  if (before !== undefined && said.length === 0) return { item, waits: items[before]! };
  const own = nearest(said) ?? [...unheld.values()].find((r) => (r.pose.bit & item.from) !== 0);
  return { item, ...(own && { why: own.why, up: own.pose.up }) };
}

/** What kept apart what one set-up might have cut: the nearest that was said against a cut with a face up that is up anyway. */
export function blockedBy(setups: readonly (readonly Item[])[], ups: readonly Face[], trial: Trial): Uncut | undefined {
  for (const item of setups.flat()) {
    const at = setups.findIndex((cut) => cut.includes(item));
    const elsewhere = (trial.refusals.get(item.index) ?? []).filter(
      ({ pose }) => !pose.by && ups.some((up, i) => i !== at && up === pose.up),
    );
    const said = nearest(elsewhere);
    if (said) return { item, why: said.why, up: said.pose.up };
  }
  return undefined;
}

function nearest(said: readonly Refusal[]): Refusal | undefined {
  const rank = ({ pose, why }: Refusal) => {
    const i = NEARNESS.indexOf(why.rule);
    return (i < 0 ? NEARNESS.length : i) + (pose.by ? 0.5 : 0);
  };
  return [...said].sort((a, b) => rank(a) - rank(b))[0];
}
