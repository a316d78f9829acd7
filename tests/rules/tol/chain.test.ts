/** A place dimensioned from another face stays where it is, in the author's own way of writing; chains told as set up. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { resolvePart } from '../../../server/src/model/part';
import { dimensioned } from '../../../server/src/process/stackup/drawn';
import { checkPart, fixesFor } from '../../../server/src/rules/check';
import { placed } from '../../../server/src/rules/fixes';
import { fromFace } from '../../../server/src/rules/tol/redatum';
import { applyEdits } from '../../../server/src/text/edit';
import { readText } from '../../../server/src/text/read';
import { findingsOf, fixed, mended, onlyFinding } from '../tester';

interface Written {
  readonly a: string;
  readonly b: string;
  readonly distance: string;
  readonly of?: string;
  readonly units?: string;
  readonly x?: string;
  readonly tolerance?: string;
}

const rail = ({ a, b, distance, of = 'a, b', units = 'mm', x = '120', tolerance = 'ISO 2768-m' }: Written) => `part: p
units: ${units}
material: aluminium-6061-t6
${tolerance && `tolerance: ${tolerance}\n`}parameters: { pitch: 80 mm }
body: { x: ${x}, y: 30 mm, z: 12 mm }
features:
  a: { kind: hole, face: top, at: { ${a}, y: center }, diameter: 6 mm, depth: through } # fixed
  b: { kind: hole, face: top, at: { ${b}, y: center }, diameter: 6 mm, depth: through } # free
tolerances:
  - { distance: ${distance}, of: [${of}], axis: x }
`;

/** Where everything is, to a millionth of a mm. */
const places = (text: string) =>
  resolvePart(readText(text)).features.map((f) => [f.name, f.places.map((p) => [p.u.toFixed(6), p.v.toFixed(6)])]);

function fixes(text: string, rule = 'tol/chain') {
  const checked = checkPart(text, builtinShop());
  const finding = checked.findings.find((f) => f.rule === rule);
  assert.ok(finding, `${rule} expected`);
  return fixesFor(checked, finding).map((fix) => ({ title: fix.title, text: fixed(checked, fix) }));
}

describe('tol/chain: the datum that makes the chain shortest', () => {
  it('names the face, what is left, and every link with its source', () => {
    const finding = onlyFinding('tol/chain', rail({ a: 'left: 20', b: 'right: 20', distance: '80 ±0.5' }));
    assert.match(finding.message, /Dimension b from left: two dimensions are left/);
    assert.equal(finding.facts.link_3, 'body x (ISO 2768-m)');
    assert.equal(finding.facts.link_3_mm, 0.3);
  });

  it('from a face to a feature one dimension is left, with the tolerance of the distance', () => {
    const text = rail({ a: 'x: 20', b: 'right: 40', distance: '80 ±0.05', of: 'left, b' });
    const [fix] = fixes(text);
    assert.equal(fix?.title, 'Dimension b from left, ±0.05');
    assert.match(fix!.text, /b: .*at: \{ left: 80 ±0\.05, y: center \}.* # free/);
    assert.deepEqual(places(fix!.text), places(text));
  });

  it('keeps expressions, units and tolerances as they are written', () => {
    const cases: readonly (readonly [string, RegExp, Partial<Written>?])[] = [
      ['right: pitch / 4', /left: body\.x - pitch \/ 4,/],
      ['right: pitch / 4 + 1', /left: body\.x - \(pitch \/ 4 \+ 1\),/],
      ['right: 2 * 10', /left: body\.x - 2 \* 10,/],
      ['right: body.x - pitch', /left: pitch,/],
      ['right: body.x - (pitch + 2)', /left: pitch \+ 2,/],
      ['right: 0.8 in', /left: 3\.9244 in,/],
      ['right: 20 ±0.1', /left: 100 ±0\.1,/],
      ['right: "max(20, 10)"', /left: "body\.x - max\(20, 10\)",/],
      ['right: 20', /left: body\.x - 20,/, { x: 'pitch + 40' }],
    ];
    for (const [b, expected, more] of cases) {
      const text = rail({ a: 'left: 20 ±0.01', b, distance: '80 ±0.5', ...more });
      const tree = readText(text);
      const part = resolvePart(tree);
      const edits = fromFace(dimensioned('b', 'x', part)!, 'left', part);
      assert.ok(edits, b);
      const after = applyEdits(text, placed(edits, tree)!);
      assert.match(after, expected);
      assert.deepEqual(resolvePart(readText(after)).problems, []);
      const [was, is] = [part, resolvePart(readText(after))].map((p) => p.featureByName.get('b')!.places[0]!.u);
      // Written on the grid of a thou's tenth.
      assert.ok(Math.abs(was! - is!) < (b.includes('in') ? 0.0013 : 1e-9), `${b}: ${was} ${is}`);
    }
  });

  it('offers both ends, and tolerances where the general one is too wide', () => {
    const text = rail({ a: 'left: 20', b: 'right: 20', distance: '80 ±0.1' });
    const titles = fixes(text).map((f) => f.title);
    assert.deepEqual(titles, ['Dimension b from left, ±0.05', 'Dimension a from right, ±0.05']);
    const same = rail({ a: 'left: 20', b: 'left: 100', distance: '80 ±0.1' });
    assert.deepEqual(
      fixes(same).map((f) => f.title),
      ['Allow each link ±0.05'],
    );
    for (const fix of [...fixes(text), ...fixes(same)]) {
      assert.deepEqual(findingsOf('tol/chain', fix.text), []);
      assert.deepEqual(places(fix.text), places(text));
    }
  });

  it('works in inches', () => {
    const text = rail({ a: 'left: 1', b: 'right: 1', distance: '3 ±0.02', units: 'in', x: '5' });
    const [fix] = fixes(text);
    assert.match(fix!.text, /left: 4,|left: 4 ±0\.01,/);
    assert.deepEqual(places(fix!.text), places(text));
  });

  it('leaves every place where it is, whatever is written (property)', () => {
    const value = fc
      .integer({ min: 1, max: 119 })
      .chain((mm) =>
        fc.constantFrom(`${mm}`, `${mm} mm`, `${mm} ±0.2`, `pitch / 80 * ${mm}`, `body.x - ${mm}`, `${mm} - 0.5 + 0.5`),
      );
    const key = fc.constantFrom('x', 'left', 'right');
    fc.assert(
      fc.property(key, value, fc.constantFrom('left' as const, 'right' as const), (k, v, to) => {
        const text = rail({ a: 'left: 20', b: `${k}: ${v}`, distance: '80 ±0.5' });
        const tree = readText(text);
        const part = resolvePart(tree);
        const edits = fromFace(dimensioned('b', 'x', part)!, to, part);
        if (!edits) return;
        const after = applyEdits(text, placed(edits, tree)!);
        assert.deepEqual(places(after), places(text));
        assert.match(after, new RegExp(`b: .*${to}: .*# free`));
      }),
      { seed: 11, numRuns: 60 },
    );
  });
});

describe('tol/as-set-up', () => {
  const RULE = 'tol/as-set-up';
  const part = (at: string, setups: string) => `part: guide
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
stock: { form: flat-bar }
features:
  pivot: { kind: hole, face: top, at: { x: 10, y: center }, diameter: 4, depth: through }
  pin: { kind: hole, face: top, at: { ${at}, y: center }, diameter: 15 H7, depth: through } # for the pin
setups:
${setups}`;
  const setup = (name: string, x: string, cuts: string, method = 'edge-finder') => `  ${name}:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22, stop: left }
    zero: { x: ${x}, y: back, z: parallels }
    method: ${method}
    cuts: [${cuts}]
`;

  it('edge finder ±0.02 and a cut of ±0.01 make ±0.0224: a hint at ±0.02, a warning at ±0.015, nothing at ±0.025', () => {
    const text = (half: string) => part(`left: 20 ±${half}`, setup('only', 'left', 'pivot, pin'));
    assert.equal(onlyFinding(RULE, text('0.02')).severity, 'hint');
    const finding = onlyFinding(RULE, text('0.015'));
    assert.equal(finding.severity, 'warning');
    assert.equal(finding.facts.likely_mm, 0.022);
    assert.equal(finding.facts.worst_mm, 0.03);
    assert.equal(finding.facts.link_1, 'zero of only from left (edge-finder, by the shop)');
    assert.equal(finding.facts.link_1_mm, 0.02);
    assert.deepEqual(findingsOf(RULE, text('0.025')), []);
  });

  it('a drill starts ±0.05 beside its place, a reamer follows it, a boring head does not', () => {
    const text = part('left: 20 ±0.05', setup('only', 'left', 'pivot, pin'));
    assert.deepEqual(findingsOf(RULE, text), []);
    for (const size of ['6', '6 H7']) {
      const drilled = onlyFinding(RULE, text.replace('15 H7', size));
      assert.equal(drilled.severity, 'hint');
      // √(0.02² + 0.01² + 0.05²)
      assert.equal(drilled.facts.likely_mm, 0.055);
      assert.match(drilled.message, /the drill starting beside pin ±0\.05 mm/);
    }
    const wider = text.replace('15 H7', '6').replace('±0.05', '±0.06');
    assert.deepEqual(findingsOf(RULE, wider), []);
    // With nothing to spot it a drill starts ±0.1 beside it: √(0.02² + 0.01² + 0.1²).
    const shop = builtinShop();
    const unspotted = { ...shop, tools: shop.tools.filter((t) => t.kind !== 'spot-drill') };
    assert.equal(onlyFinding(RULE, wider, unspotted).facts.likely_mm, 0.102);
  });

  it('dimensions the place from the face that zero is at, and keeps comments', () => {
    const text = part('left: 20 ±0.05', setup('only', 'right', 'pivot, pin'));
    assert.match(onlyFinding(RULE, text).message, /the bar from left to right ±0\.6 mm/);
    const after = mended(RULE, text, /Dimension pin from right, where zero is/);
    assert.match(after, /at: \{ right: 40 ±0\.05, y: center \}.*# for the pin/);
    assert.deepEqual(places(after), places(text));
  });

  it('takes zero from where it is dimensioned, or by a finer method', () => {
    const text = part('left: 20 ±0.05', setup('only', 'right', 'pivot, pin'));
    assert.match(mended(RULE, text, /Set x zero on left in only/), /zero: \{ x: left, y: back/);
    const close = part('left: 20 ±0.015', setup('only', 'left', 'pivot, pin'));
    assert.match(mended(RULE, close, /finest method/), /method: (probe|indicator)/);
    assert.match(mended(RULE, close, /Allow ±0\.023/), /left: 20 ±0\.023, y: center/);
  });

  it('a distance that setup/across tells of is told once', () => {
    const twice = `${part('left: 40', setup('first', 'left', 'pivot') + setup('second', 'left', 'pin'))}tolerances:\n  - { distance: 30 ±0.02, of: [pin, pivot], axis: x }\n`;
    assert.equal(findingsOf('setup/across', twice).length, 1);
    assert.deepEqual(findingsOf(RULE, twice), []);
  });

  it('a size between two faces of the bar is stock/as-supplied’s to tell; a sawn length is told here', () => {
    const text = part('left: 20', setup('only', 'left', 'pivot, pin')).replace('y: 40,', 'y: 40 ±0.05,');
    assert.equal(findingsOf('stock/as-supplied', text).length, 1);
    assert.deepEqual(findingsOf(RULE, text), []);
    const sawn = text.replace('x: 60', 'x: 60 ±0.1').replace('form: flat-bar', 'form: flat-bar, sawn: [left, right]');
    assert.match(onlyFinding(RULE, sawn).message, /the sawn length from left to right ±0\.5 mm/);
  });

  it('says nothing without set-ups, or of dimensions without a tolerance', () => {
    assert.deepEqual(findingsOf(RULE, part('left: 20 ±0.001', '').replace('setups:\n', '')), []);
    assert.deepEqual(findingsOf(RULE, part('left: 20', setup('only', 'right', 'pivot, pin'))), []);
  });
});
