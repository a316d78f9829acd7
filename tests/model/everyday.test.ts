/** Everyday words and notation: told by what they mean, their size kept, one key away from what is written here. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { plainDimension } from '../../server/src/model/everyday/dimension';
import { FIELDS, FIELDS_OF, HEADER } from '../../server/src/model/everyday/everyday-words';
import { EVERYDAY_KINDS } from '../../server/src/model/everyday/kind-words';
import { FEATURE_KINDS, KINDS } from '../../server/src/model/feature-kinds';
import { partSchema } from '../../server/src/model/schema/part';
import { shapeOf } from '../../server/src/model/schema/shape';
import { checkPart, fixAllSafe, fixesFor } from '../../server/src/rules/check';
import { placed } from '../../server/src/rules/fixes';
import { applyEdits } from '../../server/src/text/edit';

const shop = builtinShop();
const keysOf = (kind: (typeof KINDS)[number]) => {
  const shape = shapeOf(FEATURE_KINDS[kind].schema);
  return shape.type === 'map' ? new Set(shape.keys.keys()) : new Set<string>();
};

const plate = (feature: string, body = '{ x: 70, y: 55, z: 24 }') => `part: camera-plate
units: mm
material: aluminium-6061-t6
body: ${body}
features:
  one:
${feature
  .split('\n')
  .map((line) => `    ${line}\n`)
  .join('')}`;

/** The messages on the text's own form, and what each fix makes of the text, best first. */
function told(text: string) {
  const checked = checkPart(text, shop);
  const findings = checked.findings.filter((f) => f.rule.startsWith('form/') || f.rule === 'thread/unknown');
  return findings.map((finding) => {
    const fixes = fixesFor(checked, finding);
    const texts = fixes.map((fix) => applyEdits(text, placed(fix.edits, checked.tree)!));
    return { message: finding.message, texts, fixes };
  });
}

/** The lines that differ once a text's only finding is cured by each of its fixes. */
function cured(feature: string): string[][] {
  const before = plate(feature).split('\n');
  const findings = told(plate(feature));
  assert.equal(findings.length, 1, JSON.stringify(findings.map((f) => f.message)));
  return findings[0]!.texts.map((text) =>
    text
      .split('\n')
      .filter((line) => !before.includes(line))
      .map((l) => l.trim()),
  );
}

const HOLE = 'kind: hole\nface: top\nat: { x: 20, y: 20 }\n';
const POCKET = 'kind: pocket\nface: top\nat: { x: 35, y: 27 }\n';

describe('everyday words', () => {
  // Marks by ISO 129-1 and ASME Y14.5; the words are common practice, no source.
  const ONE: readonly (readonly [feature: string, becomes: string])[] = [
    [`${HOLE}radius: 5\ndepth: 12`, 'diameter: 10'],
    [`${HOLE}r: 2.75\ndepth: 12`, 'diameter: 5.5'],
    [`${HOLE}radius: 1/4 in\ndepth: 12`, 'diameter: 2 * (1/4 in)'],
    [`${HOLE}dia: 6\ndepth: 12`, 'diameter: 6'],
    [`${HOLE}diameter: Ø22H7\ndepth: through`, 'diameter: 22H7'],
    [`${HOLE}diameter: ⌀ 6.5\ndepth: 12`, 'diameter: 6.5'],
    [`${HOLE}diameter: R3\ndepth: 12`, 'diameter: 6'],
    [`${HOLE}diameter: 6,5\ndepth: 12`, 'diameter: 6.5'],
    [`${HOLE}diameter: 6\ndepth: throught`, 'depth: through'],
    [`${HOLE}diameter: 6\ndepth: THRU`, 'depth: through'],
    [`${HOLE}diameter: 6\nthrough: true`, 'depth: through'],
    [`${HOLE}diameter: 6\ndeep: 12,5`, 'depth: 12.5'],
    [`${HOLE}thread: 4x M5\ndepth: 12\nthread-depth: 8`, 'thread: M5'],
    [`${HOLE}tap: M5\ndepth: 12\nthread-depth: 8`, 'thread: M5'],
    [`${HOLE}diameter: 22\nfit: H7\ndepth: through`, 'diameter: 22 H7'],
    [`${HOLE}diameter: 22\ntol: 0.05\ndepth: through`, 'diameter: 22 ±0.05'],
    ['kind: hole\nface: top\nat: [35, 27.5]\ndiameter: 6\ndepth: 10', 'at: { x: 35, y: 27.5 }'],
    ['kind: hole\nface: front\nat: [35, 12]\ndiameter: 6\ndepth: 10', 'at: { x: 35, z: 12 }'],
    ['kind: hole\nface: right\nat: 20 x 12\ndiameter: 6\ndepth: 10', 'at: { y: 20, z: 12 }'],
    ['kind: hole\nface: top\nat: [35, 27.5, 24]\ndiameter: 6\ndepth: 10', 'at: { x: 35, y: 27.5 }'],
    ['kind: hole\nface: top\nat: center\ndiameter: 6\ndepth: 10', 'at: { x: center, y: center }'],
    ['kind: hole\nface: top\nposition: { x: 20, y: 20 }\ndiameter: 6\ndepth: 10', 'position'],
    ['kind: hole\nface: top\nx: 20\ny: 18\ndiameter: 6\ndepth: 10', 'at: { x: 20, y: 18 }'],
    ['kind: hole\nface: up\nat: { x: 20, y: 20 }\ndiameter: 6\ndepth: 10', 'face: top'],
    ['kind: bore\nface: top\nat: { x: 20, y: 20 }\ndiameter: 6\ndepth: 10', 'kind: hole'],
    ['type: hole\nface: top\nat: { x: 20, y: 20 }\ndiameter: 6\ndepth: 10', 'kind: hole'],
    ['kind: drill\nface: top\nat: { x: 20, y: 20 }\ndiameter: 6\ndepth: 10', 'kind: hole'],
    ['kind: tapped-hole\nface: top\nat: { x: 20, y: 20 }\nthread: M5\ndepth: 12\nthread-depth: 8', 'kind: hole'],
    [`${POCKET}size: { x: 30, y: 20 }\nradius: 5\ndepth: 6`, 'corner-radius: 5'],
    [`${POCKET}size: 30 x 20\ncorner-radius: 5\ndepth: 6`, 'size: { x: 30, y: 20 }'],
    [`${POCKET}size: [30, 20]\ncorner-radius: 5\ndepth: 6`, 'size: { x: 30, y: 20 }'],
    ['kind: chamfer\nedges: top\nsize: 0.5x45', 'size: 0.5'],
    ['kind: chamfer\nedges: top\nsize: 0,5 x 45°', 'size: 0.5'],
    ['kind: fillet\nedges: top\nradius: 2', 'kind: edge-round'],
    [
      'kind: slot\nface: top\nends: [[15, 20], [40, 20]]\nwidth: 8\ndepth: 5',
      'ends: [{ x: 15, y: 20 }, { x: 40, y: 20 }]',
    ],
    [
      'kind: hole\nface: top\nat: { x: 35, y: 27 }\nbolt-circle: { diameter: 30, count: 4 }\ndiameter: 5\ndepth: 10',
      'pattern: { bolt-circle: { diameter: 30, count: 4 } }',
    ],
  ];
  for (const [feature, becomes] of ONE) {
    it(JSON.stringify(feature.split('\n').slice(-3).join(' | ')), () => {
      const [first, ...others] = cured(feature);
      assert.equal(others.length, 0);
      if (becomes === 'position') assert.deepEqual(first, ['at: { x: 20, y: 20 }']);
      else assert.deepEqual(first, [becomes]);
    });
  }

  const EITHER: readonly (readonly [feature: string, ...becomes: string[]])[] = [
    [`${POCKET}radius: 8\ndepth: 6`, 'diameter: 16', 'corner-radius: 8'],
    [`${POCKET}width: 30\nlength: 20\ncorner-radius: 5\ndepth: 6`, 'size: { x: 20, y: 30 }', 'size: { x: 30, y: 20 }'],
    [`${POCKET}size: 20\ndepth: 6`, 'size: { x: 20, y: 20 }', 'diameter: 20'],
    [`${HOLE}diameter: M5\ndepth: 12`, 'thread: M5', 'clearance: M5'],
    ['kind: chamfer\nedges: all\nsize: 0.5', 'edges: top', 'edges: [left, right, front, back, bottom, top]'],
  ];
  for (const [feature, ...becomes] of EITHER) {
    it(`offers both, none first: ${JSON.stringify(feature.split('\n').slice(-3).join(' | '))}`, () => {
      const [finding] = told(plate(feature));
      for (const text of becomes) assert.ok(finding!.message.includes(`\`${text}\``), finding!.message);
      const titles = finding!.fixes.map((f) => f.title);
      // What would leave something else wrong is told, and not offered.
      for (const title of titles)
        assert.ok(
          becomes.some((text) => title === `Write \`${text}\``),
          title,
        );
      assert.ok(titles.length >= 1);
      assert.ok(finding!.fixes.every((f) => f.equal && !f.safe));
      assert.deepEqual(fixAllSafe(checkPart(plate(feature), shop)), []);
    });
  }

  it('twelve thousand or twelve', () => {
    const said = plainDimension('12,500', { through: false, angle: false });
    assert.deepEqual(said?.texts, ['12.500', '12500']);
    assert.deepEqual(plainDimension('0,500', { through: false, angle: false })?.texts, ['0.500']);
  });

  it('bodies of numbers and of sides', () => {
    const of = (body: string) =>
      told(plate('kind: chamfer\nedges: top\nsize: 0.5', body)).map((f) => f.texts.map((t) => /body:.*/.exec(t)![0]));
    assert.deepEqual(of('70 x 55 x 24'), [['body: { x: 70, y: 55, z: 24 }']]);
    assert.deepEqual(of('[70, 55, 24]'), [['body: { x: 70, y: 55, z: 24 }']]);
    assert.deepEqual(of('70x55x24 mm'), [['body: { x: 70 mm, y: 55 mm, z: 24 mm }']]);
    assert.deepEqual(of('Ø40 x 25'), [['body: { diameter: 40, length: 25 }']]);
    assert.deepEqual(of('{ x: 60, diameter: 20 }'), [['body: { diameter: 20, length: 60, axis: x }']]);
    assert.deepEqual(of('{ Ø: 20, z: 60 }'), [['body: { diameter: 20, length: 60 }']]);
    assert.deepEqual(of('{ d: 20, l: 60 }'), [['body: { diameter: 20, length: 60 }']]);
    assert.deepEqual(of('{ length: 70, width: 55, height: 24 }'), [
      ['body: { x: 70, y: 55, z: 24 }', 'body: { y: 70, x: 55, z: 24 }'],
    ]);
  });

  it('are told all at once, and one round of fixes reads the part', () => {
    const text = plate(
      'type: bore\nside: top\ncenter: [35, 27.5]\nradius: 11 # of the ball bearing\ndeep: 7,5\nbottom: flat',
    ).replace('part:', 'name:');
    const checked = checkPart(text, shop);
    const after = applyEdits(text, fixAllSafe(checked));
    assert.ok(after.includes('# of the ball bearing'));
    const feature = checkPart(after, shop).part.featureByName.get('one');
    assert.ok(feature?.kind === 'hole', after);
    assert.deepEqual([feature.diameter.mm, feature.depth.mm, feature.face], [22, 7.5, 'top']);
    assert.deepEqual(
      feature.places.map((p) => [p.u, p.v]),
      [[35, 27.5]],
    );
  });

  it('a remark under another name leaves the feature in the part', () => {
    const text = plate(`${HOLE}diameter: 6\ndepth: 12\ncomment: for the cable`);
    const [finding] = told(text);
    assert.ok(finding);
    assert.ok(finding.message.includes('`note: for the cable`'), finding.message);
    const { part } = checkPart(text, shop);
    assert.equal(part.featureByName.get('one')?.kind, 'hole');
    assert.equal(checkPart(finding.texts[0]!, shop).part.featureByName.get('one')?.note, 'for the cable');
  });

  // In the spirit of the rest, and of other shops: what is meant, its size kept, by the first key or by two of the same rank.
  const MORE: readonly (readonly [text: string, becomes: readonly string[]])[] = [
    [`${HOLE}durchmesser: 8\ndepth: 12`, ['diameter: 8']],
    [`${HOLE}diameter: 8\ntiefe: 12,5`, ['depth: 12.5']],
    [`${HOLE}diameter: 8\ndepth: durchgehend`, ['depth: through']],
    [`${HOLE}diameter: 8\ndepth: durch`, ['depth: through']],
    [`${HOLE}gewinde: M5\ndepth: through`, ['thread: M5']],
    [`${HOLE}thread: M5\ndepth: 12\ngewindetiefe: 8`, ['thread-depth: 8']],
    [`${HOLE}diameter: 5.5\ncounterbore: 10x5\ndepth: through`, ['counterbore: { diameter: 10, depth: 5 }']],
    [`${HOLE}diameter: 5.5\ncounterbore: ø10 × 5.7\ndepth: through`, ['counterbore: { diameter: 10, depth: 5.7 }']],
    [`${HOLE}diameter: 5.5\ncountersink: 10 x 90°\ndepth: through`, ['countersink: { diameter: 10, angle: 90° }']],
    [`${HOLE}diameter: 5.5\nsenkung: M5\ndepth: through`, ['counterbore: M5', 'countersink: M5']],
    [`${HOLE}pattern: { bolt-circle: { radius: 10, count: 4 } }\ndiameter: 3\ndepth: 5`, ['{ diameter: 20, count']],
    [`${HOLE}pattern: { circle: { diameter: 20, count: 4 } }\ndiameter: 3\ndepth: 5`, ['{ bolt-circle: {']],
    [`${HOLE}pattern: { line: { x: 10, n: 3 } }\ndiameter: 3\ndepth: 5`, ['count: 3']],
    [`${POCKET}size: 20x10\ndepth: 5`, ['size: { x: 20, y: 10 }']],
    [`${POCKET}länge: 20\nbreite: 10\ndepth: 5`, ['size: { x: 20, y: 10 }', 'size: { x: 10, y: 20 }']],
    ['kind: tasche\nface: top\nat: { x: 35, y: 27 }\ndiameter: 20\ndepth: 5', ['kind: pocket']],
    ['kind: hole\nface: oben\nat: { x: 20, y: 20 }\ndiameter: 5\ndepth: 5', ['face: top']],
    ['kind: hole\nface: top\nat: { x: mitte, y: 20 }\ndiameter: 5\ndepth: 5', ['x: center']],
    [
      'kind: slot\nface: top\nfrom: { x: 10, y: 20 }\nto: { x: 30, y: 20 }\nwidth: 5\ndepth: 5',
      ['ends: [{ x: 10, y: 20 }, { x: 30, y: 20 }]'],
    ],
    ['kind: slot\nface: top\nstart: [10, 20]\nend: [30, 20]\nwidth: 5\ndepth: 5', ['ends: [{ x: 10, y: 20 }, {']],
    ['kind: chamfer\nedges: top\nsize: C0.5', ['size: 0.5']],
    ['kind: chamfer\nedges: top edges\nsize: 0.5', ['edges: top']],
    ['kind: chamfer\nedges: alle\nsize: 0.5', ['edges: top', 'edges: [left, right, front']],
  ];
  for (const [text, becomes] of MORE)
    it(`${text.split('\n').slice(1).join(', ')} → ${becomes.join(' or ')}`, () => {
      const [finding, ...others] = told(plate(text)).filter((f) => f.fixes.length > 0);
      assert.ok(finding && others.length === 0, JSON.stringify(told(plate(text)).map((f) => f.message)));
      assert.equal(finding.texts.length, becomes.length, finding.fixes.map((f) => f.title).join(' | '));
      for (const [i, piece] of becomes.entries()) assert.ok(finding.texts[i]!.includes(piece), finding.texts[i]);
      assert.equal(
        finding.fixes.every((f) => f.equal === true),
        becomes.length > 1,
      );
      assert.doesNotMatch(finding.message, /takes a map|and more/);
    });

  const HEAD = 'part: a\nunits: mm\nbody: { x: 60, y: 40, z: 16 }\n';
  const HELD = 'hold: { vise: mill-vise-100, jaws: [front, back], grip: 6 }';
  const WHOLE: readonly (readonly [text: string, becomes: string])[] = [
    [`${HEAD}stock: flat bar\n`, 'stock: { form: flat-bar }'],
    [`${HEAD}stock: { form: flat, extra: { left: 1 } }\n`, 'form: flat-bar'],
    [`${HEAD}stock: { form: flat-bar, sawn: both }\n`, 'sawn: [left, right]'],
    [`${HEAD}tolerance: mittel\n`, 'tolerance: ISO 2768-m'],
    [`${HEAD}tolerance: iso2768f\n`, 'tolerance: ISO 2768-f'],
    [`${HEAD}setups:\n  one: { up: oben, ${HELD}, cuts: [top] }\n`, 'up: top'],
    [
      `${HEAD}setups:\n  one: { up: top, ${HELD}, zero: left front top, cuts: [top] }\n`,
      'zero: { x: left, y: front, z: top }',
    ],
    [
      `${HEAD}setups:\n  one: { up: top, ${HELD.replace('[front, back]', 'front back')}, cuts: [top] }\n`,
      'jaws: [front, back]',
    ],
    [`${HEAD}setups:\n  one: { up: top, ${HELD}, operations: [top] }\n`, 'cuts: [top]'],
  ];
  for (const [text, becomes] of WHOLE)
    it(`${text.slice(HEAD.length).trim()} → ${becomes}`, () => {
      const all = told(text).flatMap((f) => f.texts);
      assert.ok(
        all.some((t) => t.includes(becomes)),
        JSON.stringify(told(text).map((f) => [f.message, f.texts])),
      );
    });

  it('what no word means stays what it was', () => {
    for (const text of ['6', '22 H7', '1/4 in', '40 ±0.05', 'pitch / 2', 'through', 'center', '1.5"'])
      assert.equal(plainDimension(text, { through: true, angle: true }), undefined, text);
    for (const text of ['20 x 10', 'banana', '5 6', 'Ø', 'x45', '4x', ',5,', '()', '22 H77'])
      assert.equal(plainDimension(text, { through: true, angle: true }), undefined, text);
  });
});

describe('the tables of everyday words', () => {
  it('name no word that the format has itself, and lead to one that it has', () => {
    for (const [word, { kind }] of EVERYDAY_KINDS) {
      assert.ok(!(KINDS as readonly string[]).includes(word), word);
      assert.ok(KINDS.includes(kind), word);
    }
    const anywhere = new Set(KINDS.flatMap((k) => [...keysOf(k)]));
    for (const [word, to] of Object.entries(FIELDS)) assert.ok(anywhere.has(to), `${word} → ${to}`);
    for (const kind of KINDS)
      for (const [word, to] of Object.entries(FIELDS_OF[kind] ?? {}))
        assert.ok(keysOf(kind).has(to), `${kind}: ${word} → ${to}`);
    const part = shapeOf(partSchema);
    assert.ok(part.type === 'map');
    for (const [word, to] of Object.entries(HEADER))
      assert.ok(part.keys.has(to) && !part.keys.has(word), `${word} → ${to}`);
  });
});
