/**
 * Attempts of earlier plans, kept by what they were made from: the features in question by identity, the pose, the set-ups
 * before. After an edit those that the changed feature has no part in need not be judged again.
 */

import { memo } from '../memo';
import type { Shop } from '../model/shop-model';
import { type Operation, operationsOf } from '../process/operations';
import type { Item } from './item';
import { type Ask, poseKey } from './search';
import type { KnownOutcomes, Made, Outcome, Trial } from './trial';

/** So many are kept for a shop; the ones not used for longest go first. */
const MOST_KEPT = 600;

class Attempts implements KnownOutcomes {
  readonly #kept = new Map<string, Outcome>();
  judged = 0;

  get(key: string): Outcome | undefined {
    const known = this.#kept.get(key);
    if (known) {
      this.#kept.delete(key);
      this.#kept.set(key, known);
    } else this.judged++;
    return known;
  }

  set(key: string, outcome: Outcome): void {
    this.#kept.set(key, outcome);
    if (this.#kept.size > MOST_KEPT) this.#kept.delete(this.#kept.keys().next().value!);
  }
}

/** A table of its own: what an attempt turns on is too much to be compared one by one, and is looked up by its digest. */
export const attemptsFor = memo((_: Shop): KnownOutcomes => new Attempts());

/** A number for an object, the same as long as it is the same object. */
const idOf = memo((_: object) => ++last);
let last = 0;

/** All that an attempt depends on, as text: equal only where the answer is. */
export function attemptKey(trial: Trial, { before, done, pose, candidates }: Ask<Made>): string {
  const { items } = trial;
  const wasCut = [...done]
    .sort((a, b) => a - b)
    .map((i) => `${voidsKey(items[i]!, trial)}${items[i]!.share ? items[i]!.from : ''}`);
  const key = [
    constantsOf(trial),
    poseKey(pose),
    before.map((m) => idOf(m.made.setup)).join(),
    wasCut.join(),
    candidates.map((i) => `${i.index}:${itemKey(i, trial)}`).join(),
    // The faces still raw.
    items.flatMap((i) => (i.face && !done.has(i.index) ? [i.face] : [])).join(),
  ].join(';');
  return digest(key);
}

/** Of the part as a whole. */
const constantsOf = memo(({ part, solid }: Trial): string => {
  const { min, max } = solid.body.box;
  return [
    idOf(part.stock),
    idOf(part.body!),
    idOf(part.datums),
    part.tolerances.map(idOf).join('.'),
    part.material?.name,
    part.tolerance?.name,
    part.quantity,
    part.units,
    [...min, ...max].join('.'),
  ].join('|');
});

/** The feature, where it may be cut from and what it waits for, and how it would be cut beside its neighbours. */
const itemKey = memo((item: Item, trial: Trial): string => {
  const operations = item.feature ? textOf(operationsOf(item.feature, trial)) : '';
  return `${voidsKey(item, trial)}-${item.share ?? ''}${item.from}-${item.after.join('.')}-${item.rather?.join('.') ?? ''}-${operations}`;
});

/** Worked out anew beside a neighbour that changed, they mostly come out the same. */
const textOf = memo((operations: readonly Operation[]) =>
  digest(
    JSON.stringify(operations, (key, value) => (key === 'feature' ? undefined : key === 'tool' ? value.name : value)),
  ),
);

/** 128 bits of a text, four multiplied sums: keys of large parts would fill memory. */
function digest(text: string): string {
  let [a, b, c, d] = [0xdeadbeef, 0x41c6ce57, 0x9e3779b9, 0x85ebca6b];
  for (let i = 0; i < text.length; i++) {
    const ch = text.charCodeAt(i);
    a = Math.imul(a ^ ch, 2654435761);
    b = Math.imul(b ^ ch, 1597334677);
    c = Math.imul(c ^ (ch + i), 2246822519);
    d = Math.imul(d ^ (ch + i), 3266489917);
  }
  return [a ^ (b >>> 16), b ^ (a >>> 13), c ^ (d >>> 16), d ^ (c >>> 13)].map((n) => (n >>> 0).toString(36)).join('.');
}

function voidsKey({ feature, face }: Item, { solid }: Trial): string {
  return feature ? `${idOf(feature)}.${solid.voidsOf(feature.name).map(idOf).join('.')}` : face!;
}
