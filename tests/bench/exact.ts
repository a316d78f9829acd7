/** The exact solid of a part and its STEP file, in the thread that makes them: from nothing, and once it is warm. */
import { resolve } from 'node:path';
import { performance } from 'node:perf_hooks';
import { solidOf } from '../../server/src/geometry/part-solid';
import { resolvePart } from '../../server/src/model/part';
import { ExactThread } from '../../server/src/node/exact-thread';
import { readText } from '../../server/src/text/read';
import { plate } from './parts';

const SCRIPT = resolve(__dirname, '../../dist/exact-worker.js');

interface ExactTimes {
  readonly features: number;
  /** Thread started, kernel loaded, solid cut, file made. */
  readonly coldMs: number;
  /** The middle of five, warm. */
  readonly warmMs: number;
  readonly megabytes: number;
}

export async function exactTimes(features: number): Promise<ExactTimes> {
  const solid = solidOf(resolvePart(readText(plate(features))));
  const thread = new ExactThread(SCRIPT, { mostMemory: Number.POSITIVE_INFINITY });
  try {
    const times: number[] = [];
    let length = 0;
    for (let n = 0; n < 6; n++) {
      const start = performance.now();
      length = (await thread.step(solid)).text.length;
      times.push(performance.now() - start);
    }
    const [coldMs, ...warm] = times;
    return { features, coldMs: coldMs!, warmMs: warm.sort((a, b) => a - b)[2]!, megabytes: length / 1e6 };
  } finally {
    await thread.stop();
  }
}
