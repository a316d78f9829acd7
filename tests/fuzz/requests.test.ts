/**
 * Requests of our own with anything in them, of parts with anything in them: always an answer, or an error of one clean
 * sentence; never a stack, and the server lives on.
 */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { ResponseError } from 'vscode-languageserver-protocol/node';
import { Client } from '../server/client';
import { type Change, changed } from '../text/samples';
import { patience, type Random, random, runs } from './runs';

const GIMBAL = resolve(__dirname, '../../examples/gimbal/parts');
const PARTS = ['cable-clamp', 'motor-mount'].map((n) => readFileSync(join(GIMBAL, `${n}.part.yaml`), 'utf8'));
const URI = 'file:///nowhere/odd.part.yaml';
const REQUESTS = ['picture', 'picture', 'measure', 'facts', 'export', 'export', 'formats'].map(
  (n) => `scribeline/${n}`,
);
/** Seldom: a plan takes as long as all the others together. */
const PLAN = 'scribeline/plan';

const ODD: readonly unknown[] = [
  ...[null, true, 0, -1, 1.5, 1e308, '', 'top', 'x.svg', '.dxf', 'a.stl', '../../x.3mf', '\u202e', [], {}, [[]]],
  ...[{ setup: 0, when: 'after' }, { setup: -3, when: 'before' }, { setup: 1e9, when: 'after' }, { setup: '0' }],
  ...[[0, 0, 0], [1, 2], [null, 1, 2], { uri: URI }, 'file:///%', 'untitled:x', '\u0000', 'x'.repeat(5000)],
];
const FIELDS = ['uri', 'moment', 'chordMm', 'version', 'a', 'b', 'atA', 'atB', 'name', 'face', 'when', '__proto__'];

function paramsOf(r: Random): unknown {
  if (r.below(8) === 0) return r.pick([null, 7, 'x', [], undefined, true]);
  const params: Record<string, unknown> = { uri: URI, name: r.pick(['a.svg', 'a.dxf', 'a.stl']) };
  if (r.below(3) === 0) Object.assign(params, { version: 1, a: 0, b: 1, atA: [0, 0, 0], atB: [1, 1, 1] });
  for (let n = r.below(4); n > 0; n--) params[r.pick(FIELDS)] = r.pick(ODD);
  return params;
}

const PUT = [
  '',
  'x',
  ' ',
  '\n',
  ': ',
  '{',
  '}',
  '[',
  '"',
  "'",
  '#',
  '- ',
  '0',
  '-',
  '9',
  '1e9',
  'null',
  '\u202e',
  '\ud83d',
];

/** A real part with a few damaged places: keystrokes, deletions, a quotation mark that swallows lines. */
function oddPart(r: Random): string {
  let text = r.pick(PARTS);
  for (let n = r.below(6); n > 0; n--) {
    const change: Change = { at: r.next(), drop: r.pick([0, 1, 1, 5, 40]), put: r.pick(PUT) };
    text = changed(text, change);
  }
  return text;
}

describe('requests with anything in them', function () {
  this.timeout(patience(120_000));
  let client: Client;
  before(async () => {
    client = await Client.start();
  });
  after(() => client.stop());

  it('are answered, or refused in a sentence', async () => {
    const r = random(71);
    for (let part = 0; part < runs(6); part++) {
      const text = oddPart(r);
      client.open(URI, text);
      for (let n = 0; n < 12; n++) {
        const [method, params] = [n === 0 && part % 3 === 0 ? PLAN : r.pick(REQUESTS), paramsOf(r)];
        const told = `${method} ${JSON.stringify(params)?.slice(0, 300)}\n${text}`;
        try {
          const answer = await client.connection.sendRequest<unknown>(method, params);
          assert.ok(answer === null || typeof answer === 'object', told);
        } catch (failure) {
          assert.ok(failure instanceof ResponseError, `${String(failure)} ${told}`);
          assert.match(failure.message, /^[A-ZÀ-Ý`][^\n]{10,300}[.!?`]$/, `${failure.message} ${told}`);
          assert.doesNotMatch(failure.message, /fault of its own|TypeError|undefined|\bat \w+ \(/, told);
        }
      }
      client.close(URI);
    }
    assert.equal(client.stderr, '');
  });
});
