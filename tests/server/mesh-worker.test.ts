/** The thread that makes meshes: latest wins, only changes are sent, and one that dies is replaced. */
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { together } from '../../server/src/geometry/mesh/together';
import { solidOf } from '../../server/src/geometry/part-solid';
import { NodeMeshMaker } from '../../server/src/node/mesher';
import type { MadeMesh } from '../../server/src/service/view/mesh-maker';
import { at, box, deep, hole, part, withFeatures } from '../geometry/parts';

const SCRIPT = resolve(__dirname, '../../dist/mesh-worker.js');

const holes = (n: number, depth = 6) =>
  Array.from({ length: n }, (_, i) => hole({ places: [at(8 + i * 10, 10)], diameter: 5, depth: deep(depth) }));
const triangles = (made: MadeMesh) => together(made.pieces).triangles.length / 3;

describe('the mesh thread', () => {
  let folder: string;
  const notes: string[] = [];
  const makers: NodeMeshMaker[] = [];
  const maker = (script = SCRIPT) => {
    const made = new NodeMeshMaker(script, (note) => notes.push(note));
    makers.push(made);
    return made;
  };
  /** The worker with something before it: what it is sent is seen first by `before`, a function's body over `m`. */
  const wrapped = (name: string, before: string) => {
    const file = join(folder, name);
    writeFileSync(
      file,
      `const { parentPort } = require('node:worker_threads'); const fs = require('node:fs');
       parentPort.on('message', (m) => { ${before} });
       require(${JSON.stringify(SCRIPT)});`,
    );
    return file;
  };
  before(() => {
    folder = mkdtempSync(join(tmpdir(), 'scribeline-mesh-'));
  });
  beforeEach(() => {
    notes.length = 0;
  });
  afterEach(async () => {
    await Promise.all(makers.splice(0).map((m) => m.stop()));
  });
  after(() => rmSync(folder, { recursive: true, force: true }));

  it('makes a mesh of what it is given', async () => {
    const { body, voids } = solidOf(part(box(60, 20, 10), ...holes(5)));
    const made = await maker().make({ model: 'a', body, voids });
    assert.ok(made);
    assert.deepEqual(made.missing, []);
    assert.equal(new Set(together(made.pieces).surfaces.map((s) => s.of)).size, 6);
    assert.equal(together(made.pieces).surfaceOf.length, triangles(made));
  });

  it('ends after a quiet while without a word, and draws the same when it is asked again', async () => {
    const m = new NodeMeshMaker(SCRIPT, (note) => notes.push(note), undefined, undefined, 20);
    makers.push(m);
    const { body, voids } = solidOf(part(box(60, 20, 10), ...holes(5)));
    const first = await m.make({ model: 'a', body, voids });
    const thread = m.threadId;
    assert.ok(first && thread !== undefined);
    while (m.threadId !== undefined) await new Promise((next) => setTimeout(next, 10));
    assert.deepEqual(await m.make({ model: 'a', body, voids }), first);
    assert.notEqual(m.threadId, thread);
    assert.deepEqual(notes, []);
  });

  it('sends what changed, and only that', async () => {
    const log = join(folder, 'sent');
    const m = maker(
      wrapped('listening.js', `fs.appendFileSync(${JSON.stringify(log)}, m.fresh.length + ' ' + !!m.body + ';')`),
    );
    const five = holes(5);
    let p = part(box(60, 20, 10), ...five);
    const { body } = solidOf(p);
    assert.ok(await m.make({ model: 'a', body, voids: solidOf(p).voids }));
    p = withFeatures(p, [...five.slice(0, 4), ...holes(5, 4).slice(4)]);
    const edited = await m.make({ model: 'a', body, voids: solidOf(p).voids });
    p = withFeatures(p, five.slice(1));
    const fewer = await m.make({ model: 'a', body, voids: solidOf(p).voids });
    assert.ok(edited && fewer && triangles(fewer) < triangles(edited));
    const { readFileSync } = await import('node:fs');
    assert.equal(readFileSync(log, 'utf8'), '5 true;1 false;1 false;');
  });

  it('answers the latest of several orders and drops the others', async () => {
    const m = maker();
    const { body, voids } = solidOf(part(box(60, 20, 10), ...holes(5)));
    const other = solidOf(part(box(60, 20, 10), ...holes(3)));
    const all = await Promise.all([
      m.make({ model: 'a', body, voids }),
      m.make({ model: 'a', body, voids: voids.slice(0, 2) }),
      m.make({ model: 'a', body, voids: voids.slice(0, 1) }),
      m.make({ model: 'b', body: other.body, voids: other.voids }),
    ]);
    assert.equal(all[0], undefined);
    assert.equal(all[1], undefined);
    assert.equal(new Set(together(all[2]!.pieces).surfaces.map((s) => s.of)).size, 2);
    assert.equal(new Set(together(all[3]!.pieces).surfaces.map((s) => s.of)).size, 4);
  });

  it('forgets the model that was longest not asked for, and makes it again', async () => {
    const m = maker();
    const { body, voids } = solidOf(part(box(60, 20, 10), ...holes(2)));
    const counts = [];
    for (const model of ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'a', 'g'])
      counts.push(triangles((await m.make({ model, body, voids }))!));
    assert.equal(new Set(counts).size, 1);
  });

  it('is replaced when it dies, and the order is made by the next', async () => {
    const flag = join(folder, 'died');
    const once = `if (!fs.existsSync(${JSON.stringify(flag)})) { fs.writeFileSync(${JSON.stringify(flag)}, ''); process.exit(3); }`;
    const m = maker(wrapped('dying-once.js', once));
    const { body, voids } = solidOf(part(box(60, 20, 10), ...holes(3)));
    const made = await m.make({ model: 'a', body, voids });
    assert.equal(new Set(together(made!.pieces).surfaces.map((s) => s.of)).size, 4);
    assert.equal(notes.length, 1);
    // What the next made is known to both sides from then on.
    const fewer = await m.make({ model: 'a', body, voids: voids.slice(1) });
    assert.equal(new Set(together(fewer!.pieces).surfaces.map((s) => s.of)).size, 3);
  });

  it('is ended when it hangs, and the order is made by the next', async () => {
    const flag = join(folder, 'hung');
    const hang = `if (!fs.existsSync(${JSON.stringify(flag)})) { fs.writeFileSync(${JSON.stringify(flag)}, ''); for (;;); }`;
    const m = new NodeMeshMaker(wrapped('hanging.js', hang), (note) => notes.push(note), 5000);
    makers.push(m);
    const { body, voids } = solidOf(part(box(60, 20, 10), ...holes(3)));
    assert.ok(await m.make({ model: 'a', body, voids }));
    assert.deepEqual(notes, ['the mesh thread is started again: it took too long']);
  });

  it('draws as finely as it is told', async () => {
    const m = maker();
    const { body, voids } = solidOf(part(box(60, 20, 10), ...holes(3)));
    const counts = [];
    for (const chordMm of [0.2, 0.01, 0.2])
      counts.push(triangles((await m.make({ model: 'a', body, voids, chordMm }))!));
    assert.ok(counts[1]! > 2 * counts[0]!);
    assert.equal(counts[2], counts[0]);
  });

  it('closes a mesh for a file', async () => {
    const { body, voids } = solidOf(part(box(60, 20, 10), ...holes(3)));
    const closed = await maker().closed(body, voids, 0.01);
    assert.ok(closed);
    assert.equal(closed.pieces, 1);
    // Euler: corners − edges + faces = 2 for blind holes in a block; a closed mesh has 3 edges for 2 triangles
    assert.equal(closed.points.length / 3 - closed.triangles.length / 6, 2);
  });

  it('is given up on for one order, with a word, and serves the next', async () => {
    const m = maker(wrapped('dying.js', `if (m.model === 'bad') throw new Error('out of memory')`));
    const { body, voids } = solidOf(part(box(60, 20, 10), ...holes(3)));
    const [bad, good] = await Promise.allSettled([
      m.make({ model: 'bad', body, voids }),
      m.make({ model: 'good', body, voids }),
    ]);
    assert.equal(bad.status, 'rejected');
    assert.match(String((bad as PromiseRejectedResult).reason), /mesh could not be made: out of memory/);
    // the other order went down with the thread each time: it may be refused, but not hang
    assert.ok(good.status === 'rejected' || good.value);
    assert.ok(await m.make({ model: 'good', body, voids }));
  });
});
