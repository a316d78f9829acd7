/**
 * Whatever no tool on hand makes is told: parts drawn at random, before shops out of which tools were taken at random. What
 * the cuts (hover, `--facts`) or the plan lack is a finding; with the tools back in their place it is none.
 */

import assert from 'node:assert/strict';
import fc from 'fast-check';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import type { Shop } from '../../../server/src/model/shop-model';
import { planOf } from '../../../server/src/planning/plan';
import { timeOf } from '../../../server/src/planning/times';
import { operationsOf } from '../../../server/src/process/operations';
import { checkPart, fixesFor } from '../../../server/src/rules/check';
import type { CheckedPart } from '../../../server/src/rules/checked-part';
import { lossesOf } from '../../../server/src/rules/follows';
import type { Finding } from '../../../server/src/rules/kit/rule';
import { draws, patience, runs } from '../../fuzz/runs';
import { partTexts } from '../../proof/parts';
import { partText } from '../../simulator/generate';
import { drill, endMill, shopWith } from '../shops';
import { fixed } from '../tester';

/** Rules that say that no tool on hand makes it. */
const SAYS =
  /^(access\/(no-tool|reach|undercut|holder)|hole\/(odd-diameter|flat-bottom|out-of-reach)|thread\/no-tap|corner\/(inside-radius|floor-radius|square))$/;

const FULL: Shop = { ...builtinShop(), builtIn: false };
/** What is not there, by kind and one by one: a workshop without taps, and one whose 6 mm drill is lost. */
const gone = fc.record({
  kinds: fc.subarray([...new Set(FULL.tools.map((t) => t.kind))], { minLength: 1, maxLength: 8 }),
  names: fc.subarray(
    FULL.tools.map((t) => t.name),
    { maxLength: 40 },
  ),
});
const without = ({ kinds, names }: { kinds: readonly string[]; names: readonly string[] }): Shop => ({
  ...FULL,
  tools: FULL.tools.filter((t) => !kinds.includes(t.kind) && !names.includes(t.name)),
});
/** Threads are seldom drawn. */
const tapped = fc.constantFrom('M4', 'M5', 'M8').map(
  (thread) => `part: p
material: aluminium-6061-t6
body: { x: 40, y: 30, z: 15 }
features:
  tapped: { kind: hole, face: top, at: { x: 20, y: 15 }, thread: ${thread}, depth: through }
`,
);
const texts = fc.oneof(
  tapped,
  partText,
  partText.map((text) => text.slice(0, text.indexOf('setups:'))),
  partTexts(2).map((p) => p.text),
  partTexts(2, ['slot', 'groove', 'slope', 'engraving', 'edges']).map((p) => p.text),
);

const base = (name: string) => name.replace(/\[\d+\]$/, '');
const about = (findings: readonly Finding[], name: string) =>
  findings.filter((f) => SAYS.test(f.rule) && f.of.some((n) => base(n) === name));
const lacked = ({ part, solid, shop }: CheckedPart, name: string) => {
  const feature = part.featureByName.get(name)!;
  return operationsOf(feature, { part, solid, shop }).filter((o) => o.does === 'missing');
};
const told = (checked: CheckedPart) =>
  checked.findings.map((f) => `${f.severity} ${f.rule} ${f.of}: ${f.message}`).join('\n');

describe('access/no-tool', function () {
  this.timeout(patience(120_000));

  it('tells every cut that has no tool, and none that has', () => {
    let missing = 0;
    const lacks = new Set<string>();
    fc.assert(
      fc.property(texts, gone, (text, lost) => {
        const checked = checkPart(text, without(lost));
        // What may be nothing but the shadow of a fault of the text is not told beside it.
        if (lossesOf(checked.part, checked.tree)) return;
        for (const feature of checked.part.features) {
          for (const o of lacked(checked, feature.name)) {
            missing++;
            if (o.does === 'missing') lacks.add(o.lacks);
            assert.ok(
              about(checked.findings, feature.name).length > 0,
              `${feature.name} lacks a tool, untold\n${text}\n${told(checked)}`,
            );
          }
        }
        const own = checked.findings.filter((f) => f.rule === 'access/no-tool');
        for (const f of own) {
          assert.equal(f.severity, 'error');
          const [name] = f.of;
          const cut = checked.part.featureByName.has(name!) && lacked(checked, name!).length === 0;
          assert.ok(!cut, `${f.message}\n${text}`);
        }
      }),
      draws(20261202, 50),
    );
    assert.ok(missing > runs(17), `${missing}`);
    // Chamfers are seldom drawn: they have a test of their own.
    for (const what of ['bore', 'tap', 'counterbore', 'mill', 'engraver', 'undercutter'])
      assert.ok(lacks.has(what as never), `nothing lacked a tool for: ${what}`);
  });

  it('tells what a plan lacks', () => {
    let lacking = 0;
    fc.assert(
      fc.property(
        partText.map((text) => text.slice(0, text.indexOf('setups:'))),
        gone,
        (text, lost) => {
          const checked = checkPart(text, without(lost));
          const plan = planOf(checked);
          if (!plan) return;
          const setups = plan.setups.map((s) => s.setup);
          for (const s of timeOf(setups, { ...checked, part: { ...checked.part, setups } }).setups) {
            for (const line of s.missing) {
              const [name] = line.split(':');
              // A face that a plan mills from the side could be faced from above.
              if (!checked.part.featureByName.has(name!) && checked.shop.tools.some((t) => t.kind === 'face-mill'))
                continue;
              lacking++;
              assert.ok(about(checked.findings, name!).length > 0, `${line}\n${text}\n${told(checked)}`);
            }
          }
          for (const { item, why } of plan.uncut) {
            if (!why || !SAYS.test(why.rule)) continue;
            lacking++;
            assert.ok(
              about(checked.findings, item.name).length > 0,
              `${item.name} is left: ${why.message}\n${text}\n${told(checked)}`,
            );
          }
        },
      ),
      draws(9, 10),
    );
    assert.ok(lacking > 0, `${lacking}`);
  });

  it('tells a cutter that does not stand the cut in the words in which a plan lacks it', () => {
    const text =
      'part: p\nmaterial: aluminium-6061-t6\nbody: { x: 60, y: 40, z: 20 }\nfeatures:\n' +
      '  a: { kind: pocket, face: top, at: { x: 30, y: 20 }, size: { x: 30, y: 20 }, corner-radius: 6, depth: 8 }\n';
    const weak: Shop = { ...FULL, machines: FULL.machines.map((m) => ({ ...m, feedMmPerMin: 0 })) };
    const checked = checkPart(text, weak);
    const setups = planOf(checked)!.setups.map((s) => s.setup);
    const lacks = timeOf(setups, { ...checked, part: { ...checked.part, setups } }).setups.flatMap((s) => s.missing);
    assert.ok(lacks.length > 0);
    for (const line of lacks) {
      const wanted = line.slice('a: '.length);
      assert.match(wanted, /^a cutter that stands the cut/);
      assert.ok(
        about(checked.findings, 'a').some((f) => f.facts.wanted === wanted),
        told(checked),
      );
    }
    assert.equal(about(checkPart(text, FULL).findings, 'a').length, 0);
  });

  const BLOCK = 'part: p\nmaterial: aluminium-6061-t6\nbody: { x: 60, y: 40, z: 20 }\nfeatures:\n';
  const at = 'face: top, at: { x: center, y: center }';
  const CASES: readonly (readonly [what: string, feature: string, tools: string, wanted: RegExp])[] = [
    ['a chamfer', 'a: { kind: chamfer, edges: top, size: 2 }', endMill('em-6', 6, 22), /chamfer mill of 90°/],
    [
      'an edge to round',
      'a: { kind: edge-round, edges: top, radius: 2 }',
      endMill('em-6', 6, 22),
      /corner rounder of 2 mm/,
    ],
    [
      'a counterbore',
      `a: { kind: hole, ${at}, diameter: 5, depth: through, counterbore: { diameter: 9, depth: 4 } }`,
      drill(5, 52),
      /counterbore cutter or end mill for 9 mm/,
    ],
    [
      'a countersink',
      `a: { kind: hole, ${at}, diameter: 5, depth: through, countersink: { diameter: 9, angle: 90 } }`,
      drill(5, 52),
      /countersink of 90°, 9 mm wide/,
    ],
    [
      'the drill before a reamer',
      `a: { kind: hole, ${at}, diameter: 6 H7, depth: through }`,
      `${drill(5, 52)}rm-6: { kind: reamer, diameter: 6, fit: H7, reach: 40, material: hss }\n`,
      /drill a little under 6 mm/,
    ],
    [
      'a slope',
      'a: { kind: slope, face: top, along: front, width: 8, angle: 25 }',
      drill(5, 52),
      /chamfer mill of .*°, or an end mill reaching 60 mm/,
    ],
    [
      'a flat floor of a leaning hole',
      `a: { kind: hole, ${at}, diameter: 5, depth: 12, bottom: flat, tilt: { about: y, angle: 10 } }`,
      drill(5, 52),
      /flat drill for a flat bottom/,
    ],
  ];
  for (const [what, feature, tools, wanted] of CASES)
    it(`names what ${what} takes`, () => {
      const own = (shop: Shop) =>
        checkPart(`${BLOCK}  ${feature}\n`, shop).findings.filter((f) => f.rule === 'access/no-tool');
      const [found, ...more] = own(shopWith(tools));
      assert.match(found?.message ?? 'nothing', wanted);
      assert.equal(more.length, 0);
      assert.equal(found?.severity, 'error');
      assert.equal(own({ ...shopWith(tools), builtIn: true })[0]?.severity, 'warning');
      assert.deepEqual(own(builtinShop()), []);
    });

  it('names faces with stock on them that nothing clears', () => {
    const text = `${BLOCK.replace('features:', 'stock: { form: flat-bar, sawn: [left, right], extra: { left: 2, right: 2 } }\nfeatures:')}  a: { kind: hole, ${at}, diameter: 5, depth: through }\n`;
    const own = (shop: Shop) => checkPart(text, shop).findings.filter((f) => f.rule === 'access/no-tool');
    assert.deepEqual(
      own(shopWith(drill(5, 52))).map((f) => [...f.of]),
      [['left', 'right']],
    );
    assert.deepEqual(own(shopWith(drill(5, 52) + endMill('em-10', 10, 30))), []);
  });

  it('judges the side of a face on the work as it is when its turn comes', () => {
    // 43 mm high with 4 mm of sawn stock under it: 47 from bottom to top until the bottom is faced; the mill reaches 45.
    const text = (cuts: string) => `part: ballast
material: aluminium-6061-t6
body: { x: 60, y: 60, z: 43 }
stock: { form: block, sawn: [left, bottom], extra: { left: 1.5, bottom: 4 } }
features:
  h: { kind: hole, face: top, at: { x: 45, y: 30 }, diameter: 5, depth: 20 }
setups:
  first: { up: top, hold: { vise: vise, jaws: [back, front], grip: 32, stop: right }, zero: { x: right, y: back, z: parallels }, cuts: [h] }
  second: { up: bottom, hold: { vise: vise, jaws: [back, front], grip: 32, stop: right }, zero: { x: right, y: back, z: parallels }, cuts: [${cuts}] }
`;
    const shop = shopWith(drill(5, 52) + endMill('em-16', 16, 45));
    const own = (cuts: string) => about(checkPart(text(cuts), shop).findings, 'left').map((f) => f.rule);
    assert.deepEqual(own('bottom, left'), []);
    assert.deepEqual(own('left, bottom'), ['access/reach']);
    const missing = (cuts: string) => {
      const checked = checkPart(text(cuts), shop);
      return timeOf(checked.part.setups!, checked).setups.flatMap((s) => s.missing);
    };
    assert.deepEqual(missing('bottom, left'), []);
    assert.equal(missing('left, bottom').length, 1);
  });

  it('is not told of what others cut wholly before its turn, but of one of two alike, and of what comes first', () => {
    // found by tests/planning: the planner cut such a hole last, where nothing is left of it
    const shop = shopWith(endMill('em-6', 6, 20));
    const cut =
      '{ kind: pocket, face: bottom, at: { x: 20, y: 20 }, size: { x: 24, y: 24 }, corner-radius: 4, depth: 6 }';
    const point = (name: string) =>
      `  ${name}: { kind: hole, face: bottom, at: { x: 20, y: 20 }, diameter: 8, bottom: flat, depth: 3, countersink: { diameter: 12, angle: 90 } }\n`;
    const told = (features: string, cuts?: string) => {
      const hold = 'hold: { vise: vise, jaws: [left, right], grip: 6 }';
      const setups = cuts ? `setups:\n  one: { up: bottom, ${hold}, cuts: [${cuts}] }\n` : '';
      const { findings } = checkPart(`${BLOCK}${features}${setups}`, shop);
      return findings.filter((f) => /no-tool/.test(f.rule)).flatMap((f) => f.of);
    };
    const covered = `  wide: ${cut}\n${point('small')}`;
    assert.deepEqual(told(covered), []);
    assert.deepEqual(told(covered, 'wide, small'), []);
    assert.ok(told(covered, 'small, wide').includes('small'));
    assert.ok(told(point('small')).length > 0);
    assert.ok(told(point('one') + point('two')).includes('one'));
  });

  it('says the widest that would do in the units of the part, and writes it', () => {
    const text = `units: in\n${BLOCK.replace('60', '3').replace('40', '2').replace('20', '1')}  a: { kind: chamfer, edges: top, size: 0.5 }\n`;
    const shop = shopWith(
      'cm-12: { kind: chamfer-mill, diameter: 12, tip: 1, angle: 90, reach: 20, material: carbide }\n',
    );
    const checked = checkPart(text, shop);
    const found = checked.findings.find((f) => f.rule === 'access/no-tool')!;
    assert.match(found.message, /over 1 in wide\. .*Make it 0\.215 in at most \(cm-12\)\./);
    assert.match(applied(checked, found), /size: 0\.215/);
  });
});

function applied(checked: CheckedPart, finding: Finding): string {
  const [fix] = fixesFor(checked, finding);
  assert.ok(fix, 'no fix');
  return fixed(checked, fix);
}
