/** `check --facts --format json`: every cut with its numbers and formulae, defaults, limits in force. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { factsJson } from '../../server/src/report/facts-json';
import { checkPart } from '../../server/src/rules/check';

const PART = `part: p
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
features:
  h: { kind: hole, face: top, at: { x: 20, y: 15 }, thread: M5, depth: 15, thread-depth: 9 }
  w: { kind: pocket, face: top, at: { x: 45, y: 20 }, size: { x: 20, y: 20 }, corner-radius: 5, depth: 8 }
`;

describe('facts as data', () => {
  const checked = checkPart(PART, builtinShop());
  const facts = factsJson(checked);

  it('has each cut with tool, numbers and formulae, all of them plain data', () => {
    const drill = facts.cuts.find((c) => c.feature === 'h' && c.does === 'drill')!;
    assert.equal(drill.numbers.diameter_mm, 4.2);
    assert.equal(drill.numbers.depth_mm, 15);
    // n = 1000 v / (π D), to what the machine's dial sets.
    const { rpm, speed_m_per_min: speed } = drill.numbers as { rpm: number; speed_m_per_min: number };
    assert.ok(Math.abs((rpm * Math.PI * 4.2) / 1000 / speed - 1) < 1e-3);
    assert.ok(drill.formulae.some((f) => f.what === 'speed' && f.source.length > 10));
    assert.ok(facts.cuts.some((c) => c.feature === 'h' && c.does === 'tap'));
    assert.ok(facts.cuts.some((c) => c.feature === 'w' && typeof c.numbers.feed_mm_per_min === 'number'));
    assert.deepEqual(JSON.parse(JSON.stringify(facts)), facts);
  });

  it('has what nobody wrote, and why', () => {
    const drilled = facts.defaults.find((d) => d.of === 'h.diameter');
    assert.deepEqual(drilled, { of: 'h.diameter', value: 4.2, unit: 'mm', why: 'tap drill of M5' });
    assert.ok(!facts.defaults.some((d) => d.of === 'w.depth'), 'what is written is no default');
  });

  it('has the limits in force, the shop’s own before the rules’', () => {
    const limit = (of: typeof facts) => of.limits.find((l) => l.rule === 'wall/thin' && l.limit === 'metal')!;
    const usual = limit(facts);
    const { shop } = checked;
    const own = factsJson(checkPart(PART, { ...shop, limits: new Map([['wall/thin', new Map([['metal', 1.25]])]]) }));
    assert.notEqual(usual.value, 1.25);
    assert.deepEqual([limit(own).value, limit(own).source], [1.25, `set in ${shop.name}`]);
  });

  it('a cut that no tool does says what is missing', () => {
    const none = factsJson(checkPart(PART.replace('M5', 'G1/8'), builtinShop()));
    const missing = none.cuts.find((c) => c.feature === 'h' && c.does === 'missing');
    assert.equal(missing?.tool, null);
    assert.match(missing?.lacks ?? '', /G1\/8 tap/);
  });
});
