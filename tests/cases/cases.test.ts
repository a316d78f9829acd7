/**
 * Small parts that were judged by hand, as a machinist would: what is said of each, and what is not. Each stands for a
 * judgement that was once wrong, in whole: text, shop, findings, cutters. Common practice, no source, unless a rule's page
 * names one.
 */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { builtinShop } from '../../server/src/model/builtin-shop';
import type { Setup } from '../../server/src/model/model';
import { resolveShop } from '../../server/src/model/shop';
import { planOf } from '../../server/src/planning/plan';
import { writeSetups } from '../../server/src/planning/write';
import { pricedCuts } from '../../server/src/report/cuts';
import { checkPart } from '../../server/src/rules/check';
import type { CheckedPart } from '../../server/src/rules/checked-part';
import { applyEdits, locateEdits } from '../../server/src/text/edit';
import { readText } from '../../server/src/text/read';

const FOLDER = resolve(__dirname, 'parts');
const bench = resolveShop(readText(readFileSync(resolve(FOLDER, 'bench/bench.shop.yaml'), 'utf8')), 'bench.shop.yaml');

function textOf(name: string): string {
  return readFileSync(resolve(FOLDER, `${name}.part.yaml`), 'utf8');
}
const shopOf = (name: string) => (name.startsWith('bench/') ? bench : builtinShop());
const checked = (name: string, text = textOf(name)): CheckedPart => checkPart(text, shopOf(name));
const serious = (of: CheckedPart) =>
  of.findings.filter((f) => f.severity !== 'hint').map((f) => `${f.severity} ${f.rule}`);

/** Said among others; each as `severity rule`. */
const SAID: Readonly<Record<string, readonly string[]>> = {
  'acetal-squeezed': ['warning hold/squeeze', 'warning tol/process'],
  'across-default-probe': ['warning setup/across'],
  'bar-group': ['warning stock/as-supplied'],
  'chamfer-web': ['error wall/thin'],
  'fork-better-order': ['warning access/reach'],
  'fork-squeezed': ['warning hold/squeeze'],
  'beside-jaws-half': ['warning access/jaw'],
  'beside-jaws-none': ['error access/jaw'],
  'clamped-above-plate': ['warning hold/angle-plate'],
  'drill-point-over': ['warning access/reach', 'warning hole/depth-ratio'],
  'drilled-far-out': ['warning hold/tips-out'],
  'gap-at-jaw-tops': ['error access/jaw'],
  'jaw-end-graze': ['error access/jaw'],
  'jaw-top-graze': ['error access/jaw'],
  'key-at-the-jaw': ['warning setup/clocked'],
  'no-tap-m16': ['warning thread/no-tap'],
  'over-jaws-half': ['warning access/jaw'],
  'over-jaws-none': ['error access/jaw'],
  'placed-from-sawn': ['warning hold/on-sawn'],
  'reamed-beside-slot': ['warning hold/squeeze'],
  'round-low-after-bore': ['error hold/parallel'],
  'round-low-control': ['error hold/parallel'],
  'round-low-cross-hole': ['error hold/parallel'],
  'sawn-toleranced': ['warning hold/on-sawn'],
  'slit-before-bore': ['warning setup/order', 'warning hold/squeeze'],
  'split-from-beside': ['warning setup/order'],
  'step-two': ['error corner/square'],
  'strap-overlapped': ['error access/jaw'],
  'tabs-at-the-ends': ['error hold/cut-free'],
  'tabs-frame-eaten': ['error hold/cut-free'],
  'tabs-too-narrow': ['error hold/cut-free'],
  'tall-window-half': ['warning setup/unassigned'],
  'tall-in-vise': ['warning machine/travel'],
  'thread-strength': ['hint thread/too-short'],
  'travel-forgets-cutter': ['warning machine/travel'],
  'bench/drill-point-a': ['error access/reach'],
  'bench/drill-point-b': ['error access/reach'],
  'bench/drill-point-c': ['error access/holder'],
};

/** No error and no warning. */
const CLEAN: readonly string[] = [
  'beside-jaws-one',
  'clamped-before-plate',
  'coaxial-entry',
  'drill-point-just',
  'drilled-out',
  'form-cutters',
  'half-from-each-side-written',
  'held-by-surplus-written',
  'hole-equal-cutter',
  'key-p9',
  'm10-in-25-bar',
  'over-jaws-one',
  'pocket-equal-cutter',
  'rough-width',
  'sawn-then-faced',
  'seat-h7',
  'step-beyond-the-jaws',
  'tabs-all-round',
  'tall-window-halved',
  'three-clamps',
  'two-seats',
  'upright-chamfer-written',
  'upright-corner-control',
  'upright-step-control',
  'wall-finish',
  'bench/turned-before-wall-written',
  'bench/rounded-reach',
];

/** Rules that say nothing of it. */
const SILENT: Readonly<Record<string, readonly string[]>> = {
  'coaxial-entry': ['hole/sloped-start', 'hole/entry'],
  'key-indicated': ['setup/clocked'],
  'm10-in-25-bar': ['hole/near-edge'],
  'seat-h7': ['hole/screw-head', 'hole/stacked'],
  'tall-in-vise': ['safety/whip'],
  'wall-finish': ['wall/deflects'],
};

/** Which set-ups a planner finds, by the faces up; the text of the plan is then as the plan says. */
const PLANNED: Readonly<Record<string, readonly string[]>> = {
  'fork-better-order': ['top', 'back', 'right'],
  'half-from-each-side': ['top', 'bottom'],
  'held-by-surplus': ['top', 'bottom'],
  'upright-chamfer': ['top'],
  'rough-width': ['top'],
  'bench/turned-before-wall': ['top', 'bottom'],
};

describe('parts that were judged by hand', () => {
  for (const [name, said] of Object.entries(SAID))
    it(`${name}: ${said.join(', ')}`, () => {
      const found = checked(name).findings.map((f) => `${f.severity} ${f.rule}`);
      for (const one of said) assert.ok(found.includes(one), found.join('\n'));
    });

  for (const name of CLEAN) it(`${name}: clean`, () => assert.deepEqual(serious(checked(name)), []));

  for (const [name, rules] of Object.entries(SILENT))
    it(`${name}: no ${rules.join(', ')}`, () => {
      const found = checked(name).findings.map((f) => f.rule);
      for (const rule of rules) assert.ok(!found.includes(rule), found.join());
    });

  it('of a missing tap it says borrow or buy, not another thread; of a thread that strips, at what load', () => {
    const [tap] = checked('no-tap-m16').findings.filter((f) => f.rule === 'thread/no-tap');
    assert.match(tap!.message, /Borrow or buy one \(tap drill 14 mm\)/);
    assert.doesNotMatch(tap!.message, /M12|M10|M8/);
    const [thread] = checked('thread-strength').findings.filter((f) => f.rule === 'thread/too-short');
    assert.match(thread!.message, /strips at 9\.3 kN, the screw breaks at 11\.3 kN/);
    assert.match(checked('step-two').findings[0]!.message, /only the corner where both meet.*write two steps/s);
  });
});

it('of a depth just over what a drill reaches it says by how much', () => {
  const [deep] = checked('drill-point-over').findings.filter((f) => f.rule === 'hole/depth-ratio');
  assert.match(deep!.message, /10\.1 times its diameter.* with pecking 10 /);
});

describe('their cutters', () => {
  const cuts = (name: string, feature: string) => {
    const of = checked(name);
    return pricedCuts(of.part.featureByName.get(feature)!, of).map(({ operation: o, milling, passes }) => ({
      does: o.does,
      tool: 'tool' in o ? o.tool.name : undefined,
      milling,
      passes,
    }));
  };
  const tools = (name: string, feature: string) => [...new Set(cuts(name, feature).map((c) => c.tool))];

  it('leave stock on both walls and can get in', () => {
    assert.deepEqual(tools('key-p9', 'key'), ['em-6']);
    assert.deepEqual(tools('slot-equal-cutter', 'q'), ['em-6']);
    assert.deepEqual(tools('hole-equal-cutter', 'a'), ['em-10']);
    assert.deepEqual(tools('hole-equal-cutter', 'b'), ['em-8']);
    assert.ok(!tools('pocket-equal-cutter', 'recess').includes('em-16'));
  });

  it('take no more than is there, in as many passes as it needs', () => {
    const rough = cuts('rough-width', 's').find((c) => c.does === 'rough')!;
    assert.ok(rough.milling!.aeMm <= 1);
    for (const feature of ['a', 'b']) {
      const finish = cuts('wall-passes', feature).find((c) => c.does === 'finish')!;
      assert.equal(finish.milling!.apMm, 18);
    }
    const dovetail = cuts('form-cutters', 'dove').find((c) => c.does === 'undercut')!;
    assert.ok(dovetail.milling!.feedPerToothMm <= 0.03 && dovetail.passes! >= 2);
    const tee = cuts('form-cutters', 'tee').find((c) => c.does === 'undercut')!;
    assert.ok(tee.milling!.feedPerToothMm <= 0.05);
  });
});

describe('their plans', () => {
  const withoutSetups = (text: string) => text.replace(/^setups:\n(?: .*\n|\n)*/m, '');
  const ups = (setups: readonly Setup[]) => setups.map((s) => s.up?.name);

  for (const [name, wanted] of Object.entries(PLANNED))
    it(`${name}: ${wanted.join(', ')} up, and its text says what the plan says`, function () {
      this.timeout(60_000);
      const of = checked(name, withoutSetups(textOf(name)));
      const plan = planOf(of);
      assert.ok(plan);
      const setups = plan.setups.map((s) => s.setup);
      assert.deepEqual(ups(setups), wanted);
      const written = applyEdits(of.tree.text, locateEdits(of.tree, writeSetups(setups, of.part, of.tree)));
      const again = checked(name, written);
      const planned = plan.setups.flatMap((s) => s.warnings).filter((f) => f.severity === 'error');
      assert.deepEqual(
        again.findings.filter((f) => f.severity === 'error').map((f) => f.rule),
        planned.map((f) => f.rule),
      );
      assert.ok(again.findings.filter((f) => f.severity === 'warning').length <= 1, serious(again).join());
    });

  it('a tiny part is never held by two clamps that are nearer than they are wide', function () {
    this.timeout(60_000);
    const plan = planOf(checked('tiny-on-bar'))!;
    for (const { setup } of plan.setups) {
      const [a, b] = setup.hold?.clamps ?? [];
      if (a && b) assert.ok(Math.hypot(a.u - b.u, a.v - b.v) >= 25, `${setup.name}`);
    }
  });
});
