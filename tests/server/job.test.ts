/** A job over a real connection: its words, the progress on the way, being called off, one PDF of all sheets. */
import assert from 'node:assert/strict';
import { CancellationTokenSource, LSPErrorCodes, ProgressType } from 'vscode-languageserver-protocol/node';
import { JOB, type JobAnswer, type JobProgress, type JobView } from '../../server/src/service/job/protocol';
import { readPdf } from '../sheet/reading';
import { Client } from './client';
import { plate } from './plate';

const at = (name: string) => `file:///elsewhere/${name}`;
const URI = at('set.job.yaml');
const RAIL = `part: rail
material: aluminium-6061-t6
body: { x: 80, y: 20, z: 20 }
stock: { form: square-bar, sawn: [left, right] }
features:
  tie: { kind: hole, face: top, at: { x: 10, y: center }, diameter: 5.5, depth: through }
`;
const BLOCK = plate('block');
const JOB_TEXT = `job: set
mass-limit: 300 g
hours: 4
parts:
  rail: { spec: rail.part.yaml, quantity: 2 }
  block: { spec: block.part.yaml }
`;

describe('a job over a connection', function () {
  this.timeout(120_000);
  let client: Client;
  before(async () => {
    client = await Client.start();
    client.open(at('rail.part.yaml'), RAIL);
    client.open(at('block.part.yaml'), BLOCK);
    client.open(URI, JOB_TEXT);
  });
  after(() => client.stop());

  const ask = (more: object): Promise<JobAnswer | null> =>
    client.connection.sendRequest(JOB, { uri: URI, as: 'view', ...more });
  async function view(more: object = {}): Promise<JobView> {
    const answer = await ask(more);
    assert.ok(answer && 'view' in answer);
    return answer.view;
  }

  it('is told in words and shares; each part on the way, then cut list and day', async () => {
    const told: JobProgress[] = [];
    const listening = client.connection.onProgress(new ProgressType<JobProgress>(), 'a', (p) => void told.push(p));
    const { mass, hours, parts, bars, tools, day } = await view({ workDoneToken: 'a' });
    listening.dispose();
    const steps = ['rail', 'block', 'cut list and order of the day'];
    assert.deepEqual(
      told,
      steps.map((what, done) => ({ done, of: 3, what })),
    );
    assert.match(mass!.said, /^\d+\.\d g of 300 g, \d+\.\d g left$/);
    assert.ok(mass!.share! > 0.3 && mass!.share! < 1 && !mass!.isOver);
    assert.match(hours!.said, /h at the machine, of 4 h$/);
    // The sum of the job is told to a milligram.
    assert.ok(Math.abs(parts.reduce((sum, p) => sum + p.share, 0) - 1) < 1e-4);
    assert.deepEqual(
      parts.map(({ name, uri, pieces }) => [name, uri, pieces]),
      [
        ['rail', at('rail.part.yaml'), 2],
        ['block', at('block.part.yaml'), 1],
      ],
    );
    // What has no set-ups in its text was planned for it.
    assert.match(parts[0]!.setups, /^\d, planned$/);
    for (const { said, pieces } of bars.flatMap((b) => b.bars)) {
      const ends = pieces.flatMap((p) => [p.from, p.to]);
      assert.deepEqual(ends, ends.toSorted(), said);
      assert.ok(ends[0] === 0 && ends.at(-1)! <= 1, said);
    }
    assert.ok(tools.some((t) => /^drill ⌀5\.5 \(.*\)$/.test(t.said) && t.parts === 'rail'));
    assert.ok(day.steps.length >= 2 && !day.evenings);
  });

  it('is worked out anew when a part of it is edited', async () => {
    const before = await view();
    client.open(at('rail.part.yaml'), RAIL.replace('x: 80', 'x: 120'));
    const after = await view();
    const one = (v: JobView) => Number.parseFloat(v.parts.find((p) => p.name === 'rail')!.one);
    assert.ok(Math.abs(one(after) / one(before) - 1.5) < 0.02);
    client.open(URI, JOB_TEXT.replace('300 g', '100 g').replace('hours: 4', 'hours: 0.1'));
    const { mass, hours } = await view();
    assert.match(mass!.said, /g TOO MUCH$/);
    assert.ok(mass!.isOver && mass!.share! > 1 && hours!.isOver);
  });

  it('is called off at once, and everything else is answered meanwhile', async () => {
    const source = new CancellationTokenSource();
    const heard: string[] = [];
    client.connection.onProgress(new ProgressType<JobProgress>(), 7, ({ what }) => void heard.push(what));
    client.open(at('rail.part.yaml'), RAIL.replace('x: 80', 'x: 95'));
    const asked = client.connection.sendRequest(JOB, { uri: URI, as: 'pdf', workDoneToken: 7 }, source.token);
    const params = { textDocument: { uri: at('block.part.yaml') } };
    assert.ok((await client.connection.sendRequest<unknown[]>('textDocument/documentSymbol', params)).length > 0);
    source.cancel();
    await assert.rejects(asked, { code: LSPErrorCodes.RequestCancelled });
    await client.connection.sendRequest('textDocument/documentSymbol', params);
    assert.ok(!heard.includes('the sheet of block'));
  });

  it('is printed: its cover and every part’s sheet, in the language that is asked for', async () => {
    const answer = await ask({ as: 'pdf', language: 'de' });
    assert.ok(answer && 'base64' in answer);
    const pages = await readPdf(new Uint8Array(Buffer.from(answer.base64, 'base64')));
    const words = pages.map((p) => p.words);
    assert.match(words[0]!, /WAS JEDES TEIL BRAUCHT/);
    assert.equal(words.filter((w) => /(?<!ALLES )MITBRINGEN/.test(w)).length, 2);
    assert.ok(words.some((w) => /Stück 2/.test(w)));
  });

  it('says in a sentence why there is none', async () => {
    await assert.rejects(ask({ as: 'doc' }), /`as` must be `view` or `pdf`/);
    client.open(at('bare.job.yaml'), 'job: bare\nparts: {}\n');
    const bare = await ask({ uri: at('bare.job.yaml') });
    assert.ok(bare && 'trouble' in bare && /names no part/.test(bare.trouble));
    client.open(at('lost.job.yaml'), 'job: lost\nparts: { a: { spec: gone.part.yaml } }\n');
    const lost = await ask({ uri: at('lost.job.yaml') });
    assert.ok(lost && 'trouble' in lost && /None of the job’s parts/.test(lost.trouble));
    assert.equal(await ask({ uri: at('block.part.yaml') }), null);
  });
});
