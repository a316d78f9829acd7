/** Form taps: their own hole, share and torque; a cutting tap's hole is not theirs. */
import assert from 'node:assert/strict';
import { operationsOf } from '../../../server/src/process/operations';
import { priceOf } from '../../../server/src/process/operations/priced';
import { checkPart } from '../../../server/src/rules/check';
import { formHoleMm, formPercent } from '../../../server/src/tables/form-taps';
import { findMaterial } from '../../../server/src/tables/materials';
import { findThread } from '../../../server/src/tables/thread-names';
import { threadPercent } from '../../../server/src/tables/threads';
import { near } from '../../oracle/near';
import { drill, shopWith } from '../shops';
import { findingsOf, mended, onlyFinding } from '../tester';

const AL = 'aluminium-6061-t6';
const FORMS = 'form-m6: { kind: tap, thread: M6, forming: yes }\n';
const CUTS = 'cut-m6: { kind: tap, thread: M6 }\n';
const shop = (taps: string) => shopWith(drill(5, 80) + drill(5.55, 80) + taps);
const text = (more: string) => `part: p
material: ${AL}
body: { x: 40, y: 40, z: 20 }
features:
  h: { kind: hole, face: top, at: { x: 20, y: 20 }, thread: M6${more}, depth: through, thread-depth: 12 } # seen
`;
const tapOf = (more: string, taps: string) => {
  const { part, solid, shop: s } = checkPart(text(more), shop(taps));
  const o = operationsOf(part.features[0]!, { part, solid, shop: s }).find((c) => c.does === 'tap');
  return o && priceOf(o, findMaterial(AL)!, s.machines[0]!);
};

describe('form taps', () => {
  it('hole: a published worked example, 1/2-13 at 65 %: 0.4660 in; M6 5.55, M8 7.4, M10 9.3 (makers’ charts, from memory)', () => {
    near(formHoleMm(findThread('1/2-13')!) / 25.4, 0.466, 0.00005);
    for (const [name, mm] of [
      ['M6', 5.55],
      ['M8', 7.4],
      ['M10', 9.3],
    ] as const)
      near(formHoleMm(findThread(name)!), mm, 0.06, name);
    near(formPercent(findThread('M6')!, formHoleMm(findThread('M6')!, 70)), 70, 1e-9);
    // The same hole is hardly a thread for a tap that cuts.
    assert.ok(threadPercent(findThread('M6')!, 5.55) < 40);
  });

  it('are chosen for their hole, and the tap that cuts for its own', () => {
    const named = (more: string, taps: string) => tapOf(more, taps)?.operation;
    const tool = (o: ReturnType<typeof named>) => (o && o.does !== 'missing' ? o.tool.name : undefined);
    assert.equal(tool(named(', diameter: 5.55', CUTS + FORMS)), 'form-m6');
    assert.equal(tool(named('', FORMS + CUTS)), 'cut-m6');
    assert.equal(tool(named(', diameter: 5.55', CUTS)), 'cut-m6');
    assert.equal(tool(named('', FORMS)), undefined);
  });

  it('are turned two to three times as hard as those that cut', () => {
    const ratio = tapOf(', diameter: 5.55', FORMS)!.torqueNm! / tapOf('', CUTS)!.torqueNm!;
    assert.ok(ratio >= 2 && ratio <= 3);
  });

  it('the share of thread is theirs: 5.55 is right for one, strips from one that cuts', () => {
    for (const rule of ['thread/percent', 'thread/hole-conflict', 'thread/no-tap'])
      assert.deepEqual(findingsOf(rule, text(', diameter: 5.55'), shop(FORMS)), [], rule);
    const strips = onlyFinding('thread/percent', text(', diameter: 5.55'), shop(CUTS));
    assert.match(strips.message, /35 % of the M6 thread/);
    const wide = onlyFinding('thread/percent', text(', diameter: 5.75'), shop(FORMS));
    assert.match(wide.message, /Make it 5\.56 mm, the hole for a form tap, for 65 %/);
    assert.match(
      mended('thread/percent', text(', diameter: 5.75'), /Make the diameter .*, its hole/, shop(FORMS)),
      /diameter: 5\.56/,
    );
  });

  it('in the hole of a tap that cuts breaks: said, with the hole that it needs', () => {
    const finding = onlyFinding('thread/no-tap', text(''), shop(FORMS));
    assert.match(finding.message, /is a form tap and breaks in a hole of 5 mm\. Drill 5\.56 mm for it/);
  });
});
