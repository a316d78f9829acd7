/** The figures at hand over a real connection: for the status bar, above the part, and on its line. */
import assert from 'node:assert/strict';
import type { CodeLens, Hover, MarkupContent } from 'vscode-languageserver-protocol';
import type { Figure } from '../../server/src/report/at-hand';
import { Client } from './client';

const PART = `part: block
units: mm
material: aluminium-6061-t6
body: { x: 50, y: 40, z: 20 }
features:
  a: { kind: pocket, face: top, at: { x: 16, y: 20 }, size: { x: 16, y: 20 }, corner-radius: 4, depth: 10 }
  b: { kind: pocket, face: top, at: { x: 34, y: 20 }, size: { x: 16, y: 20 }, corner-radius: 4, depth: 10 }
`;

describe('figures at hand, over the connection', () => {
  let client: Client;
  before(async () => {
    client = await Client.start();
  });
  after(() => client.stop());

  const facts = (uri: string) => client.connection.sendRequest<readonly Figure[] | null>('scribeline/facts', { uri });

  it('are answered for a part, follow an edit, and are null for anything else', async () => {
    const uri = 'file:///f/block.part.yaml';
    client.open(uri, PART);
    const value = async (name: string) => (await facts(uri))?.find((f) => f.name === name)?.value;
    // 50·40·20 less two pockets of (16·20 − (4 − π)·16)·10, at 2.70 g/cm³.
    const mm3 = 40_000 - 2 * (320 - (4 - Math.PI) * 16) * 10;
    assert.equal(await value('mass'), `${((mm3 * 2.7) / 1000).toFixed(1)} g`);
    assert.equal(await value('thinnest wall'), '2 mm');
    const at = PART.split('\n').findIndex((l) => l.startsWith('  b:'));
    const start = PART.split('\n')[at]!.indexOf('34');
    client.edit(uri, [
      { range: { start: { line: at, character: start }, end: { line: at, character: start + 2 } }, newText: '33' },
    ]);
    assert.equal(await value('thinnest wall'), '1 mm');
    for (const f of (await facts(uri))!) assert.ok(f.how.length > 10, `${f.name} does not say how it was found`);
    assert.equal(await facts('file:///f/none.part.yaml'), null);
    client.open('file:///f/a.shop.yaml', 'shop: a\n');
    assert.equal(await facts('file:///f/a.shop.yaml'), null);
  });

  it('stand above the part and on its line', async () => {
    const uri = 'file:///f/other.part.yaml';
    client.open(uri, PART);
    const lenses = await client.connection.sendRequest<CodeLens[]>('textDocument/codeLens', { textDocument: { uri } });
    assert.match(lenses[0]!.command!.title, /thinnest wall 2 mm/);
    const hover = await client.connection.sendRequest<Hover | null>('textDocument/hover', {
      textDocument: { uri },
      position: { line: 0, character: 1 },
    });
    const text = (hover!.contents as MarkupContent).value;
    for (const name of ['mass', 'balance', 'stock', 'cut away', 'thinnest wall'])
      assert.ok(text.includes(`**${name}**`), `no ${name} in: ${text}`);
    assert.match(text, /shortest way through/);
  });
});
