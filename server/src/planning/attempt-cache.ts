/**
 * Attempts of earlier plans, kept by what they were made from: the features in question by identity, the pose, the set-ups
 * before. After an edit those that the changed feature has no part in need not be judged again.
 */

import type { Shop } from '../model/shop-model';
import { type Operation, operationsOf } from '../process/operations';
import type { Item } from './item';
import { type Ask, poseKey } from './search';
import type { KnownOutcomes, Made, Outcome, Trial } from './trial';

/** So many are kept for a shop; the ones not used for longest go first. */
const MOST_KEPT = 600;

class Attempts implements KnownOutcomes {
  readonly #kept = new Map<string, Outcome>();

  get(key: string): Outcome | undefined {
    const known = this.#kept.get(key);
    if (known) {
      this.#kept.delete(key);
      this.#kept.set(key, known);
    }
    return known;
  }

  set(key: string, outcome: Outcome): void {
    this.#kept.set(key, outcome);
    if (this.#kept.size > MOST_KEPT) this.#kept.delete(this.#kept.keys().next().value!);
  }
}

const byShop = new WeakMap<Shop, Attempts>();

export function attemptsFor(shop: Shop): Attempts {
  let known = byShop.get(shop);
  if (!known) {
    known = new Attempts();
    byShop.set(shop, known);
  }
  return known;
}

const ids = new WeakMap<object, number>();
let last = 0;

/** A number for an object, the same as long as it is the same object. */
function idOf(object: object): number {
  let id = ids.get(object);
  if (id === undefined) {
    id = ++last;
    ids.set(object, id);
  }
  return id;
}

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

const constants = new WeakMap<Trial, string>();

/** Of the part as a whole. */
function constantsOf(trial: Trial): string {
  let made = constants.get(trial);
  if (made === undefined) {
    const { part, solid } = trial;
    const { min, max } = solid.body.box;
    made = [
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
    constants.set(trial, made);
  }
  return made;
}

const keys = new WeakMap<Trial, Map<Item, string>>();

/** The feature, where it may be cut from and what it waits for, and how it would be cut beside its neighbours. */
function itemKey(item: Item, trial: Trial): string {
  let known = keys.get(trial);
  if (!known) {
    known = new Map();
    keys.set(trial, known);
  }
  let made = known.get(item);
  if (made === undefined) {
    const { part, solid, shop } = trial;
    const operations = item.feature ? textOf(operationsOf(item.feature, part, solid, shop)) : '';
    made = `${voidsKey(item, trial)}-${item.share ?? ''}${item.from}-${item.after.join('.')}-${operations}`;
    known.set(item, made);
  }
  return made;
}

const texts = new WeakMap<readonly Operation[], string>();

/** Worked out anew beside a neighbour that changed, they mostly come out the same. */
function textOf(operations: readonly Operation[]): string {
  let made = texts.get(operations);
  if (made === undefined) {
    made = digest(
      JSON.stringify(operations, (key, value) => (key === 'feature' ? undefined : key === 'tool' ? value.name : value)),
    );
    texts.set(operations, made);
  }
  return made;
}

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
