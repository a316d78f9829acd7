/**
 * The thread in which exact solids are made, one order after the other. It tells how much memory it has come to, so that
 * whoever started it can let it go.
 */
import { parentPort } from 'node:worker_threads';
import { ExactError } from '../export/exact/kernel';
import { exactMeasures } from '../export/exact/measures';
import { exactSolid } from '../export/exact/solid';
import { stepText } from '../export/exact/step';
import { loadExactKernel } from './exact-kernel';
import type { FromExact, ToExact } from './exact-thread';

const port = parentPort;
if (!port) throw new Error('This file is run as a thread by the command line or the language server.');

const loaded = loadExactKernel(() => {});

port.on('message', (order: ToExact) => {
  loaded.then(
    (kernel) => port.postMessage({ ...answer(order, kernel.oc), memoryBytes: kernel.memoryBytes() }),
    (failure: unknown) => {
      throw failure;
    },
  );
});

function answer(order: ToExact, oc: Awaited<typeof loaded>['oc']): Omit<FromExact, 'memoryBytes'> {
  try {
    const shape = exactSolid(oc, order.cuttings);
    try {
      return { order: order.order, made: { measures: exactMeasures(oc, shape, true), text: stepText(oc, shape) } };
    } finally {
      shape.delete();
    }
  } catch (error) {
    if (error instanceof ExactError) return { order: order.order, trouble: error.message };
    return {
      order: order.order,
      trouble: `The exact solid could not be made: ${error instanceof Error ? error.message : String(error)}.`,
    };
  }
}
