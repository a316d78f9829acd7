/** Corners on the work as it is when they are cut: stock still over them, another set-up's half, less beside them than elsewhere. */
import assert from 'node:assert/strict';
import { operationsOf } from '../../../server/src/process/operations';
import { checkPart } from '../../../server/src/rules/check';
import { endMill, shopWith } from '../shops';

/** 6 across reaching 22, 16 across reaching 50. */
const SHOP = shopWith(endMill('em-6', 6, 22) + endMill('em-16', 16, 50));
const ABOUT = new Set(['corner/inside-radius', 'access/reach', 'access/no-tool', 'corner/tight', 'corner/mixed']);

interface Written {
  readonly depth: number | string;
  readonly radius?: number;
  readonly extra?: number;
  readonly more?: string;
  readonly setups?: string;
}
const text = ({ depth, radius = 4, extra = 0, more = '', setups = '' }: Written) => `part: tray
units: mm
material: aluminium-6061-t6
body: { x: 80, y: 60, z: 40 }
${extra ? `stock: { form: block, extra: { top: ${extra} } }\n` : ''}features:
  tray: { kind: pocket, face: top, at: { x: 40, y: 30 }, size: { x: 50, y: 40 }, corner-radius: ${radius}, depth: ${depth} }
${more}${setups && `setups:\n${setups}`}`;
const up = (name: string, face: string, cuts: string) => `  ${name}: { up: ${face}, cuts: [${cuts}] }\n`;

function said(written: Written) {
  const { findings } = checkPart(text(written), SHOP);
  return findings.filter((f) => ABOUT.has(f.rule)).map((f) => ({ rule: f.rule, severity: f.severity, facts: f.facts }));
}
const rules = (written: Written) => said(written).map((s) => `${s.severity} ${s.rule}`);
const STEPS = `  left-low: { kind: step, face: top, along: left, width: 30, depth: 12 }
  right-low: { kind: step, face: top, along: right, width: 30, depth: 12 }
`;

describe('corners when they are cut', () => {
  it('are as deep as the stock that still stands over them', () => {
    // 20 deep and 6 of stock: 26, and em-6, which alone goes into corners of 4, reaches 22.
    const before = said({ depth: 20, extra: 6, setups: up('one', 'top', 'tray, top') });
    assert.deepEqual(
      before.map((s) => [s.rule, s.severity, s.facts.needed_mm, s.facts.longest_mm, s.facts.gap_mm]),
      [['access/reach', 'error', 26, 22, 8]],
    );
    assert.deepEqual(rules({ depth: 20, extra: 6, setups: up('one', 'top', 'top, tray') }), []);
    assert.deepEqual(rules({ depth: 16, extra: 6, setups: up('one', 'top', 'tray, top') }), []);
  });

  it('too deep in any case are told once, by their own rule, as deep as they are then', () => {
    const [one, ...more] = said({ depth: 24, extra: 6, setups: up('one', 'top', 'tray, top') });
    assert.deepEqual(more, []);
    assert.deepEqual([one!.rule, one!.severity, one!.facts.depth_mm], ['corner/inside-radius', 'error', 30]);
    // Without set-ups nobody knows of stock: the finished part.
    assert.equal(said({ depth: 24, extra: 6 })[0]!.facts.depth_mm, 24);
  });

  it('cut half from each side are half as deep', () => {
    const halves = up('one', 'top', 'tray') + up('two', 'bottom', 'tray');
    assert.deepEqual(rules({ depth: 'through', setups: halves }), []);
    assert.deepEqual(rules({ depth: 'through', setups: up('one', 'top', 'tray') }), ['error corner/inside-radius']);
    assert.deepEqual(rules({ depth: 'through' }), ['warning corner/inside-radius']);
  });

  it('are where a thin cutter must get down, not all along the walls that a larger one makes', () => {
    // 28 deep in the middle, 16 below the steps that lie about the corners.
    const lowered = { depth: 28, more: STEPS };
    for (const setups of ['', up('one', 'top', 'left-low, right-low, tray')])
      assert.deepEqual(rules({ ...lowered, setups }), [], setups);
    const { part, solid } = checkPart(text(lowered), SHOP);
    const cuts = operationsOf(part.features[0]!, { part, solid, shop: SHOP });
    const told = cuts.map((o) => [o.does, 'tool' in o && o.tool.name, 'depthMm' in o && Math.round(o.depthMm)]);
    assert.deepEqual(told, [
      ['rough', 'em-16', 28],
      ['finish', 'em-16', 28],
      // No more than the 16 below the steps: em-6 as it stands in the corner has its wall beside it lower than that.
      ['rest', 'em-6', told[2]![2]],
    ]);
    assert.ok(Number(told[2]![2]) <= 16);
    // Before the steps are cut the corners are 28 deep as well.
    assert.deepEqual(rules({ ...lowered, setups: up('one', 'top', 'tray, left-low, right-low') }), [
      'error access/reach',
    ]);
  });

  it('a cutter that fills them is found by what it must reach then', () => {
    // Two cutters for corners of 3.2: 6 across reaching 30, 4 across reaching 12. At 10 deep the smaller one rolls through;
    // with 6 of stock over it only the one that fills the corner reaches.
    const shop = shopWith(endMill('em-6', 6.3, 30) + endMill('em-5', 5, 12) + endMill('em-16', 16, 50));
    const tight = (cuts: string) =>
      checkPart(text({ depth: 10, radius: 3.2, extra: 6, setups: up('one', 'top', cuts) }), shop).findings.filter(
        (f) => f.rule === 'corner/tight',
      ).length;
    assert.deepEqual([tight('top, tray'), tight('tray, top')], [0, 1]);
  });
});
