/**
 * One budget for a size that a mill makes: process, set-up and finish, by hand. IT9 at 6 mm (over 3 to 6) is 0.030, at 20 mm
 * 0.052 (ISO 286-1 Table 1). Worst case the sum, statistical the root of the sum of squares (closed form).
 */
import assert from 'node:assert/strict';
import { resolveShop } from '../../../server/src/model/shop';
import { budgetMm, chainsOf } from '../../../server/src/process/stackup';
import { checkPart } from '../../../server/src/rules/check';
import { readText } from '../../../server/src/text/read';
import { near } from '../../oracle/near';

const shopWith = (limits: string) =>
  resolveShop(
    readText(`shop: bench
machines:
  mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.1 kW }, zero-error: { edge-finder: 0.02, tool-edge: 0.03 } }
vises: { vise: { jaw: { width: 100, height: 32 }, opens: 110, force: 15 kN } }
parallels: [22]
tools:
  em-10: { kind: end-mill, diameter: 10, flutes: 3, flute-length: 22, reach: 30, shank: 10 }
limits:
${limits || '  hold/slips: { safety: 2 }'}
`),
    'bench.shop.yaml',
  );
const SHOP = shopWith('');
const WORST = shopWith('  tol/as-set-up: { worst-case: 1 }');

interface Case {
  readonly depth: string;
  readonly top?: boolean;
  readonly material?: string;
  readonly more?: string;
}

const text = ({ depth, top = true, material = 'aluminium-6061-t6', more = '' }: Case) => `part: sensor-tray
units: mm
material: ${material}
body: { x: 60, y: 40, z: 20 }
stock: { form: block, extra: { top: 1 } }
features:
  well: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 30, y: 20 }, corner-radius: 5.5, depth: ${depth}${more} }
setups:
${top ? '' : '  facing: { up: top, hold: { vise: vise, jaws: [back, front], grip: 10, parallels: 22 }, zero: { x: left, y: back, z: parallels }, cuts: [top] }\n'}  only:
    up: top
    hold: { vise: vise, jaws: [back, front], grip: 10, parallels: 22 }
    zero: { x: left, y: back, z: ${top ? 'parallels' : 'top'} }
    method: edge-finder
    cuts: [${top ? 'top, ' : ''}well]
`;

function links(c: Case, shop = SHOP) {
  const { part, solid } = checkPart(text(c), shop);
  assert.deepEqual(part.problems, []);
  const made = chainsOf(part, solid, shop).find((x) => x.of.given === 'depth');
  assert.ok(made?.asSetUp);
  return made.asSetUp;
}
const told = (c: Case, shop = SHOP) =>
  checkPart(text(c), shop)
    .findings.filter((f) => f.rule === 'tol/process' || f.rule === 'tol/as-set-up')
    .map((f) => `${f.rule} ${f.severity}`);

describe('the budget of a milled size', () => {
  it('cut in one set-up it is the process alone, by the grade of tol/process', () => {
    assert.deepEqual(
      links({ depth: '6 ±0.05' }).map((l) => [l.by, l.halfMm]),
      [['process', 0.015]],
    );
    const fine = shopWith('  tol/process: { milling: 7 }');
    // IT7 at 6 mm is 0.012: less than the two cuts of ±0.01 by themselves, which then count.
    assert.deepEqual(
      links({ depth: '6 ±0.05' }, fine).map((l) => l.by),
      ['cut', 'cut'],
    );
    // Acetal holds IT9 whatever cuts it; a finer mill does not help.
    near(links({ depth: '6 ±0.05', material: 'pom-c' }, fine)[0]!.halfMm, 0.015, 1e-12);
  });

  it('found again from the face that another set-up cut, what finds it is added', () => {
    const found = links({ depth: '6 ±0.05', top: false });
    assert.deepEqual(
      found.map((l) => [l.by, l.halfMm]),
      [
        ['zero', 0.02],
        ['process', 0.015],
      ],
    );
    near(budgetMm(found, 'likely'), 0.025, 1e-12);
    near(budgetMm(found, 'worst'), 0.035, 1e-12);
  });

  it('tol/process and tol/as-set-up tell a size once, and agree', () => {
    assert.deepEqual(told({ depth: '6 ±0.015' }), []);
    assert.equal(told({ depth: '6 ±0.012' }).length, 1);
    assert.match(told({ depth: '6 ±0.012' })[0]!, /^tol\/process/);
    assert.deepEqual(told({ depth: '6 ±0.024', top: false }), ['tol/as-set-up hint']);
    assert.deepEqual(told({ depth: '6 ±0.025', top: false }), []);
  });

  it('a shop that counts at worst is told sooner', () => {
    assert.deepEqual(told({ depth: '6 ±0.03', top: false }), []);
    assert.deepEqual(told({ depth: '6 ±0.03', top: false }, WORST), ['tol/as-set-up hint']);
    assert.deepEqual(told({ depth: '6 ±0.035', top: false }, WORST), []);
    const { findings } = checkPart(text({ depth: '6 ±0.03', top: false }), WORST);
    const { facts, message } = findings.find((f) => f.rule === 'tol/as-set-up')!;
    assert.deepEqual([facts.judged_by, facts.likely_mm, facts.worst_mm], ['worst', 0.025, 0.035]);
    assert.match(message, /at worst, which counts here/);
  });

  it('tol/chain goes by it too', () => {
    const rail = `part: rail
units: mm
material: aluminium-6061-t6
body: { x: 120 ±0.1, y: 30, z: 12 }
features:
  a: { kind: hole, face: top, at: { left: 20 ±0.1, y: center }, diameter: 6, depth: through }
  b: { kind: hole, face: top, at: { right: 20 ±0.1, y: center }, diameter: 6, depth: through }
tolerances:
  - { distance: 80 ±0.2, of: [a, b], axis: x }
`;
    const said = (shop: typeof SHOP) => {
      const { severity, facts } = checkPart(rail, shop).findings.find((f) => f.rule === 'tol/chain')!;
      return [severity, facts.judged_by, facts.worst_mm];
    };
    assert.deepEqual(said(SHOP), ['hint', 'likely', 0.3]);
    assert.deepEqual(said(WORST), ['warning', 'worst', 0.3]);
  });

  it('the roughness left counts only beyond what the grade has by itself', () => {
    assert.ok(links({ depth: '6 ±0.05', more: ', finish: 0.8' }).every((l) => l.by !== 'finish'));
    const rough = shopWith('  tol/finish: { real: 60 }');
    const [, finish] = links({ depth: '6 ±0.05', more: ', finish: 6.3' }, rough);
    assert.equal(finish?.by, 'finish');
    assert.ok(finish.halfMm > 0);
  });
});
