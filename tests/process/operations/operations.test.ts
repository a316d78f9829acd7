/** Which cuts make a feature, with hand-worked amounts; which cutter roughs and finishes, and why others do not. */
import assert from 'node:assert/strict';
import type { Shop } from '../../../server/src/model/shop-model';
import { milledVoids } from '../../../server/src/process/milling';
import { operationsOf } from '../../../server/src/process/operations';
import { passedOver } from '../../../server/src/process/operations/passed-over';
import { priceOf } from '../../../server/src/process/operations/priced';
import { checkPart } from '../../../server/src/rules/check';
import { findMaterial } from '../../../server/src/tables/materials';
import { drill, endMill, shopWith, tap } from '../../rules/shops';

const ALUMINIUM = findMaterial('aluminium-6061-t6')!;

function of(feature: string, shop: Shop, body = '{ x: 80, y: 60, z: 20 }') {
  const text = `part: p\nunits: mm\nmaterial: aluminium-6061-t6\nbody: ${body}\nfeatures:\n  it: ${feature}\n`;
  const { part, solid } = checkPart(text, shop);
  const it = part.featureByName.get('it')!;
  return { part, solid, it, operations: operationsOf(it, { part, solid, shop }) };
}
const does = (o: ReturnType<typeof of>) =>
  o.operations.map((x) => (x.does === 'missing' ? `missing ${x.wanted}` : `${x.does} ${x.tool.name} ×${x.times}`));
const POCKET =
  '{ kind: pocket, face: top, at: { x: 40, y: 30 }, size: { x: 60, y: 40 }, corner-radius: 2.5, depth: 8 }';

describe('the cuts of a hole', () => {
  it('a plain one is drilled, a thread tapped after its tap drill, each once for every member', () => {
    const shop = shopWith(drill(4.2, 43) + tap('M5', 'plug', 20));
    const it = of(
      '{ kind: hole, face: top, at: { x: center, y: center }, pattern: { line: { x: 30, count: 2 } }, thread: M5, depth: 14, thread-depth: 10 }',
      shop,
    );
    assert.deepEqual(does(it), ['drill dr-4.2 ×2', 'tap tap-m5-plug ×2']);
    const tapping = it.operations[1]!;
    assert.equal('pitchMm' in tapping && tapping.pitchMm, 0.8);
    assert.equal('depthMm' in tapping && tapping.depthMm, 10);
  });

  it('a close one is reamed, after a drill a little smaller', () => {
    const shop = shopWith(`${drill(9.8, 80)}r10: { kind: reamer, diameter: 10, fit: H7, reach: 60 }\n`);
    const it = of('{ kind: hole, face: top, at: { x: 40, y: 30 }, diameter: 10 H7, depth: through }', shop);
    assert.deepEqual(does(it), ['drill dr-9.8 ×1', 'ream r10 ×1']);
    const alone = of(
      '{ kind: hole, face: top, at: { x: 40, y: 30 }, diameter: 10 H7, depth: through }',
      shopWith('r10: { kind: reamer, diameter: 10, fit: H7, reach: 60 }\n'),
    );
    assert.match(does(alone)[0]!, /missing drill a little under 10 mm/);
  });

  it('a bored one has its flat floor milled, for the head cuts at its rim and the drill leaves a cone', () => {
    const bored = (tools: string, bottom: string) =>
      does(
        of(
          `{ kind: hole, face: top, at: { x: 40, y: 30 }, diameter: 22 H7, depth: 7, bottom: ${bottom} }`,
          shopWith(`${drill(20, 140)}bh: { kind: boring-head, diameter: 10, largest: 50, reach: 50 }\n${tools}`),
        ),
      );
    const mills = endMill('em-16', 16, 36) + endMill('bn-16', 16, 36, 'corner-radius: 1');
    assert.deepEqual(bored(mills, 'flat'), ['drill dr-20 ×1', 'rough em-16 ×1', 'bore bh ×1']);
    assert.deepEqual(bored(mills, 'cone'), ['drill dr-20 ×1', 'bore bh ×1']);
    assert.deepEqual(bored('', 'flat'), [
      'drill dr-20 ×1',
      'bore bh ×1',
      'missing end mill or flat drill for a flat bottom',
    ]);
  });

  it('says what is missing', () => {
    assert.deepEqual(
      does(of('{ kind: hole, face: top, at: { x: 40, y: 30 }, diameter: 7, depth: 12 }', shopWith(drill(4, 40)))),
      ['missing drill, reamer or bore of 7 mm, 12 mm deep'],
    );
  });
});

describe('the cuts of a pocket', () => {
  it('are one cutter’s where only one fits, with the volume and way of the geometry', () => {
    const it = of(POCKET, shopWith(endMill('em-5', 5, 16)));
    assert.deepEqual(does(it), ['rough em-5 ×1', 'finish em-5 ×1']);
    const [rough, finish] = it.operations;
    // 60 × 40 less four corners of (1 − π/4) r², 8 deep.
    const area = 60 * 40 - (4 - Math.PI) * 2.5 ** 2;
    const way = 2 * 55 + 2 * 35 + 2 * Math.PI * 2.5;
    assert.ok(finish?.does === 'finish' && Math.abs(finish.wayMm - way) < 1e-6 && finish.wideMm === 0.2);
    // What is left on the wall is the finish's.
    assert.ok(rough?.does === 'rough' && Math.abs(rough.volumeMm3 - 8 * (area - 0.2 * way)) < 1e-6 * 8 * area);
  });

  it('are roughed with a larger cutter where that saves more than the change of tool', () => {
    const it = of(POCKET, shopWith(endMill('em-5', 5, 16) + endMill('em-12', 12, 30)));
    assert.deepEqual(does(it), ['rough em-12 ×1', 'rest em-5 ×1', 'finish em-5 ×1']);
    const small = POCKET.replace('60, y: 40', '14, y: 14').replace('depth: 8', 'depth: 3');
    assert.deepEqual(does(of(small, shopWith(endMill('em-5', 5, 16) + endMill('em-12', 12, 30)))), [
      'rough em-5 ×1',
      'finish em-5 ×1',
    ]);
  });

  it('tell why others were passed over', () => {
    const shop = shopWith(
      endMill('em-4', 4, 12) + endMill('em-5', 5, 6) + endMill('em-8', 8, 30) + endMill('em-50', 50, 60),
    );
    const { it, part, solid } = of(POCKET, shop);
    const [m] = milledVoids(it, part, solid);
    const why = new Map(passedOver(m!, solid, shop).map((p) => [p.tool.name, p.why]));
    assert.match(why.get('em-4')!, /works/);
    assert.match(why.get('em-5')!, /reaches 6 mm, and 8 mm are needed/);
    assert.match(why.get('em-8')!, /4 mm does not go into a corner of 2\.5 mm/);
    assert.match(why.get('em-50')!, /wider than the narrowest place, 40 mm/);
  });
});

describe('what a cut takes', () => {
  const shop = shopWith(endMill('em-10', 10, 25) + endMill('em-5', 5, 16) + drill(6, 60));
  const [machine] = shop.machines;
  const priced = (feature: string, body?: string) =>
    of(feature, shop, body).operations.map((o) => priceOf(o, ALUMINIUM, machine!));

  it('keeps within the spindle’s revolutions, power and feed, and says which of them limits', () => {
    for (const p of priced(POCKET)) {
      assert.ok(p.conditions!.rpm <= machine!.rpm[1] + 1e-9);
      assert.ok(p.powerW! <= 0.8 * machine!.powerW + 1e-6);
      assert.ok(p.minutes[0] > 0 && p.minutes[1] > p.minutes[0] && Number.isFinite(p.minutes[1]));
    }
    // 5 mm carbide in aluminium wants far more than 5000 rpm.
    assert.equal(priced(POCKET).at(-1)!.conditions!.rpm, 5000);
  });

  it('twice the volume takes twice the roughing time; a deeper hole more pecks', () => {
    const [one] = priced(POCKET);
    const [two] = priced(POCKET.replace('depth: 8', 'depth: 16'), '{ x: 80, y: 60, z: 30 }');
    assert.ok(two!.minutes[0] / one!.minutes[0] > 1.8 && two!.minutes[0] / one!.minutes[0] < 2.6);
    const hole = (depth: number) =>
      priced(
        `{ kind: hole, face: top, at: { x: 40, y: 30 }, diameter: 6, depth: ${depth} }`,
        '{ x: 80, y: 60, z: 60 }',
      )[0]!;
    assert.ok(hole(48).minutes[0] > 2.5 * hole(20).minutes[0]);
  });
});
