/** Exporting over a real connection, and the thread that makes exact solids: what becomes of it and of what it was asked. */
import assert from 'node:assert/strict';
import { resolve } from 'node:path';
import { solidOf } from '../../server/src/geometry/part-solid';
import { ExactThread } from '../../server/src/node/exact-thread';
import { EXPORT, type ExportAnswer, FORMATS, type Format } from '../../server/src/service/export-protocol';
import { boundaryOf, Step } from '../export/step-reader';
import { at, box, hole, part, THROUGH } from '../geometry/parts';
import { Client } from './client';

const SCRIPT = resolve(__dirname, '../../dist/exact-worker.js');
const URI = 'file:///elsewhere/plate.part.yaml';
const TEXT = 'part: plate\nunits: mm\nbody: { x: 60, y: 40, z: 16 }\n';
const plain = solidOf(part(box(10, 10, 10)));
/** Many bores: takes the kernel long enough to be ended in the middle. */
const many = solidOf(
  part(
    box(400, 400, 10),
    hole({
      places: Array.from({ length: 900 }, (_, i) => at(10 + (i % 30) * 13, 10 + Math.floor(i / 30) * 13)),
      diameter: 6,
      depth: THROUGH,
    }),
  ),
);

describe('exporting over a connection', function () {
  this.timeout(60_000);
  let client: Client;
  before(async () => {
    client = await Client.start();
    client.open(URI, TEXT);
  });
  after(() => client.stop());

  const ask = (name: string, uri = URI): Promise<ExportAnswer> => client.connection.sendRequest(EXPORT, { uri, name });

  it('tells the formats there are', async () => {
    const formats: Format[] = await client.connection.sendRequest(FORMATS, {});
    const step = formats.find((f) => f.extensions.includes('step'));
    assert.deepEqual(step?.extensions, ['step', 'stp']);
    assert.equal(step?.perFace, false);
    assert.match(step?.title ?? '', /^STEP AP242: /);
  });

  it('answers the file of the text as the editor has it, and the protocol survives what the kernel prints', async () => {
    const answer = await ask('plate.step');
    assert.ok('base64' in answer, JSON.stringify(answer));
    const boundary = boundaryOf(new Step(Buffer.from(answer.base64, 'base64').toString('utf8')));
    assert.ok(Math.abs(boundary.volume - 38400) < 1e-6);
    assert.deepEqual(answer.notes, []);
  });

  it('answers the drawing where that is asked for, and the outline where it is not', async () => {
    const formats: Format[] = await client.connection.sendRequest(FORMATS, {});
    assert.deepEqual(
      formats.filter((f) => f.drawing).flatMap((f) => f.extensions),
      ['pdf', 'svg', 'dxf'],
    );
    const draw = async (more: object) => {
      const answer: ExportAnswer = await client.connection.sendRequest(EXPORT, {
        uri: URI,
        name: 'plate.dxf',
        ...more,
      });
      return 'base64' in answer ? Buffer.from(answer.base64, 'base64').toString('utf8') : answer.trouble;
    };
    assert.match(await draw({ drawing: true }), /sheet-1-1/);
    assert.doesNotMatch(await draw({}), /sheet-1-1/);
  });

  it('says in a sentence why not', async () => {
    const trouble = async (name: string, uri?: string) => {
      const answer = await ask(name, uri);
      return 'trouble' in answer ? answer.trouble : 'written';
    };
    assert.match(await trouble('plate.iges'), /no format that can be written/);
    assert.match(await trouble('shop.step', 'file:///elsewhere/none.part.yaml'), /Only a part can be exported/);
    client.open('file:///elsewhere/bad.part.yaml', TEXT.replace('60', 'sixty'));
    assert.match(await trouble('bad.step', 'file:///elsewhere/bad.part.yaml'), /could not be understood/);
  });
});

describe('the thread of the exact kernel', function () {
  this.timeout(60_000);
  let thread: ExactThread;
  afterEach(() => thread.stop());

  it('that dies fails the order it was at with a clear error, and the next order gets another', async () => {
    thread = new ExactThread(SCRIPT);
    const lost = thread.step(many);
    const next = thread.step(plain);
    const first = thread.worker;
    assert.ok(first);
    setTimeout(() => void first.terminate(), 50);
    await assert.rejects(lost, /The thread that makes exact solids was lost: it ended\. Try again/);
    assert.ok(Math.abs((await next).measures.volumeMm3 - 1000) < 1e-9);
    assert.notEqual(thread.worker?.threadId, first.threadId);
  });

  it('that takes too long is ended', async () => {
    thread = new ExactThread(SCRIPT, { longestMs: 30 });
    await assert.rejects(thread.step(many), /was lost: it took longer than/);
    assert.equal(thread.worker, undefined);
  });

  it('is let go when it has grown large, and when it has nothing to do', async () => {
    thread = new ExactThread(SCRIPT, { mostMemory: 1 });
    await thread.step(plain);
    assert.equal(thread.worker, undefined, 'too large');
    await thread.stop();
    thread = new ExactThread(SCRIPT, { idleMs: 10 });
    await thread.step(plain);
    for (let n = 0; n < 200 && thread.worker; n++) await new Promise((done) => setTimeout(done, 10));
    assert.equal(thread.worker, undefined, 'idle');
  });

  it('that cannot even start says so', async () => {
    thread = new ExactThread(resolve(__dirname, 'no-such-worker.js'));
    await assert.rejects(thread.step(plain), /was lost: .*no-such-worker/);
  });

  it('answers orders in turn, and a solid that cannot be made does not end it', async () => {
    thread = new ExactThread(SCRIPT);
    const all = Promise.allSettled([
      thread.step(plain),
      thread.step({ ...plain, body: { form: 'box', box: { min: [0, 0, 0], max: [0, 0, 0] } } }),
      thread.step(plain),
    ]);
    const worker = thread.worker;
    assert.deepEqual(
      (await all).map((r) => r.status),
      ['fulfilled', 'rejected', 'fulfilled'],
    );
    assert.equal(thread.worker, worker);
  });
});
