/** A block pressed together by the vise: closed forms, plastics that give way and metals that do not. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { resolveShop } from '../../../server/src/model/shop';
import { bearingMm2, openingMm, shorterMmPerN } from '../../../server/src/process/workholding/pressed';
import { readText } from '../../../server/src/text/read';
import { near } from '../../oracle/near';
import { findingsOf, onlyFinding } from '../tester';

const RULE = 'hold/squeeze';

const spike = (material: string, hole = 'diameter: 12 H7', hold = 'jaws: [back, front], grip: 10, parallels: 22') =>
  `part: acetal-foot
units: mm
material: ${material}
body: { x: 60, y: 40, z: 20 }
features:
  spike: { kind: hole, face: top, at: { x: center, y: center }, ${hole}, depth: through }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, ${hold}, stop: left }
    zero: { x: left, y: back, z: parallels }
    cuts: [spike]
`;

describe('a block between the jaws', () => {
  it('pressed all over it is F L / (A E); spreading from its foot the logarithm', () => {
    const all = { touchedMm: 60, highMm: 20, workMm: 60, workHighMm: 20 };
    near(15_000 * shorterMmPerN(all, 40, 2800), (15_000 * 40) / (60 * 20 * 2800), 1e-9);
    // Height 10 growing by a millimetre a millimetre to 20: ∫ da / h is ln 2, then 10 mm at 20, twice.
    const foot = { ...all, highMm: 10 };
    near(shorterMmPerN(foot, 40, 2800), (2 * (Math.log(2) + 10 / 20)) / (60 * 2800), 1e-9);
    assert.equal(bearingMm2(foot, 4), 60 * 14);
    assert.equal(bearingMm2({ ...foot, workMm: 90 }, 4), 68 * 14);
  });

  // Kirsch: a round hole in a plate under σ is 3 σ D / E longer along it; Inglis: a crack of length 2a opens 4 σ a / E.
  it('openings after Kirsch and Inglis, and the share of F L / (A E) where they are open', () => {
    near(openingMm(10, 12, 12, 2800), (3 * 10 * 12) / 2800, 1e-12);
    near(openingMm(10, 0, 20, 2800), (4 * 10 * 10) / 2800, 1e-12);
    near(openingMm(10, 8, 0, 2800), (10 * 8) / 2800, 1e-12);
  });

  it('a bore reamed in squeezed acetal is out by far more than H7', () => {
    const { severity, facts } = onlyFinding(RULE, spike('pom-c'));
    assert.equal(severity, 'warning');
    assert.equal(facts.as, 'block');
    // 15 kN over 60 × 20, where the force has spread to all of the height.
    near(Number(facts.there_mpa), 12.5, 1e-9);
    near(Number(facts.deflection_mm), (3 * 12.5 * 12) / 2800, 1e-3);
    assert.equal(facts.allowed_mm, 0.018);
    assert.equal(facts.contact_mm2, 600);
    assert.equal(onlyFinding('tol/process', spike('pom-c')).facts.process_grade, 9);
  });

  it('metals are quiet by the same formula, and so are plain holes in plastic', () => {
    for (const metal of ['aluminium-6061-t6', 'brass-cw614n', 'steel-s235jr', 'magnesium-az31b'])
      assert.deepEqual(findingsOf(RULE, spike(metal)), [], metal);
    assert.deepEqual(findingsOf(RULE, spike('pom-c', 'diameter: 5.5')), []);
    assert.deepEqual(
      findingsOf(RULE, spike('pom-c', 'diameter: 12 H13')).map((f) => f.severity),
      [],
    );
  });

  it('a soft vise does not press it out', () => {
    const soft = resolveShop(
      readText(`shop: soft
machines:
  mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.1 kW }, zero-error: { edge-finder: 0.02 } }
vises: { mill-vise-100: { jaw: { width: 100, height: 32 }, opens: 110, force: 1500 N } }
parallels: [22]
`),
      'soft.shop.yaml',
    );
    assert.deepEqual(findingsOf(RULE, spike('pom-c'), soft), []);
  });
});

describe('what plastics hold', () => {
  const RULE_2 = 'tol/process';
  const grade = (material: string, hole: string) =>
    findingsOf(RULE_2, spike(material, hole), builtinShop()).map((f) => f.facts.process_grade);

  it('no H7 or H8, whatever cuts it; soft ones and those that swell less still', () => {
    assert.deepEqual(grade('pom-c', 'diameter: 12 H7'), [9]);
    assert.deepEqual(grade('peek', 'diameter: 12 H8'), [9]);
    assert.deepEqual(grade('pa-6', 'diameter: 12 H9'), [11]);
    assert.match(onlyFinding(RULE_2, spike('pom-c')).message, /any tool holds 0\.043 mm/);
    assert.deepEqual(findingsOf('tol/no-reamer', spike('pom-c', 'diameter: 11 H8')), []);
  });

  it('is quiet of what they hold, and of metals', () => {
    assert.deepEqual(grade('pom-c', 'diameter: 12 H9'), []);
    assert.deepEqual(grade('pa-6', 'diameter: 12 H11'), []);
    assert.deepEqual(grade('aluminium-6061-t6', 'diameter: 12 H7'), []);
  });
});
