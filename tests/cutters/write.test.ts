/** What is written into a shop: below what is there, every byte of which stays, and read back as what the list said. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { withTools } from '../../server/src/cutters/write';
import { resolveShop } from '../../server/src/model/shop';
import { readText } from '../../server/src/text/read';
import { draws } from '../fuzz/runs';
import { entries, read } from './read';

const LIST = 'kind;DC;APMX;ZEFP;name\nend mill;6,5;13;3;"A; ""b"""\nt-slot;16;;;\ndrill;8,5;;;x\n';
const EXCHANGE = `ISO-10303-21;HEADER;FILE_SCHEMA(('A'));ENDSEC;DATA;
#1=ITEM('EM6','end mill',(#2,#3));#2=NUMERICAL_VALUE('DC',$,#5,6.);#3=PROPERTY_VALUE_REPRESENTATION(#4,#6);
#4=PROPERTY(#5,$,'APMX');#5=UNIT('mm');#6=NUMERICAL_VALUE($,$,$,13.);ENDSEC;END-ISO-10303-21;`;

function written(shop: string, list: string): string {
  const next = withTools(shop, read(list, resolveShop(readText(shop)).tools).rows);
  assert.ok('text' in next, JSON.stringify(next));
  return next.text;
}

describe('cutters into a shop', () => {
  it('below the tools there, comments and layout kept, in each way that a shop may be written', () => {
    const shops = [
      'shop: s # mine\ntools: # drawer 2\n  mine: { kind: drill, diameter: 3 } # the good one\n  # to be bought\nrack: []\n',
      'shop: s\r\ntools:\r\n    mine:\r\n        kind: drill\r\n        diameter: 3\r\n',
      'shop: s\ntools: { mine: { kind: drill, diameter: 3 } }\n',
      'shop: s\ntools: {} # none\nunits: mm',
      'shop: s\ntools:\n',
      '# head\nshop: s',
    ];
    for (const shop of shops) {
      const text = written(shop, LIST);
      const read = resolveShop(readText(text));
      assert.deepEqual(read.problems, [], text);
      assert.deepEqual(read.tools.map((t) => t.name).slice(-2), ['em-6.5', 'dr-8.5'], text);
      const pieces = shop.split(/[{}\r\n]+/).filter((p) => p.trim() !== '');
      for (const piece of pieces) assert.ok(text.includes(piece.trim()), `${piece} stays in ${text}`);
      assert.equal(written(text, LIST), text, 'a second time nothing is new');
    }
  });

  it('not into a shop that cannot be read, and says why', () => {
    assert.match(JSON.stringify(withTools('shop: [', read(LIST).rows)), /cannot be read/);
    assert.match(JSON.stringify(withTools('shop: s\ntools: [a]\n', read(LIST).rows)), /no names with entries/);
  });

  it('whatever a list holds: it is read to its end, and every new entry is a tool of the shop', () => {
    const shop = 'shop: s # mine\ntools:\n  mine: { kind: drill, diameter: 3 }\n';
    const bits = fc.constantFrom(
      ...`'";,#()$*.\\\n\t \0`,
      '#1=',
      '\\X2\\',
      '"\n"',
      ';;',
      '/*',
      '((((',
      "'a",
      '-',
      '1e99',
      '\ud800',
      'ISO-10303-21;',
      'DC',
      '# x: {',
    );
    const place = fc.record({ at: fc.nat(400), cut: fc.nat(6), put: fc.array(bits, { maxLength: 4 }) });
    fc.assert(
      fc.property(fc.constantFrom(LIST, EXCHANGE), fc.array(place, { maxLength: 6 }), (list, places) => {
        let text = list;
        for (const { at, cut, put } of places) text = text.slice(0, at) + put.join('') + text.slice(at + cut);
        const next = withTools(shop, read(text).rows);
        assert.ok('text' in next && next.text.startsWith(shop.trimEnd()), text);
        assert.equal(resolveShop(readText(next.text)).tools.length, 1 + entries(read(text)).length);
      }),
      draws(1313, 60),
    );
  });

  it('whatever depth and length: a deep list is refused at its line, a circle of names ends', () => {
    const deep = EXCHANGE.replace("'end mill'", `${'('.repeat(50_000)}1${')'.repeat(50_000)}`);
    assert.match(read(deep).told.join(), /more than 24 deep/);
    const round = EXCHANGE.replace('#1=ITEM', '#8=ITEM_VERSION(#9);#9=ITEM(#8,#2);#1=ITEM');
    assert.equal(read(round).rows.length > 0, true);
    const long = `DC;kind\n${'8;\n'.repeat(30_000)}`;
    assert.match(read(long).told.join(), /only the first 20000/);
  });
});
