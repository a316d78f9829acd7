/** Roughness by what cuts it and by the feed. The formulae: tests/process/cutting and tests/oracle/roughness. */
import assert from 'node:assert/strict';
import { operationsOf } from '../../../server/src/process/operations';
import { priceOf } from '../../../server/src/process/operations/priced';
import { surfacesOf } from '../../../server/src/process/tolerances/finish';
import { cutLine } from '../../../server/src/report/cuts';
import { checkPart } from '../../../server/src/rules/check';
import { findMaterial } from '../../../server/src/tables/materials';
import { near } from '../../oracle/near';
import { drill, endMill, shopWith } from '../shops';
import { findingsOf, mended, onlyFinding } from '../tester';

const RULE = 'tol/finish';
const AL = findMaterial('aluminium-6061-t6')!;
const MILL = (more = '') => shopWith(endMill('em-10', 10, 30, more));
const pocket = (finish: number, depth = '8') => `part: p
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 60, z: 20 }
features:
  tray: { kind: pocket, face: top, at: { x: 30, y: 30 }, size: { x: 40, y: 40 }, corner-radius: 6, depth: ${depth}, finish: ${finish} } # seen
`;
const hole = (diameter: string, finish: number) => `part: p
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 60, z: 20 }
features:
  h: { kind: hole, face: top, at: { x: 30, y: 30 }, diameter: ${diameter}, depth: through, finish: ${finish} }
`;

describe('tol/finish', () => {
  it('a floor under a square mill: f · tan of the end’s slope, a quarter of it, half as much again', () => {
    const finding = onlyFinding(RULE, pocket(0.4), MILL());
    const feed = Number(finding.facts.feed_mm);
    assert.equal(finding.severity, 'hint');
    near(Number(finding.facts.left_um), 1.5 * 250 * feed * Math.tan((1.5 * Math.PI) / 180), 0.01);
    near(Number(finding.facts.reaching_mm), 0.4 / 1.5 / 250 / Math.tan((1.5 * Math.PI) / 180), 0.001);
    assert.equal(finding.facts.surface, 'floor');
    // Slowed as far as a chip is cut and not rubbed, and not further.
    near(feed, Number(finding.facts.least_mm), 1e-6);
    assert.match(finding.message, /rubs instead of cutting/);
  });

  it('what is asked slows the feed of the pass, and is told: twice as fine, half the feed, longer', () => {
    const cutsAt = (more: string) => {
      const { part, solid } = checkPart(pocket(0.8).replace(/, finish: 0.8/, more), MILL());
      const operations = operationsOf(part.features[0]!, { part, solid, shop: MILL() });
      return operations.filter((o) => o.does === 'finish').map((o) => priceOf(o, AL, MILL().machines[0]!))[0]!;
    };
    const [plain, asked] = [cutsAt(''), cutsAt(', finish: 0.8')];
    const wanted = 0.8 / 1.5 / 250 / Math.tan((1.5 * Math.PI) / 180);
    near(asked.milling!.feedPerToothMm, wanted, 1e-9);
    assert.equal(asked.milling!.limitedBy, 'finish');
    assert.ok(plain.milling!.feedPerToothMm > wanted && plain.minutes[0] < asked.minutes[0]);
    assert.match(cutLine(asked, 'mm'), /limited by the roughness that is asked/);
    // What is coarser than the feed leaves anyway changes nothing.
    assert.deepEqual(cutsAt(', finish: 12.5').minutes, plain.minutes);
  });

  it('a feed that reaches it is taken: the rule is silent', () => {
    const { part, solid } = checkPart(pocket(0.8), MILL());
    for (const s of surfacesOf(part.featureByName.get('tray')!, { part, solid, shop: MILL() })) {
      near(s.feedFor(s.raUm), s.feedMm, 1e-6, s.what);
      assert.ok(s.feedFor(s.raUm / 2) < s.feedMm);
    }
    assert.deepEqual(findingsOf(RULE, pocket(0.8), MILL()), []);
    assert.match(mended(RULE, pocket(0.4), undefined, MILL()), /finish: 0\.8 \} # seen/);
    assert.deepEqual(findingsOf(RULE, pocket(3.2), MILL()), []);
  });

  it('only the floor is under the end: a through pocket has walls, f² / 4D', () => {
    assert.deepEqual(findingsOf(RULE, pocket(0.8, 'through'), MILL()), []);
  });

  it('a corner radius leaves less than a sharp corner at the same feed', () => {
    const ra = (corner: number, features: string) => {
      const shop = shopWith(endMill('em-10', 10, 30, `corner-radius: ${corner}`) + endMill('em-8', 8, 30));
      const { part, solid } = checkPart(features, shop);
      return surfacesOf(part.features[0]!, { part, solid, shop }).find((s) => s.what === 'floor');
    };
    const round = ra(1, pocket(0.8).replace('depth: 8', 'floor-radius: 1, depth: 8'))!;
    const sharp = ra(0, pocket(0.8))!;
    assert.ok(round.raUm / round.feedMm < sharp.raUm / sharp.feedMm);
  });

  it('goes by the shop’s own settings', () => {
    const flat = shopWith(endMill('em-10', 10, 30), '  tol/finish: { end: 0.3 }');
    assert.deepEqual(findingsOf(RULE, pocket(0.8), flat), []);
  });

  it('a bore: the feed per turn under the insert’s radius, f² / 8r where the feed is that fine', () => {
    const bar = 'bh: { kind: boring-head, diameter: 12, largest: 60, reach: 40, material: carbide }\n';
    const shop = shopWith(drill(15.5, 60) + endMill('em-10', 10, 30) + bar, '  tol/finish: { nose: 0.8, end: 5 }');
    const { part, solid } = checkPart(hole('16 H7', 0.8), shop);
    const [s] = surfacesOf(part.features[0]!, { part, solid, shop });
    assert.equal(s?.what, 'bore');
    near(s!.ridgeMm, s!.feedMm ** 2 / (8 * 0.8), 1e-12);
    near(s!.raUm, (1.5 * 1000 * s!.ridgeMm) / 4, 1e-12);
  });

  it('what the process never leaves is a warning, by the cuts that the hole gets', () => {
    const drilled = shopWith(drill(10, 80));
    assert.equal(onlyFinding(RULE, hole('10', 0.8), drilled).facts.process, 'drilling');
    assert.equal(onlyFinding(RULE, hole('10', 0.8), drilled).severity, 'warning');
    const reamer = 'r10: { kind: reamer, diameter: 10, fit: H7, reach: 60 }\n';
    assert.deepEqual(findingsOf(RULE, hole('10', 0.8), shopWith(drill(10, 80) + reamer)), []);
    assert.equal(onlyFinding(RULE, hole('10 H7', 0.4), shopWith(drill(9.8, 80) + reamer)).facts.finest_um, 0.8);
  });
});
