/** Mirroring in everyday words, which is told once and written out. The words are common practice, no source. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkPart, fixesFor } from '../../server/src/rules/check';
import { applyEdits, locateEdits } from '../../server/src/text/edit';

const SHOP = builtinShop();
const HEAD = 'part: a\nmaterial: aluminium-6061-t6\nbody: { x: 80, y: 50, z: 20 }\n';
const HOLE = 'kind: hole, face: top, at: { x: 20, y: 15 }, diameter: 5, depth: 12';
const CUT =
  'setups:\n  one: { up: top, hold: { vise: mill-vise-100, jaws: [front, back], grip: 6 }, zero: { x: left, y: front, z: top }, cuts: [f] }\n';

/** The one thing told of mirroring, with the texts after each way to write it. */
function told(text: string) {
  const checked = checkPart(text, SHOP);
  const found = checked.findings.filter((f) => /no word for mirroring/.test(f.message));
  assert.equal(found.length, 1, checked.findings.map((f) => f.message).join('\n'));
  assert.ok(found[0]!.message.split(/\s+/).length <= 40);
  const fixes = fixesFor(checked, found[0]!);
  for (const fix of fixes) assert.equal(fix.safe, false, fix.title);
  return { fixes, texts: fixes.map((fix) => applyEdits(text, locateEdits(checked.tree, fix.edits))) };
}

/** Where the middles of a part’s features lie, in the part’s own order. */
function middles(text: string): string {
  const { part, findings } = checkPart(text, SHOP);
  assert.deepEqual(
    findings.filter((f) => f.rule.startsWith('form/')).map((f) => f.message),
    [],
  );
  return part.features.map((f) => `${f.name} ${f.face} ${f.places.map((p) => `${p.u},${p.v}`).join(' ')}`).join('; ');
}

describe('mirroring', () => {
  it('of a feature is written out as a second one, cut where the first is', () => {
    const { texts } = told(`${HEAD}features:\n  f: { ${HOLE}, mirror: yz }\n${CUT}`);
    assert.equal(texts.length, 1);
    assert.equal(middles(texts[0]!), 'f top 20,15; f-mirrored top 60,15');
    assert.match(texts[0]!, /cuts: \[f, f-mirrored\]/);
    assert.doesNotMatch(texts[0]!, /mirror:/);
  });

  it('by one axis may be along it or about it: each is one way', () => {
    for (const word of [
      'mirror: x',
      'mirrored: X',
      'symmetry: { axis: x }',
      'Symmetrie: x',
      'reflect: [x]',
      'spiegeln: x-Achse',
    ]) {
      const { texts } = told(`${HEAD}features:\n  f: { ${HOLE}, ${word} }\n`);
      assert.deepEqual(
        texts.map(middles).sort(),
        ['f top 20,15; f-mirrored top 20,35', 'f top 20,15; f-mirrored top 60,15'],
        word,
      );
    }
    for (const [word, at] of [
      ['mirror: xz plane', '20,35'],
      ['mirror: left to right', '60,15'],
      ['symmetric: front-back', '20,35'],
    ])
      assert.deepEqual(
        told(`${HEAD}features:\n  f: { ${HOLE}, ${word} }\n`).texts.map(middles),
        [`f top 20,15; f-mirrored top ${at}`],
        word,
      );
    assert.equal(told(`${HEAD}features:\n  f: { ${HOLE}, mirror: true }\n`).texts.length, 2);
  });

  it('keeps remarks, lines of their own and a name that is taken', () => {
    const block = `features:\n  f-mirrored: { ${HOLE.replace('x: 20', 'x: 40')} }\n  f:   # the first\n    kind: hole\n    face: top\n    at: { x: 20, y: 15 }   # as drawn\n    diameter: 5\n    depth: 12\n    mirror: yz   # both sides\n`;
    const [text] = told(HEAD + block + CUT).texts;
    for (const remark of ['# the first', '# as drawn', '# both sides'])
      assert.equal(text!.split(remark).length, 2, text);
    assert.equal(middles(text!), 'f-mirrored top 40,15; f top 20,15; f-mirrored-2 top 60,15');
  });

  it('of what is turned comes out as its image', () => {
    const features = (more: string) =>
      `features:\n  f: { kind: pocket, face: top, at: { x: 20, y: 15 }, size: { x: 16, y: 8 }, rotate: 30, corner-radius: 3, depth: 4${more} }\n`;
    const [text] = told(HEAD + features(', mirror: yz')).texts;
    const { part, solid } = checkPart(text!, SHOP);
    assert.equal(part.features.length, 2);
    // whatever lies left of the middle lies right of it: the centre of what is left is in the middle
    assert.ok(Math.abs(solid.measures.centroid[0] - 40) < 1e-6);
  });

  it('as a kind of its own is the image of the feature that it names', () => {
    const { texts } = told(`${HEAD}features:\n  f: { ${HOLE} }\n  g: { kind: mirror, of: f, plane: yz }\n`);
    assert.deepEqual(texts.map(middles), ['f top 20,15; g top 60,15']);
    assert.equal(
      told(`${HEAD}features:\n  f: { ${HOLE} }\n  g: { kind: mirror, of: no, plane: yz }\n`).texts.length,
      0,
    );
    assert.equal(told(`${HEAD}features:\n  f: { ${HOLE} }\n  g: { kind: mirror, of: g, plane: yz }\n`).texts.length, 0);
  });

  it('of the part moves every feature, and what it names', () => {
    const { texts } = told(
      `${HEAD}mirror: yz\nfeatures:\n  f: { ${HOLE} }\n  g: { kind: hole, face: left, at: { y: 25, z: 10 }, diameter: 4, depth: 6 }\n${CUT}`,
    );
    assert.deepEqual(texts.map(middles), ['f top 60,15; g right 25,10']);
    assert.match(texts[0]!, /zero: \{ x: right,/);
  });

  it('in the middle has no copy to write', () => {
    const centred = HOLE.replace('x: 20, y: 15', 'x: center, y: center');
    assert.equal(told(`${HEAD}features:\n  f: { ${centred}, mirror: x }\n`).texts.length, 0);
  });
});
