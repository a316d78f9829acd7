/** Planning beside the server's thread: what is typed meanwhile is answered first; a thread that dies or hangs is replaced. */
import assert from 'node:assert/strict';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { NodeAside } from '../../server/src/node/aside';
import { costFindings } from '../../server/src/planning/savings';
import { checkPart, fixesFor } from '../../server/src/rules/check';
import { slowFeature } from '../../server/src/rules/cost/slow-feature';
import { moreThanNeeded } from '../../server/src/rules/setup/more-than-needed';
import type { PlanAnswer } from '../../server/src/service/plan/answer';
import { applyEdits, locateEdits } from '../../server/src/text/edit';
import { Client, type PlainDiagnostic } from './client';

const SCRIPT = resolve(__dirname, '../../dist/aside-worker.js');
const PART = `part: block
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
features:
  a: { kind: hole, face: top, at: { x: 20, y: 20 }, diameter: 6, depth: 8 }
  b: { kind: hole, face: front, at: { x: 20, z: 10 }, diameter: 5, depth: 8 }
  c: { kind: hole, face: left, at: { y: 20, z: 10 }, diameter: 5, depth: 8 }
`;

describe('planning beside the typing, in the built server', () => {
  let client: Client;
  before(async () => {
    client = await Client.start();
  });
  after(() => client.stop());

  it('answers an edit that comes while it plans before the plan, and the plan after it', async () => {
    const uri = 'file:///plan/block.part.yaml';
    client.open(uri, PART);
    await client.pull(uri);
    const order: string[] = [];
    const plan = client.connection.sendRequest<PlanAnswer | null>('scribeline/plan', { uri }).then((answer) => {
      order.push('plan');
      return answer;
    });
    const typed: Promise<unknown>[] = [];
    for (let i = 0; i < 3; i++) {
      client.replace(uri, `x: ${20 + i}, y: 20`, `x: ${21 + i}, y: 20`);
      typed.push(client.pull(uri).then(() => order.push(`edit ${i}`)));
      await typed.at(-1);
    }
    const answer = await plan;
    assert.deepEqual(order, ['edit 0', 'edit 1', 'edit 2', 'plan']);
    assert.ok(answer?.whole && answer.setups >= 3 && answer.edits.length > 0, answer?.headline);
    assert.equal(client.stderr, '');
  });

  it('offers the plan as a fix, planned beside the typing too', async () => {
    const uri = 'file:///plan/two.part.yaml';
    client.open(uri, moreThanNeeded.good.replace('[seat, tie]', '[seat]'));
    const found = await client.diagnostics(uri);
    const unassigned = found.find((d) => d.code === 'setup/unassigned');
    if (!unassigned) return assert.fail(`nothing is unassigned: ${found.map((d) => String(d.code)).join(', ')}`);
    const actions = await client.actions(uri, unassigned, ['quickfix']);
    assert.ok(
      actions.some((a) => /^Plan anew: \d+ set-up/.test(a.title)),
      actions.map((a) => a.title).join('; '),
    );
  });

  it('offers what the planner priced as a fix: it comes back from the thread with its finding', async function () {
    this.timeout(30_000);
    const uri = 'file:///plan/slow.part.yaml';
    client.open(uri, slowFeature.bad);
    let slow: PlainDiagnostic | undefined;
    while (!slow) {
      slow = (await client.diagnostics(uri)).find((d) => d.code === slowFeature.name);
      // The planner waits until nothing was asked for a while.
      if (!slow) await new Promise((done) => setTimeout(done, 1500));
    }
    const [fix] = await client.actions(uri, slow, ['quickfix']);
    assert.match(fix?.title ?? '', /\(saves .* min\)$/);
    client.apply(uri, fix!);
    const own = checkPart(slowFeature.bad, builtinShop());
    const [finding] = costFindings(own);
    const [told] = fixesFor(own, finding!);
    assert.equal(fix!.title, told!.title, 'as on the command line');
    assert.equal(client.text(uri), applyEdits(slowFeature.bad, locateEdits(own.tree, told!.edits)));
  });
});

describe('the thread beside', () => {
  const shop = builtinShop();
  const order = (path: string, want: 'findings' | 'plan' | 'answer' = 'plan') => ({
    path,
    text: PART,
    shop,
    question: 'plan' as const,
    told: { want },
    urgency: 'asked' as const,
  });
  const planners: NodeAside[] = [];
  let notes: string[] = [];
  let folder: string;
  const planner = (script = SCRIPT, longestMs?: number) => {
    const made = new NodeAside(script, (note) => notes.push(note), longestMs);
    planners.push(made);
    return made;
  };
  /** The worker's bundle with something that happens at an order. */
  const wrapped = (name: string, code: string) => {
    const path = join(folder, name);
    writeFileSync(
      path,
      `const fs = require('node:fs'); const { parentPort } = require('node:worker_threads');
       parentPort.on('message', (m) => { ${code} });
       require(${JSON.stringify(SCRIPT)});`,
    );
    return path;
  };
  before(() => {
    folder = mkdtempSync(join(tmpdir(), 'scribeline-plan-'));
    assert.ok(readFileSync(SCRIPT).length > 1000);
  });
  beforeEach(() => {
    notes = [];
  });
  after(async () => {
    await Promise.all(planners.map((p) => p.stop()));
    rmSync(folder, { recursive: true, force: true });
  });

  it('ends after a quiet while without a word, and answers the same when it is asked again', async () => {
    const made = new NodeAside(SCRIPT, (note) => notes.push(note), undefined, undefined, 20);
    planners.push(made);
    const first = await made.ask(order('/quiet.part.yaml')).reply;
    const thread = made.threadId;
    assert.ok(first?.plan && thread !== undefined);
    while (made.threadId !== undefined) await new Promise((next) => setTimeout(next, 10));
    assert.deepEqual(await made.ask(order('/quiet.part.yaml')).reply, first);
    assert.notEqual(made.threadId, thread);
    assert.deepEqual(notes, []);
  }).timeout(60_000);

  it('plans what the same part is planned to in its own thread', async () => {
    const reply = await planner().ask(order('/p.part.yaml')).reply;
    const { planFor } = await import('../../server/src/planning/plan-cache');
    const own = planFor(checkPart(PART, shop))!;
    assert.ok(reply?.plan);
    assert.deepEqual(
      reply.plan.setups.map((s) => [s.setup.up?.name, s.setup.cuts.map((c) => c.name)]),
      own.setups.map((s) => [s.setup.up?.name, s.setup.cuts.map((c) => c.name)]),
    );
    assert.deepEqual(reply.plan.time, own.time);
  });

  it('leaves an order that is called off, waiting or begun, and does the next', async () => {
    const p = planner();
    const begun = p.ask(order('/a.part.yaml'));
    const waiting = p.ask(order('/b.part.yaml'));
    const last = p.ask(order('/c.part.yaml', 'findings'));
    waiting.cancel();
    begun.cancel();
    assert.deepEqual(await Promise.all([begun.reply, waiting.reply]), [undefined, undefined]);
    assert.ok((await last.reply)?.findings);
    last.cancel();
    assert.deepEqual(notes, [], 'calling off is no failure');
  });

  it('does what is more urgent first, and what was called off for it afterwards, to its end', async () => {
    const log = join(folder, 'asked');
    const p = planner(wrapped('counting.js', `fs.appendFileSync(${JSON.stringify(log)}, m.number + ' ');`));
    const ended: string[] = [];
    const quiet = p.ask({ ...order('/a.part.yaml'), urgency: 'quiet' });
    const asked = p.ask(order('/b.part.yaml'));
    const replies = [quiet.reply.finally(() => ended.push('quiet')), asked.reply.finally(() => ended.push('asked'))];
    for (const reply of await Promise.all(replies)) assert.ok(reply?.plan);
    assert.deepEqual(ended, ['asked', 'quiet']);
    // on a slow machine the first is called off before the thread is up
    assert.match(readFileSync(log, 'utf8'), /^(?:1 )?2 1 $/, 'once more, not again and again');
    assert.deepEqual(notes, []);
  });

  it('is replaced when it dies, and the order is done by the next', async () => {
    const flag = JSON.stringify(join(folder, 'died'));
    const p = planner(
      wrapped('dying.js', `if (!fs.existsSync(${flag})) { fs.writeFileSync(${flag}, ''); process.exit(3); }`),
    );
    assert.ok((await p.ask(order('/a.part.yaml')).reply)?.plan);
    assert.equal(notes.length, 1);
  });

  it('is ended when it hangs, and gives an order up after the second time', async () => {
    const p = planner(wrapped('hanging.js', `if (m.path.startsWith('/bad')) for (;;);`), 1500);
    assert.equal(await p.ask(order('/bad.part.yaml')).reply, undefined);
    assert.deepEqual(notes, [
      'the thread beside is started again: it took too long',
      'the thread beside is started again: it took too long',
      '/bad.part.yaml: `plan` could not be worked out: it took too long',
    ]);
  });

  it('tells why where the part cannot be planned at all, and serves the next', async () => {
    const p = planner(wrapped('leaving.js', `if (m.path.startsWith('/bad')) process.exit(1);`));
    const bad = p.ask(order('/bad.part.yaml'));
    const good = p.ask(order('/good.part.yaml'));
    assert.equal(await bad.reply, undefined);
    assert.match(notes.at(-1)!, /could not be worked out: it ended/);
    assert.ok((await good.reply)?.plan);
  });
});
