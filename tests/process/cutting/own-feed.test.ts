/**
 * A tool's own feed per tooth, as its maker or the shop says it: read in every kind with teeth, taken for every cut, told
 * with its source. Feed by hand: vf = fz · z · n (closed form).
 */
import assert from 'node:assert/strict';
import { operationsOf } from '../../../server/src/process/operations';
import { priceOf } from '../../../server/src/process/operations/priced';
import type { Operation } from '../../../server/src/process/operations/types';
import { formulaeOf } from '../../../server/src/report/cut-formulae';
import { cutLine } from '../../../server/src/report/cuts';
import { checkPart, checkShop } from '../../../server/src/rules/check';
import { findMaterial } from '../../../server/src/tables/materials';

const shopText = (tools: string, units = 'mm') => `shop: bench
units: ${units}
machines: { m: { travel: { x: 400 mm, y: 220 mm, z: 380 mm }, spindle: { rpm: [50, 2000], power: 2 kW }, coolant: flood } }
tools:
${tools}
`;
function shopOf(tools: string, units = 'mm') {
  const { shop, findings } = checkShop(shopText(tools, units));
  assert.deepEqual(
    findings.map((f) => f.message),
    [],
  );
  return shop;
}

interface Cutting {
  readonly tool: string;
  readonly feature: string;
  readonly does: Operation['does'];
  readonly teeth: number;
}
const AL = 'aluminium-6061-t6';
const WAY = 'at: { x: 40, y: 30 }';
const SLOT = 'ends: [{ x: -20, y: center }, { x: 100, y: center }]';
const CUTS: readonly Cutting[] = [
  {
    tool: '{ kind: end-mill, diameter: 10, flutes: 3, reach: 30',
    feature: `{ kind: pocket, face: top, ${WAY}, size: { x: 50, y: 40 }, corner-radius: 6, depth: 5 }`,
    does: 'rough',
    teeth: 3,
  },
  {
    tool: '{ kind: chamfer-mill, diameter: 8',
    feature: '{ kind: chamfer, edges: [top], size: 0.5 }',
    does: 'chamfer',
    teeth: 4,
  },
  {
    tool: '{ kind: corner-rounder, diameter: 10, corner-radius: 2, flutes: 4, reach: 6',
    feature: '{ kind: edge-round, edges: [top], radius: 2 }',
    does: 'round',
    teeth: 4,
  },
  {
    tool: '{ kind: engraver, diameter: 0.3, flutes: 1',
    feature: `{ kind: engraving, face: top, ${WAY}, text: A1, height: 8, depth: 0.2, stroke: 0.3 }`,
    does: 'engrave',
    teeth: 1,
  },
  {
    tool: '{ kind: slitting-saw, diameter: 63, thickness: 1.6, flange: 25, below: 2, flutes: 40, reach: 32, shank: 16',
    feature: `{ kind: slot, face: top, ${SLOT}, width: 1.6, depth: 12 }`,
    does: 'slot',
    teeth: 40,
  },
  {
    tool: '{ kind: dovetail-cutter, diameter: 16, neck: 7, angle: 60, thickness: 7, reach: 12, flutes: 6',
    feature: `{ kind: slot, face: top, ${SLOT}, width: 22, depth: 6, dovetail: { angle: 60 } }`,
    does: 'undercut',
    teeth: 6,
  },
];

function cutOf({ tool, feature, does }: Cutting, own: string, material = AL) {
  // What opens the slot for a form cutter.
  const opens = does === 'undercut' ? '  em-12: { kind: end-mill, diameter: 12, reach: 30 }\n' : '';
  const shop = shopOf(`${opens}  t: ${tool}${own} }`);
  const { part, solid } = checkPart(
    `part: p\nmaterial: ${material}\nbody: { x: 80, y: 60, z: 20 }\nfeatures: { f: ${feature} }\n`,
    shop,
  );
  const operation = operationsOf(part.features[0]!, { part, solid, shop }).find((o) => o.does === does);
  assert.ok(operation && operation.does !== 'missing' && operation.tool.name === 't', `${does} of ${feature}`);
  return { priced: priceOf(operation, findMaterial(material)!, shop.machines[0]!), machine: shop.machines[0]! };
}

describe('a tool’s own feed per tooth', () => {
  for (const cut of CUTS)
    it(`is what a ${/kind: ([\w-]+)/.exec(cut.tool)![1]} is fed with: its teeth and turns times it`, () => {
      const { milling } = cutOf(cut, ', feed-per-tooth: 0.004').priced;
      assert.ok(milling?.ownFeed);
      assert.ok(Math.abs(milling.feedPerToothMm - 0.004) < 1e-9, `${milling.feedPerToothMm}`);
      assert.ok(Math.abs(milling.feedMmPerMin - 0.004 * cut.teeth * milling.rpm) < 1e-6);
      assert.equal(cutOf(cut, '').priced.milling?.ownFeed, false);
    });

  it('is told with its source, in line and formula; forces and time follow it', () => {
    const [cut] = CUTS as readonly [Cutting];
    const [own, tables] = [cutOf(cut, ', feed-per-tooth: 0.02'), cutOf(cut, '')];
    assert.match(cutLine(own.priced, 'mm', own.machine), /feed \d+ mm\/min \(shop: at most 0\.02 mm a tooth\)/);
    assert.doesNotMatch(cutLine(tables.priced, 'mm', tables.machine), /shop/);
    const feed = formulaeOf(own.priced, findMaterial(AL)!, own.machine).find((f) => f.what === 'feed')!;
    assert.equal(feed.source, 'shop: `feed-per-tooth` of t');
    assert.match(feed.how, /fz at most 0\.02 mm a tooth/);
    assert.ok(own.priced.minutes[0] > tables.priced.minutes[0]);
  });

  it('is the most: a narrow cut is not fed more, and power or bending still slow it', () => {
    const [cut] = CUTS as readonly [Cutting];
    const finish = { ...cut, does: 'finish' as const };
    assert.ok(cutOf(finish, ', feed-per-tooth: 0.02').priced.milling!.feedPerToothMm <= 0.02 + 1e-12);
    const much = cutOf({ ...cut, does: 'rough' }, ', feed-per-tooth: 2').priced.milling!;
    assert.ok(much.feedPerToothMm < 2 && much.limitedBy !== 'range', much.limitedBy);
  });

  it('is a length: in inches, with a unit, and refused where it is none or means nothing', () => {
    const read = (field: string, units = 'mm', kind = 'end-mill, reach: 20') =>
      checkShop(shopText(`  t: { kind: ${kind}, diameter: ${units === 'in' ? 0.25 : 6}, ${field} }`, units));
    const mm = (field: string, units?: string) => read(field, units).shop.tools[0]!.feedPerToothMm;
    assert.equal(mm('feed-per-tooth: 0.002', 'in')!.toFixed(4), '0.0508');
    assert.equal(mm('feed-per-tooth: 0.03 mm', 'in'), 0.03);
    assert.equal(mm(''), undefined);
    assert.match(read('feed-per-tooth: 0').findings[0]!.message, /more than 0/);
    assert.equal(read('feed-per-tooth: 0.03', 'mm', 'drill').findings[0]!.rule, 'form/schema');
  });
});
