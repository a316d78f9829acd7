/**
 * A slitting saw through the house: when it is taken, how deep it goes beside its arbor, what it meets, what it takes.
 * Expected values are worked out beside each check, or are those of a published list named there.
 */
import assert from 'node:assert/strict';
import { planOf } from '../../server/src/planning/plan';
import { edgeSpeed } from '../../server/src/process/cutting/chip-load';
import { speedRange } from '../../server/src/process/cutting/speed';
import { operationsOf } from '../../server/src/process/operations';
import { priceOf } from '../../server/src/process/operations/priced';
import { checkPart } from '../../server/src/rules/check';
import { findMaterial } from '../../server/src/tables/materials';
import { drill, endMill, shopWith } from '../rules/shops';
import { findingsOf } from '../rules/tester';

const SAW = (more: string) =>
  `  saw: { kind: slitting-saw, diameter: 100, thickness: 1.5, flange: 25, below: 6, ${more}holder: chuck }\n`;
const shop = (saw = SAW('')) => shopWith(`${endMill('em-6', 6, 20)}${drill(20, 60)}${saw}`);
const HEAD = `part: clamp
material: aluminium-6061-t6
body: { x: 40, y: 50, z: 12 }
features:
  bore: { kind: hole, face: top, at: { x: center, y: 20 }, diameter: 20, depth: through }
`;
const SLIT =
  '  slit: { kind: slot, face: top, ends: [{ x: center, y: 20 }, { x: center, y: 55 }], width: 1.5, depth: through }\n';
const held = (grip: number) => `setups:
  first:
    up: top
    hold: { vise: vise, jaws: [left, right], grip: 6, stop: front }
    cuts: [bore]
  second:
    up: left
    hold: { vise: vise, jaws: [top, bottom], grip: ${grip}, stop: front }
    cuts: [slit]
`;

function cutsOf(text: string, of = 'slit', saws = shop()) {
  const { part, solid } = checkPart(text, saws);
  return operationsOf(part.featureByName.get(of)!, { part, solid, shop: saws });
}

describe('a slitting saw', () => {
  it('cuts a slit into a bore that no mill is thin enough for, in from the open end: 30 mm deep', () => {
    const [cut, more] = cutsOf(HEAD + SLIT);
    assert.equal(more, undefined);
    assert.ok(cut?.does === 'slot' && cut.tool.name === 'saw');
    // From the back, y = 50, to the bore's middle, where the slit ends.
    assert.ok(Math.abs(cut.wideMm! - 30) < 1e-6);
    // Through 12 mm, and half a chord to come in and out: 2 · √(2 · 50 · 30 − 30²).
    assert.ok(Math.abs(cut.wayMm - (12 + 2 * Math.sqrt(2100))) < 1e-6);
  });

  it('is not taken where an end mill does it from above', () => {
    const wide = SLIT.replace('width: 1.5', 'width: 8');
    assert.ok(cutsOf(HEAD + wide).every((o) => o.does !== 'slot'));
  });

  it('goes no deeper than its flange lets it: 50 − 12.5 − 0.5 = 37 mm', () => {
    const deep = (mm: number) => {
      const text = `part: b\nmaterial: aluminium-6061-t6\nbody: { x: 40, y: 30, z: 60 }\nfeatures:\n  slit: { kind: slot, face: top, ends: [{ x: center, y: -5 }, { x: center, y: 35 }], width: 1.5, depth: ${mm} }\n`;
      return cutsOf(text).map((o) => o.does);
    };
    assert.deepEqual(deep(36.9), ['slot']);
    assert.deepEqual(deep(37.1), ['missing']);
  });

  it('leaves its own round: a slit that ends in the metal is not sawn', () => {
    const blind = SLIT.replace('y: 20', 'y: 35');
    assert.deepEqual(
      cutsOf(HEAD + blind).map((o) => o.does),
      ['missing'],
    );
  });

  it('cuts in two passes what is twice as wide, and no wider than it is thick', () => {
    const ways = (width: number) =>
      cutsOf(HEAD + SLIT.replace('1.5', String(width))).map((o) => ('wayMm' in o ? o.wayMm : 0));
    assert.ok(Math.abs(ways(2.4)[0]! - 2 * ways(1.5)[0]!) < 1e-6);
    assert.deepEqual(
      cutsOf(HEAD + SLIT.replace('1.5', '1.2')).map((o) => o.does),
      ['missing'],
    );
  });

  it('nut and rim clear the jaws or are told: the slit is 19.25 mm up, the nut 6 mm lower', () => {
    assert.deepEqual(findingsOf('access/jaw', HEAD + SLIT + held(10), shop()), []);
    const [found] = findingsOf('access/jaw', HEAD + SLIT + held(18), shop());
    assert.match(found?.message ?? '', /saw would run .* into the fixed jaw/);
    // 18 mm of grip against 19.25 − 6 mm of nut.
    assert.equal(found?.facts.height_above_jaws_mm, -4.75);
  });

  it('is asked for where none is on hand, in a set-up that looks at the side', () => {
    const [found] = findingsOf('access/no-tool', HEAD + SLIT + held(10), shop(''));
    assert.match(found?.message ?? '', /slitting saw at most 1\.5 mm thick, cutting 30 mm beside its arbor/);
  });

  it('a slit before the bore that it opens is told, sawn or milled', () => {
    const early = `${HEAD}${SLIT}${held(10)}`
      .replace('cuts: [bore]', 'cuts: [face]')
      .replace('cuts: [slit]', 'cuts: [slit]\n  third: { up: top, cuts: [bore] }');
    const [found] = findingsOf('setup/order', early.replace('cuts: [face]', 'cuts: []'), shop());
    assert.match(found?.message ?? '', /Cut bore first/);
  });

  it('turns within what a published list of circular saws of high-speed steel allows in steel: 8 to 38 m/min', () => {
    const [cut] = cutsOf((HEAD + SLIT).replace('aluminium-6061-t6', 'steel-c45'));
    const { part, shop: saws } = checkPart((HEAD + SLIT).replace('aluminium-6061-t6', 'steel-c45'), shop());
    const priced = priceOf(cut!, findMaterial(part.material!.name)!, { ...saws.machines[0]!, rpm: [60, 5000] });
    const { speedMPerMin, feedMmPerMin, rpm } = priced.conditions!;
    assert.ok(speedMPerMin >= 8 && speedMPerMin <= 38, `${speedMPerMin} m/min`);
    const toothMm = feedMmPerMin / rpm / 44;
    // Common practice, no source.
    assert.ok(toothMm > 0.002 && toothMm < 0.04, `${toothMm} mm a tooth`);
  });

  it('turns no faster than a cold saw’s manual has for discs of high-speed steel in 10 to 20 mm (read in 2026)', () => {
    for (const [name, most] of [
      ['steel-s235jr', 50],
      ['steel-c45', 30],
      ['stainless-304', 20],
      ['cast-iron-gjl-250', 25],
      ['aluminium-6061-t6', 200],
      ['brass-cw614n', 500],
    ] as const) {
      const material = findMaterial(name);
      assert.ok(material, name);
      const [low, high] = edgeSpeed(speedRange(material, 'hss'), 'hss', 'disc');
      assert.ok(high <= most && low > 0.2 * Math.min(most, 100), `${name}: ${low} to ${high} m/min, not over ${most}`);
    }
  });

  it('holds a slit’s width as a saw does, not as a mill: IT11 of ISO 286-1, 60 µm up to 3 mm; other sizes as before', () => {
    const said = (width: string) =>
      findingsOf('tol/process', HEAD + SLIT.replace('1.5,', `${width},`), shop()).map((f) => f.facts.held_mm);
    assert.deepEqual(said('1.5 H11'), []);
    assert.equal(said('1.5 H9').length, 1);
    const milled = SLIT.replace('1.5,', '8 H9,');
    assert.deepEqual(findingsOf('tol/process', HEAD + milled, shop()), []);
  });

  it('that is deeper in than its reach meets the work with what begins there', () => {
    const wide = HEAD.replace('x: 40', 'x: 120');
    const reach = (mm: number) =>
      findingsOf('access/reach', wide + SLIT + held(10), shop(SAW(`reach: ${mm}, `))).map((f) => f.facts.needed_mm);
    // From the left face, x = 0, to the slit's far side at 60.75.
    assert.deepEqual(reach(61), []);
    assert.deepEqual(reach(50), [60.75]);
  });

  it('fits its own flange and reach', () => {
    assert.throws(() => shop(SAW('reach: 1, ')), /Its reach, 1 mm, is less than the saw’s own thickness/);
    assert.throws(() => shop(SAW('').replace('flange: 25', 'flange: 100')), /is not smaller than the saw/);
  });

  it('is planned from the side where no mill gets in from above, after the bore', () => {
    const plan = planOf(checkPart(HEAD + SLIT, { ...shop(), parallelsMm: [6, 10, 14, 18, 22, 26] }));
    assert.deepEqual(
      plan?.setups.map(({ setup, items }) => [setup.up?.name, items.map((i) => i.name)]),
      [
        ['top', ['bore']],
        ['left', ['slit']],
      ],
    );
  });

  it('is told of where a set-up looks from above, or none is on hand', () => {
    const above = 'setups:\n  one: { up: top, cuts: [bore, slit] }\n';
    assert.match(
      findingsOf('access/reach', HEAD + SLIT + above, shop())[0]?.message ?? '',
      /Use saw, which cuts it from left or right/,
    );
    assert.match(
      findingsOf('access/reach', HEAD + SLIT, shop(''))[0]?.message ?? '',
      /Use a slitting saw at most 1\.5 mm thick, cutting 30 mm beside its arbor, from its side/,
    );
  });

  it('must get into every member of a pattern', () => {
    const row = (y: string) =>
      `part: b\nmaterial: aluminium-6061-t6\nbody: { x: 60, y: 30, z: 60 }\nfeatures:\n  slit: { kind: slot, face: top, ends: [{ x: 20, y: ${y} }, { x: 20, y: 35 }], width: 1.5, depth: 30, pattern: { line: { x: 10, count: 3 } } }\n`;
    assert.deepEqual(
      cutsOf(row('-5')).map((o) => [o.does, o.times]),
      [['slot', 3]],
    );
    const one = row('-5').replace(
      'pattern: { line: { x: 10, count: 3 } }',
      'at: { x: 0, y: 0 }, pattern: { line: { y: 12, count: 2 } }',
    );
    assert.deepEqual(
      cutsOf(one).map((o) => o.does),
      ['missing'],
    );
  });
});
