/** The thread in which exact solids are made, on Node. */
import { parentPort } from 'node:worker_threads';
import { exactAnswer } from '../service/beside/exact-orders';
import type { ToExact } from '../service/beside/exact-queue';
import { loadExactKernel } from './exact-kernel';

const port = parentPort;
if (!port) throw new Error('This file is run as a thread by the command line or the language server.');

const loaded = loadExactKernel(() => {});

port.on('message', (order: ToExact) => {
  loaded.then(
    (kernel) => port.postMessage(exactAnswer(kernel, order)),
    (failure: unknown) => {
      throw failure;
    },
  );
});
