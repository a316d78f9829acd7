/** A group of features from another part's file: read there, called and laid here. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkPart, fixesFor } from '../../server/src/rules/check';
import type { CheckedPart } from '../../server/src/rules/checked-part';
import { applyEdits, locateEdits } from '../../server/src/text/edit';
import type { Others, OtherText } from '../../server/src/text/tree';

const SHOP = builtinShop();
const FACE = `part: motor-face
material: aluminium-6061-t6
parameters: { pitch: 31 mm }
body: { x: 42, y: 42, z: 10 }
features:
  bore: { kind: hole, face: top, at: { x: center, y: center }, diameter: 22 H7, depth: 2, bottom: flat }
  screws:
    kind: hole
    face: top
    at: { x: center, y: center }
    pattern: { grid: { x: { pitch: pitch, count: 2 }, y: { pitch: pitch - 4 mm, count: 2 } } }
    clearance: M3
    depth: through
  shaft: { kind: hole, face: top, from: bore, at: { right: 20 +0.1/-0, front: body.y / 2 }, diameter: 8, depth: through }
  rim: { kind: chamfer, edges: [{ rim: bore }], size: 0.4 }
`;
const HEAD = 'part: yoke\nmaterial: aluminium-6061-t6\nbody: { x: 80, y: 12, z: 60 }\n';

const found = (text: string, others: Others = new Map()): OtherText => ({ path: '/there', text, others });
const beside = (text: string, name = 'face.part.yaml'): Others => new Map([[name, found(text)]]);

function read(include: string, others = beside(FACE), head = HEAD): CheckedPart {
  return checkPart(`${head}include:\n${include}`, SHOP, undefined, others);
}

const ON_FRONT = 'from: face.part.yaml, prefix: motor-, place: { face: front, at: { x: center, z: 15 } }';

function placesOf({ part }: CheckedPart, name: string): string {
  const feature = part.featureByName.get(name);
  return feature ? `${feature.face} ${feature.places.map((p) => `${p.u},${p.v}`).join(' ')}` : 'none';
}

const told = ({ findings }: CheckedPart) => findings.map((f) => ({ rule: f.rule, of: f.of, message: f.message }));

describe('include', () => {
  it('brings features that are what they would be written out', () => {
    const written = `${HEAD}features:
  motor-bore: { kind: hole, face: front, at: { x: 40, z: 15 }, diameter: 22 H7, depth: 2, bottom: flat }
  motor-screws:
    kind: hole
    face: front
    at: { x: 40, z: 15 }
    pattern: { grid: { x: { pitch: 31, count: 2 }, z: { pitch: 27, count: 2 } } }
    clearance: M3
    depth: through
  motor-shaft: { kind: hole, face: front, from: motor-bore, at: { x: 41 +0/-0.1, z: 15 }, diameter: 8, depth: through }
  motor-rim: { kind: chamfer, edges: [{ rim: motor-bore }], size: 0.4 }
`;
    const one = read(`  motor: { ${ON_FRONT} }\n`);
    const other = checkPart(written, SHOP);
    assert.deepEqual(told(one), told(other));
    assert.ok(one.findings.length > 0);
    assert.equal(one.solid.measures.volumeMm3, other.solid.measures.volumeMm3);
    for (const name of ['motor-bore', 'motor-screws', 'motor-shaft'])
      assert.equal(placesOf(one, name), placesOf(other, name));
    const limits = ({ part }: CheckedPart) =>
      part.featureByName.get('motor-shaft')!.places[0]!.written!.map(({ length }) => length.tolerance?.upperMm);
    assert.deepEqual(limits(one), limits(other));
  });

  it('tells what is found of them at its entry, with where they stand in the other file', () => {
    const checked = read(`  motor: { ${ON_FRONT} }\n`);
    const { findings, tree } = checked;
    for (const { span, related } of findings.filter((f) => f.of.some((name) => name.startsWith('motor-')))) {
      const { start, end } = tree.locate(span);
      assert.equal(tree.text.slice(start, end), 'motor');
      assert.equal(related.at(-1)?.elsewhere?.file, 'face.part.yaml');
    }
  });

  it('lies as it lies there where nothing is said, and takes only what is named', () => {
    const checked = read('  g: { from: face.part.yaml, features: [bore, rim] }\n');
    assert.deepEqual([...checked.part.featureByName.keys()], ['bore', 'rim']);
    assert.equal(placesOf(checked, 'bore'), 'top 21,21');
  });

  it('comes twice, at two places, and turned', () => {
    const at = (x: number, deg: number) => `place: { face: front, at: { x: ${x}, z: 30 }, rotate: ${deg} }`;
    const checked = read(
      `  a: { from: face.part.yaml, features: [screws], prefix: a-, ${at(20, 90)} }\n` +
        `  b: { from: face.part.yaml, features: [screws], prefix: b-, ${at(60, 30)} }\n`,
    );
    assert.equal(placesOf(checked, 'a-screws'), 'front 6.5,14.5 33.5,14.5 6.5,45.5 33.5,45.5');
    const turned = checked.part.featureByName.get('b-screws')!.places.map(({ u, v }) => Math.hypot(u - 60, v - 30));
    assert.equal(turned.length, 4);
    for (const far of turned) assert.ok(Math.abs(far - Math.hypot(15.5, 13.5)) < 1e-6);
  });

  it('is not mirrored on a face of the other hand', () => {
    const there = `part: t\nbody: { x: 40, y: 40, z: 10 }\nfeatures:\n  l:\n    kind: hole\n    face: top\n    pattern: { places: [{ x: 20, y: 20 }, { x: 30, y: 20 }, { x: 20, y: 25 }] }\n    diameter: 3\n    depth: 5\n`;
    for (const face of ['back', 'bottom', 'left'] as const) {
      const [u, v] = { back: ['x', 'z'], bottom: ['x', 'y'], left: ['y', 'z'] }[face];
      const checked = read(
        `  g: { from: t.part.yaml, place: { face: ${face}, at: { ${u}: 30, ${v}: 30 } } }\n`,
        beside(there, 't.part.yaml'),
        'part: p\nbody: { x: 60, y: 60, z: 60 }\n',
      );
      assert.equal(placesOf(checked, 'l'), `${face} 30,30 20,30 30,35`);
    }
  });

  it('has other values of its parameters, and names of its own', () => {
    const checked = read(
      '  g: { from: face.part.yaml, features: [screws], rename: { screws: bolts }, parameters: { pitch: wide / 2 } }\n' +
        'parameters: { wide: 40 mm }\n',
    );
    assert.equal(placesOf(checked, 'bolts'), 'top 11,13 31,13 11,29 31,29');
    assert.equal(checked.part.parameters.get('wide')?.used, true);
  });

  it('keeps its sizes in a part of other units', () => {
    const checked = read(
      '  g: { from: face.part.yaml, features: [bore, shaft] }\n',
      beside(FACE),
      'part: yoke\nunits: in\nmaterial: aluminium-6061-t6\nbody: { x: 4, y: 4, z: 1 }\n',
    );
    const { places, ...shaft } = checked.part.featureByName.get('shaft')!;
    assert.ok(Math.abs(places[0]!.u - 22) < 1e-7);
    assert.ok('diameter' in shaft && Math.abs((shaft.diameter as { mm: number }).mm - 8) < 1e-7);
  });

  it('goes through files that include others', () => {
    const middle = `part: m\nbody: { x: 50, y: 50, z: 10 }\ninclude:\n  f: { from: face.part.yaml, features: [bore], prefix: in-, place: { at: { x: 10, y: 20 } } }\n`;
    const others: Others = new Map([['m.part.yaml', found(middle, beside(FACE))]]);
    assert.equal(placesOf(read('  g: { from: m.part.yaml, prefix: my- }\n', others), 'my-in-bore'), 'top 10,20');
  });

  const WRONG: readonly (readonly [what: string, include: string, says: RegExp])[] = [
    ['a file that is not there', '  g: { from: no.part.yaml }\n', /`no\.part\.yaml` was not read/],
    [
      'a feature that is not there',
      '  g: { from: face.part.yaml, features: [bores] }\n',
      /has no feature `bores`\. Did you mean `bore`/,
    ],
    ['a feature twice', '  g: { from: face.part.yaml, features: [bore, bore] }\n', /named twice/],
    [
      'what another stands on',
      '  g: { from: face.part.yaml, features: [shaft] }\n',
      /`shaft` names `bore`, which is not included/,
    ],
    [
      'a parameter that is not there',
      '  g: { from: face.part.yaml, parameters: { pich: 3 } }\n',
      /no parameter `pich`\. Did you mean `pitch`/,
    ],
    ['a name of its own for none', '  g: { from: face.part.yaml, rename: { bor: x } }\n', /no feature `bor`/],
    ['a name that is no name', '  g: { from: face.part.yaml, prefix: 3 }\n', /`3bore` is no name/],
    [
      'names that are taken',
      '  g: { from: face.part.yaml }\n  h: { from: face.part.yaml }\n',
      /`bore` is in this part already/,
    ],
    ['no file', '  g: { features: [bore] }\n', /needs `from`/],
    ['no map', '  g: face.part.yaml\n', /Write it like `g: \{ from:/],
  ];
  for (const [what, include, says] of WRONG)
    it(`tells once of ${what}`, () => {
      const { findings } = read(include, beside(FACE), 'part: p\nmaterial: pom\nbody: { x: 60, y: 60, z: 60 }\n');
      const wrong = findings.filter((f) => f.rule.startsWith('form/'));
      assert.equal(wrong.length, 1, JSON.stringify(wrong.map((f) => f.message)));
      assert.match(wrong[0]!.message, says);
    });

  it('tells of a feature that is not understood there, and of nothing that follows from it', () => {
    const checked = checkPart(
      `${HEAD}include:\n  g: { from: face.part.yaml, prefix: m- }\nfeatures:\n  own: { kind: hole, face: front, from: m-bore, at: { x: 3, z: 3 }, diameter: 3, depth: 2 }\n`,
      SHOP,
      undefined,
      beside(FACE.replace('depth: 2', 'depth: two')),
    );
    const wrong = checked.findings.filter((f) => f.severity === 'error');
    assert.equal(wrong.length, 1);
    assert.match(wrong[0]!.message, /`bore` of `face\.part\.yaml` is not understood/);
    assert.equal(checked.tree.text.slice(...Object.values(checked.tree.locate(wrong[0]!.span))), 'face.part.yaml');
  });

  it('refuses what has no meaning on another face, in a sentence', () => {
    const say = (features: string, place: string) =>
      read(
        `  g: { from: t.part.yaml, place: { ${place} } }\n`,
        beside(`part: t\nbody: { x: 40, y: 40, z: 10 }\nfeatures:\n${features}`, 't.part.yaml'),
        'part: p\nbody: { x: 60, y: 60, z: 60 }\n',
      ).findings[0]?.message;
    const hole = '  a: { kind: hole, face: top, at: { x: 5, y: 5 ±0.1 }, diameter: 3, depth: 4 }\n';
    const on = 'face: front, at: { x: 30, z: 30 }';
    assert.match(
      String(say(`${hole}  b: { kind: hole, face: left, at: { y: 5, z: 5 }, diameter: 3, depth: 4 }\n`, on)),
      /`b` lies on left, and the group on top/,
    );
    assert.match(
      String(say(`${hole}  s: { kind: step, face: top, along: front, width: 3, depth: 4 }\n`, on)),
      /`s` lies along front of its own part\. Write it/,
    );
    assert.match(String(say(hole, `${on}, rotate: 30`)), /has a tolerance on its place/);
    assert.match(
      String(
        say(
          `${hole}  t: { kind: engraving, face: top, at: { x: 9, y: 9 }, text: A, height: 3, depth: 0.3 }\n`,
          `${on}, rotate: 90`,
        ),
      ),
      /is text, which is not turned/,
    );
  });

  it('has its place one step further in: it is put there', () => {
    const checked = read('  g: { from: face.part.yaml, place: { x: center, z: 15, face: front } }\n');
    const [wrong] = checked.findings;
    assert.match(wrong!.message, /^`x` and `z` of `place` belong inside `at`\./);
    const [fix] = fixesFor(checked, wrong!);
    const text = applyEdits(checked.tree.text, locateEdits(checked.tree, fix!.edits));
    assert.match(text, /place: \{ at: \{ x: center, z: 15 \}, face: front \}/);
  });

  it('is the same object where nothing changed, and another where the other file did', () => {
    const before = read(`  motor: { ${ON_FRONT} }\n`);
    const text = before.tree.text.replace('part: yoke', 'part: yoke-2');
    const after = checkPart(text, SHOP, before);
    assert.equal(after.part.featureByName.get('motor-rim'), before.part.featureByName.get('motor-rim'));
    const changed = checkPart(text, SHOP, after, beside(FACE.replace('22 H7', '24 H7')));
    const bore = changed.part.featureByName.get('motor-bore');
    assert.ok(bore && 'diameter' in bore && bore.diameter.mm === 24);
  });

  it('is never changed by a fix', () => {
    const part = (features: string) =>
      `part: p\nmaterial: aluminium-6061-t6\nbody: { x: 60, y: 60, z: 20 }\n${features}`;
    const slot = '{ kind: pocket, face: top, at: { x: 5, y: 30 }, size: { x: 8, y: 30 }, corner-radius: 3, depth: 18 }';
    const own = checkPart(part(`features:\n  s: ${slot}\n`), SHOP);
    const brought = checkPart(
      part('include:\n  g: { from: t.part.yaml }\n'),
      SHOP,
      undefined,
      beside(own.tree.text, 't.part.yaml'),
    );
    assert.deepEqual(told(brought), told(own));
    const fixes = (checked: CheckedPart) => checked.findings.flatMap((finding) => fixesFor(checked, finding));
    assert.ok(fixes(own).length > 2);
    const { start, end } = brought.tree.locate({ block: '@include/g', from: 0, to: 1 });
    for (const { edits } of fixes(brought))
      for (const at of locateEdits(brought.tree, edits)) assert.ok(at.end < start - 2 || at.start > end + 22);
  });
});
