/**
 * Threads ended at any moment, from outside and by their own memory: what was asked of them is answered in the end or
 * refused in a sentence, the text never waits for them, and afterwards all is as if nothing had happened.
 */
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import type { Worker } from 'node:worker_threads';
import { ResponseError } from 'vscode-languageserver-protocol/node';
import { stepWriter } from '../../server/src/export/step';
import { stlWriter } from '../../server/src/export/stl';
import { NodeAside } from '../../server/src/node/aside';
import { ExactThread } from '../../server/src/node/exact-thread';
import { nodeHost } from '../../server/src/node/host';
import { NodeMeshMaker } from '../../server/src/node/mesher';
import type { ExportAnswer } from '../../server/src/service/export-protocol';
import type { PlanAnswer } from '../../server/src/service/plan/answer';
import type { PartPicture } from '../../server/src/service/view/protocol';
import { type Here, serverHere } from '../server/here';
import { patience, random, runs } from './runs';

const DIST = resolve(__dirname, '../../dist');
const script = (name: string) => join(DIST, `${name}-worker.js`);
const URI = 'file:///w/block.part.yaml';
const part = (depth: number) => `part: block
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
features:
  a: { kind: hole, face: top, at: { x: 20, y: 20 }, diameter: 6, depth: ${depth} }
  b: { kind: hole, face: front, at: { x: 20, z: 10 }, diameter: 5, depth: 8 }
  c: { kind: pocket, face: top, at: { x: 44, y: 20 }, size: { x: 18, y: 20 }, corner-radius: 4, depth: 6 }
`;

/** A person's side: one document, edited and asked about. */
class Desk {
  #version = 0;
  constructor(readonly here: Here) {}

  ask<T>(method: string, params: object = {}): Promise<T> {
    return this.here.connection.sendRequest<T>(method, { uri: URI, textDocument: { uri: URI }, ...params });
  }

  type(text: string): void {
    const version = ++this.#version;
    const how = version === 1 ? 'textDocument/didOpen' : 'textDocument/didChange';
    const textDocument = { uri: URI, languageId: 'scribeline-part', version, text };
    void this.here.connection.sendNotification(how, { textDocument, contentChanges: [{ text }] });
  }

  /** What must be had whatever becomes of the threads: findings, and a hover on a feature's name. */
  async read(): Promise<void> {
    const report = await this.ask<{ kind: string }>('textDocument/diagnostic', { identifier: 'scribeline' });
    assert.ok(report.kind === 'full' || report.kind === 'unchanged');
    const hover = await this.ask<{ contents: { value: string } }>('textDocument/hover', {
      position: { line: 5, character: 3 },
    });
    assert.match(hover.contents.value, /hole on top/);
  }
}

/** Kinds of work that a thread does, each asked for once. */
const WORK: Readonly<Record<string, (desk: Desk) => Promise<unknown>>> = {
  picture: (desk) => desk.ask<PartPicture | null>('scribeline/picture'),
  plan: (desk) => desk.ask<PlanAnswer | null>('scribeline/plan'),
  step: (desk) => desk.ask<ExportAnswer>('scribeline/export', { name: 'a.step' }),
  stl: (desk) => desk.ask<ExportAnswer>('scribeline/export', { name: 'a.stl' }),
};

/** What a whole answer says, without what differs from time to time. */
function gist(answer: unknown): unknown {
  const { surfaces, mesh, headline, text, base64 } = answer as PartPicture & PlanAnswer & { base64?: string };
  if (surfaces) return [surfaces.map((s) => s.name).sort(), mesh.triangles.length];
  return headline ? [headline, text] : (base64?.length ?? answer);
}

/** One sentence for a person, wherever it comes: as an error, or as the trouble of an export. */
function assertSentence(words: string): void {
  assert.match(words, /^[A-Za-z][^\n]{15,200}\.$/);
  assert.doesNotMatch(words, /fault of its own|TypeError|at \w+ \(/);
}

describe('threads that are ended', function () {
  this.timeout(patience(120_000));
  let folder: string;
  const ends: (() => unknown)[] = [];
  const alive = new Set<Worker>();
  const seen = (worker: Worker) => {
    alive.add(worker);
    worker.once('exit', () => alive.delete(worker));
  };
  before(() => {
    process.on('worker', seen);
    folder = mkdtempSync(join(tmpdir(), 'scribeline-threads-'));
  });
  afterEach(async () => {
    await Promise.all(ends.splice(0).map((end) => end()));
  });
  after(() => {
    process.off('worker', seen);
    rmSync(folder, { recursive: true, force: true });
  });

  async function desk(
    scripts = { mesh: script('mesh'), aside: script('aside'), exact: script('exact') },
  ): Promise<Desk> {
    const log: string[] = [];
    const note = (message: string) => log.push(message);
    const meshes = new NodeMeshMaker(scripts.mesh, note, undefined, 64);
    const aside = new NodeAside(scripts.aside, note, undefined, 64);
    const exact = new ExactThread(scripts.exact);
    const here = await serverHere({
      ...nodeHost(note),
      meshes,
      aside,
      writers: async () => [stepWriter(exact), stlWriter(meshes)],
    });
    ends.push(
      () => here.end(),
      () => meshes.stop(),
      () => aside.stop(),
      () => exact.stop(),
    );
    return new Desk(here);
  }

  /** The worker's bundle with something that happens at each order. */
  function spoiled(name: string, code: string): string {
    const path = join(folder, `${name}.js`);
    writeFileSync(
      path,
      `const { parentPort } = require('node:worker_threads'); parentPort.on('message', (m) => { ${code} }); require(${JSON.stringify(script(name))});`,
    );
    return path;
  }

  /** Answers the answer, or nothing where it was refused as it should be. */
  async function settled(work: Promise<unknown>): Promise<unknown> {
    try {
      const answer = await work;
      const trouble = (answer as { trouble?: string } | null)?.trouble;
      if (trouble === undefined) return answer;
      assertSentence(trouble);
    } catch (failure) {
      assert.ok(failure instanceof ResponseError, String(failure));
      assertSentence(failure.message);
    }
    return undefined;
  }

  it('at any moment: every request ends, the text is answered, and the next of each kind is as ever', async () => {
    const quiet = await desk();
    quiet.type(part(8));
    const own: Record<string, unknown> = {};
    for (const kind of ['picture', 'plan', 'stl']) own[kind] = gist(await WORK[kind]!(quiet));
    const d = await desk();
    const r = random(101);
    let killed = 0;
    for (let round = 0; killed < runs(3); round++) {
      d.type(part(6 + (round % 5) / 10));
      // the exact kernel takes long to load: seldom
      const kinds = [r.pick(['picture', 'stl']), round % 8 === 1 ? 'step' : r.pick(['plan', 'picture'])];
      const asked = kinds.map((kind) => settled(WORK[kind]!(d)));
      const reading = d.read();
      await wait(r.pick([0, 1, 5, 20, 60, 150]));
      const victims = [...alive].filter((_, i) => i === 0 || r.below(2) === 0);
      killed += victims.length;
      await Promise.all(victims.map((v) => v.terminate()));
      if (r.below(3) === 0) d.type(part(7));
      await reading;
      await d.read();
      await Promise.all(asked);
    }
    d.type(part(8));
    for (const kind of Object.keys(own)) assert.deepEqual(gist(await WORK[kind]!(d)), own[kind], kind);
    assert.ok((await d.ask<{ base64?: string }>('scribeline/export', { name: 'a.step' })).base64);
  });

  it('by their own memory: refused in a sentence, and the text is answered', async () => {
    const hog = 'const all = []; for (;;) all.push(new Array(1e5).fill(m));';
    const d = await desk({
      mesh: spoiled('mesh', hog),
      aside: spoiled('aside', hog),
      exact: spoiled('exact', 'process.exit(9)'),
    });
    d.type(part(8));
    const asked = Object.values(WORK).map((work) => settled(work(d)));
    await d.read();
    assert.deepEqual(
      await Promise.all(asked),
      asked.map(() => undefined),
    );
    await d.read();
  });

  it('that answer nothing keep no word of the text waiting', async () => {
    const hang = 'for (;;);';
    const d = await desk({ mesh: spoiled('mesh', hang), aside: spoiled('aside', hang), exact: spoiled('exact', hang) });
    d.type(part(8));
    let ended = 0;
    const asked = Object.values(WORK).map((work) => settled(work(d)).finally(() => ended++));
    for (let depth = 5; depth < 9; depth++) {
      d.type(part(depth));
      await d.read();
    }
    // only the earlier of two pictures, or none, may have ended: nothing else was answered by anyone
    assert.ok(ended <= 1, String(ended));
    await Promise.all(ends.splice(1).map((end) => end()));
    await Promise.all(asked);
  });
});
