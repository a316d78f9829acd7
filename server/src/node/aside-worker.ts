/**
 * A thread that answers questions about parts, one after the other. Keeps each part's last reading, so that an edit costs what changed.
 * As it has all that judges, its file is also where a door finds what it seldom needs: pages and comparisons.
 */
import { type MessagePort, parentPort, workerData } from 'node:worker_threads';
import { CutShort, metered } from '../effort';
import type { Shop } from '../model/shop-model';
import { knowingOnly } from '../planning/plan-cache';
import { readPart } from '../rules/check';
import type { CheckedPart } from '../rules/checked-part';
import { answerTo } from '../service/questions';
import { wholePart } from '../service/snapshot';
import { linesOf } from '../text/lines';
import type { AsideData, FromAside, ToAside } from './aside';

export * from './compare';
export * from './git-drivers';
export * from './job';
export * from './new';
export * from './page-door';
export * from './record';
export * from './sheet';
export * from './writers';

/** Readings kept; the one that was longest not asked for goes first. */
const MOST_KEPT = 2;

const kept = new Map<string, CheckedPart>();

function listen(port: MessagePort, { leave: shared }: AsideData): void {
  const leave = new Int32Array(shared);
  let shop: Shop | undefined;
  port.on('message', (asked: ToAside) => {
    if (asked.shop) shop = asked.shop;
    if (!shop) throw new Error('the first question names no shop');
    const judge = shop;
    try {
      const reply = metered(
        () => Atomics.load(leave, 0) === asked.number,
        () => answer(asked, judge),
      );
      port.postMessage({ number: asked.number, reply } satisfies FromAside);
    } catch (failure) {
      if (!(failure instanceof CutShort)) throw failure;
      port.postMessage({ number: asked.number } satisfies FromAside);
    }
  });
}

if (parentPort) listen(parentPort, workerData as AsideData);

function answer({ path, text, question, told, plan, found }: ToAside, judge: Shop) {
  const read = readPart(text, judge, kept.get(path));
  kept.delete(path);
  kept.set(path, read);
  for (const old of [...kept.keys()].slice(0, Math.max(0, kept.size - MOST_KEPT))) kept.delete(old);
  const asksPlan = 'want' in told && told.want !== 'findings';
  const checked = asksPlan ? read : knowingOnly(read, plan);
  const part = wholePart({ path, text, lines: linesOf(text), checked, shopPath: undefined, besides: found ?? [] });
  return answerTo(question, part, told);
}
