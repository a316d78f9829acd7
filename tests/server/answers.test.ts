/** The built server over a real connection: hover, completion, outline, folding, definition, references, rename. */
import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type {
  CompletionItem,
  DocumentSymbol,
  FoldingRange,
  Hover,
  InlayHint,
  Location,
  MarkupContent,
  WorkspaceEdit,
} from 'vscode-languageserver-protocol';
import type { AtHandAnswer, StarterAnswer } from '../../server/src/service/starter/protocol';
import { Client } from './client';

const PART = `# one
# two
part: plate
units: mm
material: aluminium-6061-t6
parameters:
  pitch: 36 # between the screws
  wall: 1/4 in
body: { x: 60, y: 40, z: 16 }
features:
  seat:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 22 H7
    depth: 7
    bottom: flat
  shaft:
    kind: hole
    face: top
    from: seat
    at: { x: center, y: center }
    diameter: 12
    depth: through
  mount:
    kind: hole
    face: front
    at: { x: center, z: 8 }
    pattern: { line: { x: pitch, count: 2 } }
    thread: M5
    depth: wall + 7.65
    thread-depth: 9
datums: { A: bottom, B: seat }
tolerances:
  - { position: 0.1, of: mount, datums: [A, B] }
setups:
  first:
    up: top
    hold: { vise: small-vise, jaws: [front, back], grip: 6, stop: left }
    cuts: [seat, shaft]
    tools: { seat: em-10 }
`;
const SHOP = `shop: campus
units: mm
machines:
  mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.1 kW } }
vises:
  small-vise: { jaw: { width: 80, height: 28 }, opens: 80 }
holders:
  short: { diameter: 34, length: 50 }
tools:
  em-10: { kind: end-mill, diameter: 10, flutes: 3, flute-length: 22, reach: 26, shank: 10, holder: short }
  tap-m5: { kind: tap, thread: M5, chamfer: plug, reach: 22 }
`;

describe('answers over a connection', () => {
  let client: Client;
  let folder: string;
  let part: string;
  let shop: string;

  before(async () => {
    folder = mkdtempSync(join(tmpdir(), 'scribeline-answers-'));
    mkdirSync(join(folder, 'parts'));
    writeFileSync(join(folder, 'campus.shop.yaml'), SHOP);
    writeFileSync(join(folder, 'parts/other.part.yaml'), PART.replace('part: plate', 'part: other'));
    part = pathToFileURL(join(folder, 'parts/plate.part.yaml')).href;
    shop = pathToFileURL(join(folder, 'campus.shop.yaml')).href;
    client = await Client.start({
      roots: [pathToFileURL(folder).href],
      initializationOptions: { pagesUri: 'file:///pages' },
    });
  });
  beforeEach(() => {
    client.open(part, PART);
    client.open(shop, SHOP);
  });
  after(async () => {
    assert.equal(await client.stop(), 0);
    assert.equal(client.stderr, '');
    rmSync(folder, { recursive: true, force: true });
  });

  const hover = async (needle: string, shift = 0, uri = part) => {
    const found = await client.ask<Hover | null>('textDocument/hover', uri, needle, shift);
    return found ? (found.contents as MarkupContent).value : '';
  };
  const labels = async (needle: string, shift: number, uri = part) =>
    (await client.ask<CompletionItem[]>('textDocument/completion', uri, needle, shift)).map((i) => i.label);
  const item = async (needle: string, shift: number, label: string) =>
    (await client.ask<CompletionItem[]>('textDocument/completion', part, needle, shift)).find((i) => i.label === label);

  describe('hover', () => {
    it('a length: both units, and the limits of its fit (ISO 286: 22 H7 is +0.021 / 0)', async () => {
      const text = await hover('22 H7', 1);
      assert.match(text, /22 mm \(0\.86614 in\)/);
      assert.match(text, /22 mm \(0\.86614 in\) to 22\.021 mm/);
      assert.match(text, /0 \/ \+0\.021 mm/);
    });
    it('an expression comes to its value', async () => assert.match(await hover('wall + 7.65', 2), /14 mm/));
    it('a fraction of an inch', async () => assert.match(await hover('1/4 in', 1), /6\.35 mm \(0\.25 in\)/));
    it('a key: what it is', async () => assert.match(await hover('thread-depth:', 3), /thread/i));
    it('an enum value: what it means', async () => assert.match(await hover('flat', 1), /flat/));
    it('a mention: what it names', async () => {
      assert.match(await hover('from: seat', 8), /hole on top, 22 mm, 7 mm deep/);
      assert.match(await hover('em-10', 2), /end-mill 10 mm, 3 flutes, reach 26 mm/);
    });
    it('a finding: rule, numbers, formula, limit and its source', async () => {
      client.replace(part, 'body: { x: 60', 'body: { x: 41.4');
      const thin = (await client.diagnostics(part)).find((d) => d.code === 'wall/thin');
      assert.ok(thin, 'the screws come too near the sides');
      const found: Hover = await client.connection.sendRequest('textDocument/hover', {
        textDocument: { uri: part },
        position: thin.range.start,
      });
      const text = (found.contents as MarkupContent).value;
      assert.match(text, /\[wall\/thin\]\(file:\/\/\/pages\/wall\/thin\.md\)/);
      assert.match(text, /thickness 0\.6 mm/);
      assert.match(text, /limit 0\.8 mm/);
      assert.doesNotMatch(text, /[a-z]_(mm|deg|n)\b/, 'keys are for programs');
      assert.match(text, /`metal 0\.8 mm`.*Source: \w+/);
    });
    it('a feature: what it is, and what was taken where nothing is written', async () => {
      const text = await hover('mount:', 2);
      assert.match(text, /`mount`: hole on front, M5, 14 mm deep, 2 of them/);
      assert.match(text, /`diameter` 4\.2 mm \(0\.16535 in\): .*tap drill/);
      assert.match(text, /`point` 118°: /);
    });
    it('nothing where nothing is', async () => assert.equal(await hover('# two', 3), ''));
  });

  describe('completion', () => {
    const type = (old: string, text: string) => client.replace(part, old, text);
    it('keys that may still stand in a feature, needed ones first', async () => {
      type('    bottom: flat\n', '    bottom: flat\n    \n');
      const found = await labels('bottom: flat\n    ', 17);
      assert.ok(found.includes('counterbore') && found.includes('note'));
      assert.ok(!found.includes('diameter'), 'is there already');
      assert.ok(!found.includes('corner-radius'), 'is a pocket’s');
    });
    it('kinds, each with what it is', async () => {
      type('kind: hole', 'kind: ');
      const found = await client.ask<CompletionItem[]>('textDocument/completion', part, 'kind: ', 6);
      assert.deepEqual(found.map((i) => i.label).sort(), [
        'chamfer',
        'contour',
        'edge-round',
        'engraving',
        'groove',
        'hole',
        'keyway',
        'pocket',
        'slope',
        'slot',
        'step',
      ]);
      for (const i of found) assert.ok((i.detail ?? '').length > 10, i.label);
    });
    it('faces', async () => {
      type('face: front', 'face: ');
      assert.deepEqual((await labels('face: \n', 6)).sort(), ['back', 'bottom', 'front', 'left', 'right', 'top']);
    });
    it('features, but not the one being written', async () => {
      type('from: seat', 'from: ');
      const found = await labels('from: \n', 6);
      assert.ok(found.includes('seat') && found.includes('mount') && !found.includes('shaft'));
    });
    it('tools, with what they are', async () => {
      type('seat: em-10', 'seat: ');
      assert.match((await item('tools: { seat: ', 15, 'em-10'))?.detail ?? '', /end-mill 10 mm/);
    });
    it('threads, those with a tap on hand first, with the tap drill (ISO 2306: M5 4.2)', async () => {
      type('thread: M5', 'thread: ');
      const found = await client.ask<CompletionItem[]>('textDocument/completion', part, 'thread: \n', 8);
      assert.equal(found[0]?.label, 'M5');
      assert.match(found[0]?.detail ?? '', /tap drill 4\.2 mm \(77 % of thread\), tap in the shop: tap-m5/);
      assert.match(found.find((i) => i.label === 'M6')?.detail ?? '', /no tap/);
    });
    it('materials, with density', async () => {
      type('material: aluminium-6061-t6', 'material: ');
      assert.match((await item('material: ', 10, 'aluminium-6061-t6'))?.detail ?? '', /2\.7 g\/cm³/);
    });
    it('parameters in an expression: only the last word is replaced', async () => {
      type('wall + 7.65', 'wall + pi');
      const found = await item('wall + pi', 9, 'pitch');
      assert.ok(found);
      const edit = found.textEdit as { range: { start: { character: number } } };
      assert.equal(edit.range.start.character, client.position(part, 'wall + pi', 7).character);
    });
    it('whole features where a feature may begin', async () => {
      type('datums:', '  \ndatums:');
      const found = await labels('thread-depth: 9\n  ', 18);
      assert.ok(found.includes('new pocket'), found.join());
    });
    it('nothing in a comment', async () => assert.deepEqual(await labels('# between', 9), []));
  });

  describe('outline and folding', () => {
    it('features with kind and face, setups, parameters', async () => {
      const symbols: DocumentSymbol[] = await client.connection.sendRequest('textDocument/documentSymbol', {
        textDocument: { uri: part },
      });
      const features = symbols.find((s) => s.name === 'features')!;
      assert.deepEqual(
        features.children!.map((c) => [c.name, c.detail]),
        [
          ['seat', 'hole top 22 H7'],
          ['shaft', 'hole top 12'],
          ['mount', 'hole front M5'],
        ],
      );
      assert.deepEqual(
        symbols.find((s) => s.name === 'setups')!.children!.map((c) => c.name),
        ['first'],
      );
    });
    it('features, sections and runs of comments fold', async () => {
      const folds: FoldingRange[] = await client.connection.sendRequest('textDocument/foldingRange', {
        textDocument: { uri: part },
      });
      const seat = client.position(part, '  seat:').line;
      assert.ok(
        folds.some((f) => f.startLine === seat && f.endLine === seat + 6),
        JSON.stringify(folds),
      );
      assert.ok(folds.some((f) => f.startLine === 0 && f.endLine === 1 && f.kind === 'comment'));
    });
  });

  describe('numbers beside the text', () => {
    /** `em-10, 13 to 20 s`, `lacks M6 tap` */
    const CUT = /^(lacks .+|[\w.-]+, \d.* (s|min))$/;
    const beside = async (): Promise<[string, string][]> => {
      const all = { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } };
      const hints: InlayHint[] = await client.connection.sendRequest('textDocument/inlayHint', {
        textDocument: { uri: part },
        range: all,
      });
      const lines = client.text(part).split('\n');
      return hints.map((h) => [lines[h.position.line]!.slice(0, h.position.character).trim(), String(h.label)]);
    };
    it('what an expression, a fit, a thread and a way through come to', async () =>
      assert.deepEqual(
        (await beside()).filter(([, label]) => !CUT.test(label)),
        [
          ['wall: 1/4 in', '= 6.35 mm'],
          ['diameter: 22 H7', '+0.021 / 0 mm'],
          ['depth: through', '= 9 mm'],
          ['thread: M5', 'drill 4.2 mm, 77 % of thread'],
          ['depth: wall + 7.65', '= 14 mm'],
          ['thread-depth: 9', '1.8 × D'],
        ],
      ));
    it('the tool that decides each feature, and its time: a tap comes before its drill', async () => {
      const found = (await beside()).filter(([, label]) => CUT.test(label));
      assert.ok(found.length >= 2, 'the seat and the tapped holes');
      assert.ok(found.every(([text]) => /kind: \w+$/.test(text)));
    });
    it('what a screw’s name stands for (DIN 974-1: M5 10 across, 5.4 deep)', async () => {
      client.replace(part, '    diameter: 12\n', '    diameter: 5.5\n    counterbore: M5\n');
      assert.ok(
        (await beside()).some(([text, label]) => text === 'counterbore: M5' && label === 'diameter 10 mm, 5.4 mm deep'),
      );
    });
    it('only what is in sight', async () => {
      const range = { start: client.position(part, 'thread: M5'), end: client.position(part, 'thread: M5', 10) };
      const hints: InlayHint[] = await client.connection.sendRequest('textDocument/inlayHint', {
        textDocument: { uri: part },
        range,
      });
      assert.deepEqual(
        hints.map((h) => h.label),
        ['drill 4.2 mm, 77 % of thread'],
      );
    });
  });

  describe('names', () => {
    const definition = (needle: string, shift: number, uri = part) =>
      client.ask<Location | null>('textDocument/definition', uri, needle, shift);
    const rename = (needle: string, shift: number, newName: string, uri = part) =>
      client.ask<WorkspaceEdit>('textDocument/rename', uri, needle, shift, { newName });

    it('go to a feature, a parameter, a datum', async () => {
      assert.deepEqual((await definition('from: seat', 7))?.range.start, client.position(part, 'seat:'));
      assert.deepEqual((await definition('x: pitch', 4))?.range.start, client.position(part, 'pitch: 36'));
      assert.deepEqual((await definition('[A, B]', 1))?.range.start, client.position(part, 'A: bottom'));
    });
    it('go to a tool and a vise in the shop', async () => {
      const tool = await definition('em-10 }', 2);
      assert.equal(tool?.uri, shop);
      assert.deepEqual(tool?.range.start, client.position(shop, 'em-10:'));
      assert.equal((await definition('small-vise,', 3))?.uri, shop);
    });
    it('every mention of a feature', async () => {
      const found = await client.ask<Location[]>('textDocument/references', part, 'seat:', 1, {
        context: { includeDeclaration: true },
      });
      assert.equal(found.length, 5, JSON.stringify(found.map((f) => f.range.start)));
    });
    it('rename a feature: every mention, nothing else', async () => {
      const edit = await rename('from: seat', 7, 'bearing-seat');
      client.edit(part, edit.changes![part]!);
      assert.equal(client.text(part), PART.replaceAll(/\bseat\b/g, 'bearing-seat'));
    });
    it('rename a parameter inside expressions', async () => {
      const edit = await rename('wall + 7.65', 1, 'web');
      client.edit(part, edit.changes![part]!);
      assert.equal(client.text(part), PART.replace('wall: 1/4', 'web: 1/4').replace('wall + 7.65', 'web + 7.65'));
    });
    it('rename a tool from the part: the shop, this part, and the part that no editor has open', async () => {
      const edit = await rename('em-10 }', 2, 'big-mill');
      const touched = Object.keys(edit.changes!)
        .map((uri) => uri.split('/').at(-1))
        .sort();
      assert.deepEqual(touched, ['campus.shop.yaml', 'other.part.yaml', 'plate.part.yaml']);
    });
    it('a name that is none, or taken, is refused in a sentence', async () => {
      await assert.rejects(rename('from: seat', 7, 'Big Seat'), /small letters/);
      await assert.rejects(rename('from: seat', 7, 'mount'), /already/);
    });
  });

  it('a part to begin: of what the shop has by the text in its editor, clean and with its set-ups', async () => {
    const uri = part.replace('plate', 'begun');
    const rack =
      '\nrack:\n  - { form: flat-bar, material: pom-c, section: { width: 30, thickness: 20 }, offcuts: [70] }\n';
    client.open(shop, SHOP.replace('tools:', 'parallels: [14, 20]\ntools:') + rack);
    const ask = <T>(name: string, more: object = {}) =>
      client.connection.sendRequest<T>(`scribeline/${name}`, { uri, ...more });
    const atHand = await ask<AtHandAnswer>('atHand');
    assert.deepEqual(
      atHand.pieces.map((p) => `${p.label}: ${p.detail}`),
      ['flat-bar 30 x 20: pom-c, offcut of 70 mm', 'flat-bar 30 x 20: pom-c, to 1000 mm'],
    );
    const begun = await ask<StarterAnswer>('starter', { name: 'begun', template: 'plate', piece: 0 });
    assert.match(begun.newText, /^part: begun$/m);
    client.open(uri, begun.newText);
    assert.deepEqual(((await client.pull(uri)) as { readonly items: unknown }).items, []);
    client.close(uri);
    assert.equal(await ask('starter', { name: 'begun', template: 'plate', piece: 9 }), null);
    await assert.rejects(ask('starter', { name: 'begun', template: 'toString' }), /one of bearing-block/);
    client.open(shop, SHOP);
  });
});
