/**
 * Mills for roughing alone leave grooves on a wall (DIN 1836 knows their profiles as NR and HR, from memory): another finishes.
 * Cutters with inserts do not cut over their middle, and go down no steeper and into no smaller hole than their makers say.
 */
import assert from 'node:assert/strict';
import { resolveShop } from '../../../server/src/model/shop';
import type { Mill, Shop } from '../../../server/src/model/shop-model';
import { operationsOf } from '../../../server/src/process/operations';
import { passedOverOf } from '../../../server/src/process/operations/passed-over';
import { priceOf } from '../../../server/src/process/operations/priced';
import { wayIn } from '../../../server/src/process/room';
import { checkPart } from '../../../server/src/rules/check';
import { findMaterial } from '../../../server/src/tables/materials';
import { readText } from '../../../server/src/text/read';

const FINISHER = 'em-10: { kind: end-mill, diameter: 10, flutes: 3, flute-length: 22, reach: 30 }';
const ROUGHER = 'rip-16: { kind: end-mill, diameter: 16, flutes: 4, flute-length: 32, reach: 42, roughing: yes }';
const shopOf = (...tools: string[]): Shop =>
  resolveShop(
    readText(`shop: club
machines: { mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.5 kW }, stiffness: 30 N/µm } }
vises: { vise: { jaw: { width: 100, height: 32 }, opens: 110, bed: 65, force: 15 kN } }
parallels: [10, 18]
tools:
${tools.map((t) => `  ${t}\n`).join('')}`),
  );
const PART = `part: tray
material: aluminium-6061-t6
body: { x: 90, y: 60, z: 30 }
features:
  well: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 70, y: 40 }, corner-radius: 6, depth: 20 }
`;
function cutsOf(shop: Shop, text = PART) {
  const { part, solid, findings } = checkPart(text, shop);
  const well = part.featureByName.get('well')!;
  const cuts = operationsOf(well, { part, solid, shop });
  return {
    cuts,
    told: cuts.map((o) => `${o.does} ${'tool' in o ? o.tool.name : o.wanted}`),
    part,
    solid,
    well,
    findings,
  };
}

describe('a mill for roughing alone', () => {
  it('roughs where that saves time, and another finishes', () => {
    const thin = 'em-4: { kind: end-mill, diameter: 4, flutes: 3, flute-length: 11, reach: 24 }';
    const { told } = cutsOf(shopOf(ROUGHER, thin));
    assert.deepEqual([told[0], told.at(-1)], ['rough rip-16', 'finish em-4']);
    // The same without its word does both where the corners let it.
    const open = cutsOf(
      shopOf(ROUGHER.replace(', roughing: yes', '')),
      PART.replace('corner-radius: 6', 'corner-radius: 10'),
    );
    assert.deepEqual(open.told, ['rough rip-16', 'finish rip-16']);
  });

  it('makes no wall, no hole and no face by itself: what is missing is said', () => {
    const wide = PART.replace('corner-radius: 6', 'corner-radius: 10');
    assert.match(cutsOf(shopOf(ROUGHER), wide).told.join(), /^missing end mill/);
    const hole = wide.replace(
      /well: .*/,
      'well: { kind: hole, face: top, at: { x: center, y: center }, diameter: 30, depth: 10, bottom: flat }',
    );
    assert.match(cutsOf(shopOf(ROUGHER), hole).told.join(), /missing/);
    assert.match(cutsOf(shopOf(ROUGHER.replace(', roughing: yes', '')), hole).told.join(), /rip-16/);
  });

  it('that a set-up names roughs, and what would finish anyway finishes; it is no wrong tool', () => {
    const named = `${PART}setups:
  first:
    up: top
    hold: { vise: vise, jaws: [back, front], grip: 10, parallels: 18 }
    cuts: [well]
    tools: { well: rip-16 }
`;
    const { told, findings } = cutsOf(
      shopOf(
        ROUGHER,
        FINISHER,
        FINISHER.replace(/em-10|10,/g, (w) => (w === '10,' ? '12,' : 'em-12')),
      ),
      named,
    );
    assert.deepEqual(
      told,
      ['rough rip-16', 'rest em-12', 'finish em-12'].filter((t) => told.includes(t)),
    );
    assert.equal(told[0], 'rough rip-16');
    assert.match(told.at(-1)!, /^finish em-/);
    assert.deepEqual(
      findings.filter((f) => f.rule === 'access/asked-tool'),
      [],
    );
  });

  it('that is passed over says why', () => {
    const slow = ROUGHER.replace('flutes: 4', 'flutes: 1').replace('16:', '16:').replace('carbide', 'hss');
    const shop = shopOf(slow.replace('diameter: 16', 'diameter: 11'), FINISHER);
    const { part, solid, well } = cutsOf(shop);
    const why = passedOverOf(well, { part, solid, shop }).find((p) => p.tool.name === 'rip-16')?.why;
    assert.equal(why, 'roughs alone, and does not save time');
  });
});

describe('a cutter with inserts', () => {
  const insert = (more = '') =>
    shopOf(
      `in-16: { kind: end-mill, diameter: 16, flutes: 2, flute-length: 10, reach: 40, corner-radius: 0.2, inserts: yes${more} }`,
    );
  const tool = (shop: Shop) => shop.tools[0] as Mill;

  it('does not plunge, and opens no hole by a helix that is under 1.8 diameters or what its maker says', () => {
    assert.equal(tool(insert()).centreCutting, false);
    assert.equal(tool(insert(', centre-cutting: yes')).centreCutting, true);
    assert.equal(wayIn(tool(insert()), 28, 28), 'ramp');
    assert.equal(wayIn(tool(insert()), 29, 29), 'helix');
    assert.equal(wayIn(tool(insert(', smallest-hole: 24')), 24, 24), 'helix');
    assert.equal(wayIn(tool(insert()), 20, 20), undefined);
    assert.match(insert(', smallest-hole: 16').problems[0]!.message, /no room for a cutter 16 mm wide/);
  });

  it('goes down no steeper than it bears: the way is as much longer', () => {
    const timeOf = (shop: Shop) => {
      const { cuts } = cutsOf(
        shop,
        PART.replace('corner-radius: 6', 'corner-radius: 10').replace('depth: 20', 'depth: 9'),
      );
      const rough = cuts.find((o) => o.does === 'rough')!;
      return priceOf(rough, findMaterial('aluminium-6061-t6')!, shop.machines[0]!);
    };
    const [usual, flat] = [timeOf(insert()), timeOf(insert(', ramp: 1 deg'))];
    const feed = usual.milling!.feedMmPerMin;
    const way = (deg: number) => 9 / Math.sin((deg * Math.PI) / 180) / (0.5 * feed);
    const more = flat.minutes[0] - usual.minutes[0];
    assert.ok(Math.abs(more - (way(1) - way(3))) < 1e-6 * way(1), `${more} min more`);
    assert.equal(timeOf(insert(', ramp: 10 deg')).minutes[0], usual.minutes[0]);
  });
});
