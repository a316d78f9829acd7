/**
 * The thread beside, on Node. As it has all that judges, its file is also where a door finds what it seldom needs: pages
 * and comparisons.
 */
import { type MessagePort, parentPort, workerData } from 'node:worker_threads';
import { AsideAnswers } from '../service/beside/answers';
import type { ToAside } from '../service/beside/aside-queue';
import type { AsideData } from './aside';

export * from '../service/import-tools';
export * from './compare';
export * from './git-drivers';
export * from './import';
export * from './job';
export * from './new';
export * from './page-door';
export * from './record';
export * from './sheet';
export * from './writers';

function listen(port: MessagePort, { leave: shared }: AsideData): void {
  const leave = new Int32Array(shared);
  const answers = new AsideAnswers((number) => Atomics.load(leave, 0) === number);
  port.on('message', (asked: ToAside) => port.postMessage(answers.to(asked)));
}

if (parentPort) listen(parentPort, workerData as AsideData);
