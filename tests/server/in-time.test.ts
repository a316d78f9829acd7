/** In time: nobody waits for judging, what comes late is what would have come at once, and what is called off is left. */
import assert from 'node:assert/strict';
import { CancellationTokenSource } from 'vscode-languageserver-protocol/node';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkPart } from '../../server/src/rules/check';
import { EXPORT, type ExportAnswer } from '../../server/src/service/export-protocol';
import { chainOfHoles, cover, leaningPockets, vent } from '../bench/slow-parts';
import { someOf } from '../fuzz/runs';
import { Client, type PlainDiagnostic } from './client';

const URI = 'file:///slow/part.part.yaml';
const SLOW = chainOfHoles(6);
/** So slow that nothing of it is over before other requests have had their turn. */
const SLOWEST = vent(14);

const told = (diagnostics: readonly PlainDiagnostic[]) => diagnostics.map((d) => `${String(d.code)} ${d.message}`);
const whole = (text: string) => checkPart(text, builtinShop()).findings.map((f) => `${f.rule} ${f.message}`);

/** Pulls until nothing follows that was not there: the planner's hints, which come after a quiet moment, left out. */
async function all(client: Client, uri: string, wanted: number): Promise<string[]> {
  for (;;) {
    const known = client.refreshes;
    const found = told(await client.diagnostics(uri)).filter((t) => !/^(cost|setup\/more)/.test(t));
    if (found.length >= wanted) return found;
    await client.refreshed(known);
  }
}
const rulesAlone = (text: string) => whole(text).filter((t) => !/^(cost|setup\/more)/.test(t));

describe('in time, over a connection', function () {
  this.timeout(120_000);
  let client: Client;
  const start = async (refreshes: boolean) => {
    client = await Client.start({ refreshes });
  };
  afterEach(async () => {
    assert.equal(await client.stop(), 0);
    assert.equal(client.stderr, '');
  });

  // Each without a connection in tests/fuzz/cut-short.test.ts.
  const slow = [
    ['a pattern on itself', vent(3)],
    ['leaning pockets', leaningPockets(3)],
    ['holes into each other', SLOW],
    ['many holes apart', cover(120)],
  ] as const;
  for (const [name, text] of someOf(slow, 2))
    it(`what follows is in the end what a check finds at once: ${name}`, async () => {
      await start(true);
      client.open(URI, text);
      const expected = rulesAlone(text);
      assert.deepEqual(await all(client, URI, expected.length), expected);
    });

  it('an editor that cannot be asked to ask again gets everything in one answer', async () => {
    await start(false);
    client.open(URI, SLOW);
    assert.deepEqual(told(await client.diagnostics(URI)), whole(SLOW));
  });

  it('answers about this part and others come before its findings are complete', async () => {
    await start(false);
    const other = 'file:///slow/other.part.yaml';
    client.open(other, 'part: other\nunits: mm\nbody: { x: 40, y: 30, z: 10 }\n');
    client.open(URI, SLOWEST);
    let isFound = false;
    void client.diagnostics(URI).then(
      () => {
        isFound = true;
      },
      () => {},
    );
    await Promise.all([
      client.ask('textDocument/hover', URI, 'diameter'),
      client.ask('textDocument/completion', URI, 'face: ', 6),
      client.connection.sendRequest('textDocument/documentSymbol', { textDocument: { uri: URI } }),
      client.diagnostics(other),
    ]);
    assert.equal(isFound, false);
  });

  it('an export waits for what stands against the part, and nobody waits for the export', async () => {
    await start(false);
    const text = `${SLOW}  beside: { kind: hole, face: top, at: { x: 400, y: 60 }, diameter: 5, depth: 5 }\n`;
    client.open(URI, text);
    const order: string[] = [];
    const exported = client.connection
      .sendRequest<ExportAnswer>(EXPORT, { uri: URI, name: 'chain.dxf', face: 'top' })
      .finally(() => order.push('export'));
    // One after the other: what is at work in slices lets all of them through.
    for (let i = 0; i < 4; i++) {
      await client.ask('textDocument/completion', URI, 'face: ', 6);
      order.push('key');
    }
    const answer = await exported;
    assert.deepEqual(order, ['key', 'key', 'key', 'key', 'export']);
    const errors = checkPart(text, builtinShop()).findings.filter((f) => f.severity === 'error').length;
    assert.ok(errors > 0 && 'notes' in answer, JSON.stringify(answer));
    assert.match(answer.notes.join(' '), new RegExp(`finds ${errors === 1 ? 'an error' : `${errors} errors`} in it`));
  });

  it('a request that is called off is answered so while the findings that it waited for are worked out', async () => {
    await start(false);
    client.open(URI, SLOWEST);
    const ask = () => {
      const source = new CancellationTokenSource();
      const params = { textDocument: { uri: URI }, identifier: 'scribeline' };
      const answer = client.connection.sendRequest('textDocument/diagnostic', params, source.token);
      const end = answer.then(
        () => 'answered',
        (failure: { code?: number }) => failure.code,
      );
      return { source, end };
    };
    const [called, kept] = [ask(), ask()];
    // Not before it is being worked at.
    await client.ask('textDocument/hover', URI, 'diameter');
    called.source.cancel();
    assert.equal(await Promise.race([called.end, kept.end.then((end) => `kept: ${end}`)]), -32800);
    kept.source.cancel();
    assert.equal(await kept.end, -32800);
  });

  it('a text that was replaced is not judged to its end: the newest one is what is told', async () => {
    await start(false);
    client.open(URI, SLOWEST);
    const first = client.diagnostics(URI);
    await client.ask('textDocument/hover', URI, 'diameter');
    const plain = 'part: plain\nunits: mm\nbody: { x: 40, y: 30, z: 10 }\n';
    client.edit(URI, [
      { range: { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } }, newText: plain },
    ]);
    assert.deepEqual(told(await client.diagnostics(URI)), whole(plain));
    assert.deepEqual(told(await first), whole(plain));
  });

  it('while rules are still at work, what they found before stays where its text still stands', async () => {
    await start(true);
    client.open(URI, SLOW);
    const expected = rulesAlone(SLOW);
    assert.ok(expected.length > 3, 'the part has something to find');
    await all(client, URI, expected.length);
    client.replace(URI, 'depth: 5', 'depth: 5.5');
    const meanwhile = await client.diagnostics(URI);
    assert.ok(meanwhile.length > 0);
    const changed = rulesAlone(client.text(URI));
    for (;;) {
      const known = client.refreshes;
      const found = told(await client.diagnostics(URI)).filter((t) => !/^(cost|setup\/more)/.test(t));
      if (JSON.stringify(found) === JSON.stringify(changed)) break;
      await client.refreshed(known);
    }
  });

  it('figures and fixes of a slow part are the same as at once', async () => {
    await start(false);
    client.open(URI, SLOW);
    const { figuresAtHand } = await import('../../server/src/report/at-hand');
    const own = checkPart(SLOW, builtinShop());
    const figures = await client.connection.sendRequest('scribeline/facts', { uri: URI });
    assert.deepEqual(figures, JSON.parse(JSON.stringify(figuresAtHand(own))));
    const [finding] = await client.diagnostics(URI);
    const actions = await client.actions(URI, finding!, ['quickfix']);
    const { fixesFor } = await import('../../server/src/rules/check');
    const titles = own.findings
      .filter((f) => own.tree.locate(f.span).start === own.tree.locate(own.findings[0]!.span).start)
      .flatMap((f) => fixesFor(own, f).map((x) => x.title));
    for (const title of titles)
      assert.ok(
        actions.some((a) => a.title === title),
        title,
      );
  });
});
