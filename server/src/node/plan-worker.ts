/** A thread that plans parts, one order after the other. Keeps each part's last reading, so that an edit costs what changed. */
import { parentPort } from 'node:worker_threads';
import { type CheckedPart, checkPart } from '../rules/check';
import { replyFor } from '../service/planner';
import type { Shop } from '../spec/shop-model';
import type { FromPlanner, ToPlanner } from './planner';

/** Readings kept; the one that was longest not asked for goes first. */
const MOST_KEPT = 8;

const port = parentPort;
if (!port) throw new Error('This file is run by the language server as a thread.');

interface Reading {
  readonly text: string;
  readonly checked: CheckedPart;
}
const kept = new Map<string, Reading>();
let shop: Shop | undefined;

port.on('message', ({ number, path, text, want, shop: other }: ToPlanner) => {
  if (other) shop = other;
  if (!shop) throw new Error('the first order names no shop');
  const last = kept.get(path);
  // The same part asked again has its plan already.
  const same = last?.text === text && last.checked.shop === shop;
  const checked = same ? last.checked : checkPart(text, shop, last?.checked);
  kept.delete(path);
  kept.set(path, { text, checked });
  for (const old of [...kept.keys()].slice(0, Math.max(0, kept.size - MOST_KEPT))) kept.delete(old);
  port.postMessage({ number, reply: replyFor(checked, { path, text, want }) } satisfies FromPlanner);
});
