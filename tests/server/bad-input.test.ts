/** Bad input over a real connection: one clear message at the right place, quickly, and the server lives on. */
import assert from 'node:assert/strict';
import { performance } from 'node:perf_hooks';
import { Client } from './client';

const URI = 'file:///w/odd.part.yaml';
const HEAD = 'part: odd\nunits: mm\nmaterial: aluminium-6061-t6\n';
const BODY = 'body: { x: 60, y: 40, z: 16 }\n';
const hole = (fields: string) =>
  `${HEAD}${BODY}features:\n  bore:\n    kind: hole\n    face: top\n    at: { x: center, y: center }\n${fields}`;

interface Case {
  readonly name: string;
  readonly text: string;
  /** Where the message must stand: the first place of this text. */
  readonly at?: string;
  readonly says: RegExp;
}

/** Each list holds the one before it ten times: a thousand million letters, were it ever spread out. */
const BOMB = `${HEAD}title: [&b0 [x, x]${Array.from({ length: 30 }, (_, i) => `, &b${i + 1} [${Array(10).fill(`*b${i}`).join(', ')}]`).join('')}]\n${BODY}`;

const CASES: readonly Case[] = [
  { name: 'a tab', text: `${HEAD}body:\n\tx: 60\n`, at: '\tx', says: /tab/i },
  { name: 'a duplicate key', text: `${HEAD}${BODY}body: { x: 1, y: 1, z: 1 }\n`, says: /body/ },
  { name: 'an alias bomb', text: BOMB, says: /anchor/i },
  { name: 'a merge key', text: `${HEAD}body: { <<: { x: 1 }, y: 2, z: 3 }\n`, says: /merge|<</i },
  { name: 'lone surrogates', text: `${HEAD}title: "a\ud800b"\n${BODY}`, says: /surrogate|character/i },
  {
    name: 'a 5 MB file',
    text: `${HEAD}${BODY}${'# padding padding padding padding padding padding padding\n'.repeat(85_000)}`,
    says: /million characters/,
  },
  { name: 'NaN', text: hole('    diameter: .nan\n    depth: 5\n'), at: '.nan', says: /./ },
  { name: 'infinity', text: hole('    diameter: .inf\n    depth: 5\n'), at: '.inf', says: /./ },
  { name: '1e308', text: hole('    diameter: 1e308\n    depth: 5\n'), at: '1e308', says: /./ },
  { name: 'a negative size', text: hole('    diameter: -5\n    depth: 5\n'), at: '-5', says: /./ },
  { name: 'a zero size', text: hole('    diameter: 0\n    depth: 5\n'), at: '0\n    depth', says: /./ },
  {
    name: 'an unknown kind',
    text: `${HEAD}${BODY}features:\n  bore:\n    kind: whole\n    face: top\n`,
    at: 'whole',
    says: /hole/,
  },
  { name: 'a wrong unit', text: hole('    diameter: 5 kg\n    depth: 5\n'), at: '5 kg', says: /kg/ },
  {
    name: 'an angle for a length',
    text: hole('    diameter: 5 deg\n    depth: 5\n'),
    at: '5 deg',
    says: /length|angle/,
  },
  {
    name: 'cyclic parameters',
    text: `${HEAD}parameters:\n  a: b + 1\n  b: a + 1\n${BODY}`,
    says: /itself|circle|cycl/i,
  },
  {
    name: 'a cyclic from',
    text: `${HEAD}${BODY}features:\n  a: { kind: hole, face: top, from: b, at: { x: 9, y: 9 }, diameter: 5, depth: 2 }\n  b: { kind: hole, face: top, from: a, at: { x: 9, y: 9 }, diameter: 5, depth: 2 }\n`,
    says: /itself|circle|cycl/i,
  },
  {
    name: 'a pattern of a thousand million',
    text: hole('    pattern: { line: { x: 1, count: 1e9 } }\n    diameter: 5\n    depth: 5\n'),
    says: /500|count/,
  },
  { name: 'several documents', text: `${HEAD}${BODY}---\n${HEAD}${BODY}`, says: /document/ },
  { name: 'no document', text: '', says: /./ },
  { name: 'a list for a part', text: '- a\n- b\n', says: /./ },
  { name: 'deep nesting', text: `${HEAD}body: ${'['.repeat(3000)}\n`, says: /./ },
  { name: 'an open brace', text: `${HEAD}body: { x: 60, y: 40\nfeatures: {}\n`, says: /./ },
];

describe('bad input over a connection', () => {
  let client: Client;
  before(async () => {
    client = await Client.start();
    client.open('file:///w/warm.part.yaml', hole('    diameter: 5\n    depth: 5\n'));
    await client.diagnostics('file:///w/warm.part.yaml');
  });
  after(async () => {
    assert.equal(await client.stop(), 0);
    assert.equal(client.stderr, '');
  });

  for (const { name, text, at, says } of CASES) {
    it(name, async () => {
      client.open(URI, text);
      const begun = performance.now();
      const found = await client.diagnostics(URI);
      // Not a measurement: a second is what the reader would call hanging.
      assert.ok(performance.now() - begun < 1000, 'hangs');
      const errors = found.filter((d) => d.severity === 1);
      assert.ok(errors.length >= 1, 'nothing said');
      assert.ok(errors.length <= 3, `a cascade: ${errors.map((e) => e.message).join(' | ')}`);
      assert.ok(
        errors.some((e) => says.test(e.message)),
        errors.map((e) => e.message).join(' | '),
      );
      if (at !== undefined) {
        const place = client.position(URI, at);
        assert.ok(
          errors.some((e) => e.range.start.line === place.line),
          `not at ${place.line + 1}: ${JSON.stringify(errors)}`,
        );
      }
      for (const e of errors) {
        assert.ok(e.message.length > 15 && e.message.length < 400, e.message);
        assert.doesNotMatch(e.message, /undefined|NaN mm|\[object|Infinity/, e.message);
      }
      for (const method of ['textDocument/documentSymbol', 'textDocument/foldingRange'])
        await client.connection.sendRequest(method, { textDocument: { uri: URI } });
      for (const method of ['textDocument/hover', 'textDocument/completion', 'textDocument/definition'])
        await client.connection.sendRequest(method, {
          textDocument: { uri: URI },
          position: { line: 4, character: 6 },
        });
      if (errors[0]) await client.actions(URI, errors[0]);
    });
  }

  it('Windows line ends and a byte order mark change nothing', async () => {
    const text = hole('    diameter: 5\n    depth: 5.4 # deep\n');
    client.open(URI, text);
    const plain = await client.diagnostics(URI);
    client.open(URI, `\ufeff${text.replaceAll('\n', '\r\n')}`);
    assert.deepEqual(
      (await client.diagnostics(URI)).map((d) => [d.code, d.message, d.range.start.line]),
      plain.map((d) => [d.code, d.message, d.range.start.line]),
    );
  });

  it('any cut of a good part, and any letter of it changed, is survived', async () => {
    const text = hole('    pattern: { bolt-circle: { diameter: 30, count: 6 } }\n    thread: M5\n    depth: through\n');
    for (let i = 0; i < text.length; i += 7) {
      client.open(URI, text.slice(0, i));
      await client.diagnostics(URI);
      client.open(URI, `${text.slice(0, i)}]${text.slice(i + 1)}`);
      await client.diagnostics(URI);
    }
  });
});
