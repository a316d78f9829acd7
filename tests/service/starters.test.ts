/** Shops and jobs to start from: whatever is left out, what is written is sound. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { checkJob, checkShop } from '../../server/src/rules/check';
import { starterJob } from '../../server/src/service/starter/job';
import { SHOP_SECTIONS, shopEntries, starterShop } from '../../server/src/service/starter/shop';

const TEXT = readFileSync(resolve(__dirname, '../../schemas/everyday.shop.yaml'), 'utf8');
const all = shopEntries(TEXT);

describe('a shop to start from', () => {
  it('has every entry of the everyday shop', () => {
    const { shop } = checkShop(TEXT);
    const count = (section: string) => all.filter((e) => e.section === section).length;
    assert.deepEqual(
      SHOP_SECTIONS.map((section) => count(section)),
      [shop.machines, shop.vises, shop.vBlocks, shop.anglePlates, shop.tools, shop.rack].map((list) => list.length),
    );
    assert.ok(all.every((e) => e.label !== '' && e.detail + e.label !== ''));
    const copy = starterShop(TEXT, 'campus-workshop');
    assert.ok(copy.startsWith('# What campus-workshop has.'));
    assert.deepEqual(checkShop(copy).findings, []);
    assert.equal(checkShop(copy).shop.name, 'campus workshop');
    // What an hour costs is for its own people to say.
    assert.deepEqual([checkShop(copy).shop.rates.machineHour, checkShop(copy).shop.rates.personHour], [0, 0]);
    assert.match(copy, /^# rates: \{ machine-hour: /m);
  });

  it('is sound without any one entry, any section, and of random choices', () => {
    let seed = 7;
    const random = () => {
      seed = (seed * 16807) % 2147483647;
      return seed / 2147483647;
    };
    const choices = [
      ...SHOP_SECTIONS.filter((section) => section !== 'machines').map((section) =>
        all.filter((e) => e.section === section),
      ),
      ...Array.from({ length: 30 }, () => all.filter((e) => e.section !== 'machines' && random() < 0.6)),
    ];
    for (const without of choices) {
      const text = starterShop(TEXT, 'ours', without);
      const { shop, findings } = checkShop(text);
      const errors = findings.filter((f) => f.severity === 'error');
      assert.deepEqual(
        errors.map((f) => f.message),
        [],
        text.slice(0, 400),
      );
      const left = all.filter((e) => e.section === 'tools' && !without.includes(e));
      assert.deepEqual(
        shop.tools.map((t) => t.name),
        left.map((e) => e.label),
      );
    }
  });
});

describe('a job to start from', () => {
  it('lists its parts by their files', () => {
    const { job, findings } = checkJob(
      starterJob('flight-set', ['parts/yoke.part.yaml', 'parts/camera tray.part.yaml']),
    );
    assert.deepEqual(
      job.parts.map((p) => [p.name, p.spec.name]),
      [
        ['yoke', 'parts/yoke.part.yaml'],
        ['camera-tray', 'parts/camera tray.part.yaml'],
      ],
    );
    assert.deepEqual(
      findings.filter((f) => f.rule === 'form/schema'),
      [],
    );
  });
});
