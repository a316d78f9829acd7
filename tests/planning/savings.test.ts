/** cost/tool-changes and cost/slow-feature: raised by their bad examples, cured by what they offer, by numbers worked by hand. */
import assert from 'node:assert/strict';
import { BUILTIN_SHOP_TEXT } from '../../server/generate/builtin-shop';
import { builtinShop } from '../../server/src/model/builtin-shop';
import type { Shop } from '../../server/src/model/shop-model';
import { plannerFindings } from '../../server/src/planning/findings';
import { pieceTime } from '../../server/src/planning/piece-time';
import { costFindings } from '../../server/src/planning/savings';
import { checkPart, checkShop, fixesFor } from '../../server/src/rules/check';
import { slowFeature } from '../../server/src/rules/cost/slow-feature';
import { toolChanges } from '../../server/src/rules/cost/tool-changes';
import { actionsOf } from '../../server/src/service/actions';
import { PlanSoon } from '../../server/src/service/plan/scheduler';
import { Workspace } from '../../server/src/service/workspace';
import { applyEdits, locateEdits } from '../../server/src/text/edit';

const SHOP = builtinShop();
const found = (text: string, shop: Shop = SHOP) => costFindings(checkPart(text, shop));
const minutes = (text: string) => pieceTime(checkPart(text, SHOP))!.machine.firstPiece;

describe('what a change to the part would save', () => {
  for (const rule of [toolChanges, slowFeature])
    it(`${rule.name}: its bad example raises it, its fix cures it and saves what it says, its good one does not`, () => {
      const checked = checkPart(rule.bad, SHOP);
      const [finding, ...others] = costFindings(checked);
      assert.deepEqual(others, []);
      assert.equal(finding?.rule, rule.name);
      assert.equal(finding.severity, 'hint');
      const [fix] = fixesFor(checked, finding);
      assert.ok(fix && !fix.safe);
      const text = applyEdits(rule.bad, locateEdits(checked.tree, fix.edits));
      assert.deepEqual(found(text), []);
      const [before, after] = [minutes(rule.bad), minutes(text)];
      const saved = [before[0] - after[0], before[1] - after[1]].sort((a, b) => a - b);
      assert.ok(Math.abs(saved[0]! - Number(finding.facts.saved_low_min)) < 1e-3);
      assert.ok(Math.abs(saved[1]! - Number(finding.facts.saved_high_min)) < 1e-3);
      assert.deepEqual(found(rule.good), []);
    });

  it('a drill less: one change of 90 s and one length touched off, 1.5 + 0.5 to 2.25 + 2 min, less seconds of cutting', () => {
    const [finding] = found(toolChanges.bad);
    assert.ok(Math.abs(Number(finding!.facts.saved_low_min) - 2) < 0.1);
    assert.ok(Math.abs(Number(finding!.facts.saved_high_min) - 4.25) < 0.1);
    assert.equal(finding!.facts.spared, 'dr-5');
    assert.equal(Number(finding!.facts.tools) - Number(finding!.facts.needed), 1);
    assert.match(finding!.message, /vent of 5\.5 mm, like tie/);
  });

  const quiet: Readonly<Record<string, string>> = {
    'a size with a tolerance': toolChanges.bad.replace('diameter: 5,', 'diameter: 5 ±0.05,'),
    'a screw’s hole': toolChanges.bad.replace('diameter: 5,', 'thread: M6,'),
    'sizes farther apart': toolChanges.bad.replace('diameter: 5,', 'diameter: 4.9,'),
    'a size that another hole needs as well': `${toolChanges.bad}  pin: { kind: hole, face: top, at: { x: 30, y: 8 }, diameter: 5 ±0.1, depth: through }\n`,
    'what is not understood': toolChanges.bad.replace('depth: through }\n  vent', 'depht: through }\n  vent'),
  };
  for (const [what, text] of Object.entries(quiet))
    it(`leaves ${what} alone`, () => {
      assert.deepEqual(found(text), []);
    });

  it('is the shop’s to set, and not told where a tool is changed in seconds', () => {
    const shop = (more: string) => checkShop(`${BUILTIN_SHOP_TEXT.trimEnd()}\n${more}`).shop;
    assert.equal(found(toolChanges.bad, shop('')).length, 1);
    assert.deepEqual(found(toolChanges.bad, shop('limits: { cost/tool-changes: { saves: 3 } }\n')), []);
    assert.deepEqual(
      found(slowFeature.bad, shop('limits: { cost/slow-feature: { share: 99 }, cost/tool-changes: { saves: 500 } }\n')),
      [],
    );
    const quick = BUILTIN_SHOP_TEXT.replace(/tool-change: 90 s/, 'tool-change: 5 s');
    assert.notEqual(quick, BUILTIN_SHOP_TEXT);
    assert.deepEqual(
      found(toolChanges.bad, checkShop(`${quick.trimEnd()}\ntimes: { touch-off: [0.1, 0.2] }\n`).shop),
      [],
    );
  });

  it('is told in an editor after a quiet moment only, with its fix', async () => {
    const pending: (() => void)[] = [];
    const host = {
      read: async (path: string) => (path === '/a/p.part.yaml' ? toolChanges.bad : undefined),
      list: async () => [],
      documents: async () => [],
      log: () => {},
      later: (_ms: number, work: () => void) => {
        pending.push(work);
        return () => {};
      },
    };
    const snapshot = (await new Workspace(host).snapshot('/a/p.part.yaml'))!;
    const soon = new PlanSoon(host, () => {});
    const told = () => soon.with(snapshot).findings.filter((f) => f.rule === 'cost/tool-changes');
    assert.deepEqual(told(), []);
    pending[0]!();
    assert.equal(told().length, 1);
    const whole = { start: { line: 0, character: 0 }, end: { line: 9, character: 0 } };
    const titles = actionsOf(soon.with(snapshot), whole).map((a) => a.title);
    assert.ok(
      titles.some((t) => /^Make vent 5\.5 mm as well, like tie \(saves /.test(t)),
      titles.join(),
    );
    assert.ok(titles.includes('Accept cost/tool-changes of vent, and say why'));
  });

  it('is accepted like any other finding, and the entry is not called unneeded', () => {
    const entry = '  - { rule: cost/tool-changes, of: vent, because: two gauges }\n';
    const checked = checkPart(`${toolChanges.bad}accept:\n${entry}`, SHOP);
    assert.equal(costFindings(checked).length, 1);
    assert.deepEqual(plannerFindings(checked), []);
    assert.deepEqual(checked.findings, []);
    const other = checkPart(`${toolChanges.bad}accept:\n${entry.replace('vent', 'tie')}`, SHOP);
    assert.equal(plannerFindings(other).length, 1);
  });

  it('two corner radii that could be one spare the cutter of the smaller', () => {
    const text = (radius: number) => `part: tray
material: aluminium-6061-t6
body: { x: 120, y: 60, z: 20 }
features:
  left-well: { kind: pocket, face: top, at: { x: 32, y: center }, size: { x: 36, y: 30 }, corner-radius: 5, depth: 8 }
  right-well: { kind: pocket, face: top, at: { x: 88, y: center }, size: { x: 36, y: 30 }, corner-radius: ${radius}, depth: 8 }
`;
    assert.deepEqual(found(text(5)), []);
    const checked = checkPart(text(4), SHOP);
    const [finding] = costFindings(checked);
    assert.equal(finding?.rule, 'cost/tool-changes');
    assert.deepEqual(finding.of, ['right-well']);
    assert.match(fixesFor(checked, finding)[0]!.title, /Round the inside corners of right-well with [58] mm/);
  });

  it('a round without its form cutter becomes a chamfer that takes nothing the round would leave', () => {
    const text = `part: lid
material: aluminium-6061-t6
body: { x: 120, y: 80, z: 20 }
features:
  rim: { kind: edge-round, edges: top, radius: 4 }
`;
    const checked = checkPart(text, SHOP);
    const [finding] = costFindings(checked);
    assert.ok(finding && ['cost/slow-feature', 'cost/tool-changes'].includes(finding.rule));
    const [fix] = fixesFor(checked, finding);
    const after = applyEdits(text, locateEdits(checked.tree, fix!.edits));
    // 4 (2 − √2) = 2.343: to a tenth
    assert.match(after, /rim: \{ kind: chamfer, edges: top, size: 2\.3 \}/);
    assert.ok(checkPart(after, SHOP).solid.measures.volumeMm3 >= checked.solid.measures.volumeMm3);
  });

  it('leaves a groove that is round all over, for something round lies in it', () => {
    const text = `part: clip
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  cable: { kind: slot, face: top, ends: [{ x: -8, y: 20 }, { x: 68, y: 20 }], width: 6, depth: 5, floor-radius: 3 }
`;
    assert.deepEqual(found(text), []);
  });
});
