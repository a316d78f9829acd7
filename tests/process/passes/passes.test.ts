/** Set-ups as passes: speeds, places at touch, depths and order, by hand-worked examples and by what must always hold. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import type { Shop } from '../../../server/src/model/shop-model';
import { timeOf } from '../../../server/src/planning/times';
import { settable } from '../../../server/src/process/cutting/speed';
import { type PassRow, passesOfPart, type SetupPasses } from '../../../server/src/process/passes';
import { steppedDown, steppedOut } from '../../../server/src/process/passes/depths';
import { dialled } from '../../../server/src/process/passes/dialled';
import { checkPart, checkShop } from '../../../server/src/rules/check';
import { SHOP } from '../../simulator/defects';
import { partText } from '../../simulator/generate';
import { campus, gimbal, shopOf } from '../../simulator/parts';

function passesIn(text: string, shop: Shop): readonly SetupPasses[] {
  return passesOfPart(checkPart(text, shop));
}
const rowsOf = (s: SetupPasses) => s.rows.filter((r): r is PassRow => r.kind === 'pass');
const BLOCK = gimbal('parts', 'bearing-block.part.yaml');

describe('a spindle is set', () => {
  const machine = (text: string) => shopOf(`shop: s\nmachines: { m: { ${text} } }\n`).machines[0]!;
  const TRAVEL = 'travel: { x: 400, y: 200, z: 300 }';

  it('to the step below: 1910 of 200, 350, 600, 1050, 1800, 3000 is 1800', () => {
    const m = machine(
      `${TRAVEL}, spindle: { rpm: [200, 3000], power: 1 kW, steps: [200, 350, 600, 1050, 1800, 3000] }`,
    );
    assert.equal(settable(1910, m), 1800);
    assert.equal(settable(100, m), 200);
  });

  it('without steps to two digits, rounded down', () => {
    const m = machine(`${TRAVEL}, spindle: { rpm: [50, 6000], power: 1 kW }`);
    // n = 1000 v / (π d), ISO 3002-3: 30 m/min at 16 mm is 596.8 a minute; 96 m/min is 1909.9.
    assert.equal(settable((1000 * 30) / (Math.PI * 16), m), 590);
    assert.equal(settable((1000 * 96) / (Math.PI * 16), m), 1900);
    assert.equal(settable(1000, m), 1000);
    assert.equal(settable(20, m), 50);
  });

  it('no faster than 800 where a tool has a highest speed that nobody told', () => {
    const rail = passesIn(gimbal('parts', 'motor-mount.part.yaml'), campus).flatMap(rowsOf);
    const face = rail.find((r) => r.tool.name === 'face-50')!;
    assert.equal(face.speed.rpm, 800);
    assert.ok(face.speed.ask);
    assert.ok(!rail.find((r) => r.tool.name === 'em-16')!.speed.ask);
  });
});

describe('what hands feed', () => {
  const byHand = {
    ...campus,
    machines: campus.machines.map((m) => ({ ...m, control: 'read-out' as const, feedMmPerMin: 400 })),
  };
  it('is told by the second, never above 5 mm/s, drills by feel, and never climbs', () => {
    const rows = passesIn(BLOCK, byHand).flatMap(rowsOf);
    assert.ok(rows.length > 8);
    for (const r of rows) {
      if (r.direction === 'down') assert.equal(r.feed.by, 'feel', r.operation.does);
      else {
        assert.equal(r.direction, 'conventional');
        assert.ok(r.feed.by === 'hand' && r.feed.mmPerS <= 5 + 1e-9 && r.feed.secondsAStroke >= 2);
      }
    }
    // No lengths are kept: Z is touched anew whenever another tool is put in.
    for (const s of passesIn(BLOCK, byHand)) {
      let tool: unknown;
      s.rows.forEach((r, i) => {
        if (r.kind !== 'pass') return;
        if (r.tool !== tool)
          assert.ok(s.rows.slice(0, i).findLast((x) => x.kind === 'touch z' || x.kind === 'pass')?.kind === 'touch z');
        tool = r.tool;
      });
    }
  });

  it('is dialled in turns and marks: 30 mm of 4 mm a turn, 80 marks, is 7 turns and 40 marks', () => {
    const dial = { unit: 'mm', turnMm: 4, markMm: 0.05 } as const;
    assert.deepEqual(dialled(30, dial), { back: false, turns: 7, marks: 40 });
    assert.deepEqual(dialled(-0.5, dial), { back: true, turns: 0, marks: 10 });
    // 0.1 in a turn, a thousandth a mark: 25.4 mm is ten turns.
    assert.deepEqual(dialled(25.4, { unit: 'in', turnMm: 2.54, markMm: 0.0254 }), { back: false, turns: 10, marks: 0 });
  });
});

describe('zero at touch', () => {
  const [first, second, third] = passesIn(BLOCK, campus) as [SetupPasses, SetupPasses, SetupPasses];
  const shows = (s: SetupPasses, axis: string) => s.zeros.find((t) => t.axis === axis)!;

  it('is the place and half the tip beside it, a face that is cut here after its pass', () => {
    // Right end at 60, finder of 10: 65. Back at 40: 45. A pin of 10 on a parallel at 0.
    assert.deepEqual([shows(first, 'X').showsMm, shows(first, 'Y').showsMm, shows(first, 'Z').showsMm], [65, 45, 10]);
    const last = rowsOf(first).findLast((r) => r.of.includes('right'))!;
    assert.equal(shows(first, 'X').afterPass, last.number);
    assert.equal(shows(first, 'Y').afterPass, 0);
  });

  it('counts from the left, front and lowest as the work lies', () => {
    // Turned over, the right end lies to the left: touched from there, half the finder below zero.
    assert.equal(second.readOut.X.from, 'right');
    assert.equal(shows(second, 'X').showsMm, -5);
    assert.equal(third.readOut.Z.from, 'back');
  });

  it('takes a pin thicker than the grip is high, else the top', () => {
    assert.equal(shows(third, 'Z').tipMm, 20);
    const deep = passesIn(BLOCK.replace('grip: 10, stop', 'grip: 22, stop'), campus)[2]!;
    assert.deepEqual([shows(deep, 'Z').how, shows(deep, 'Z').showsMm], ['top', 50]);
  });

  it('lies on a slope by a pin: the plane over its middle, r and r / cos of its angle', () => {
    const [, two] = passesIn(
      `part: wedge
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 24 }
features:
  ramp: { kind: slope, face: top, along: right, angle: 30, depth: 8 }
  mark: { kind: hole, face: top, at: { x: 15, y: 20 }, diameter: 5, depth: 8 }
setups:
  one: { up: top, hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, stop: left }, zero: { x: left, y: back, z: parallels }, cuts: [ramp] }
  two: { up: top, hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, stop: left }, zero: { x: left, y: back, z: ramp }, cuts: [mark] }
`,
      campus,
    );
    const z = two!.zeros.find((t) => t.axis === 'Z')!;
    assert.equal(z.how, 'leaning');
    // 8 deep at 30° is 8 / tan 30° wide: its middle is half of that from the right end, and 4 down.
    assert.ok(Math.abs(z.leans!.at[0] - (60 - 4 / Math.tan(Math.PI / 6))) < 1e-6);
    assert.ok(Math.abs(z.showsMm - (20 + 5 + 5 / Math.cos(Math.PI / 6))) < 1e-6, String(z.showsMm));
  });
  it('lies on work that is held at an angle by a pin, and heights count along the spindle from where the cut begins', () => {
    const passes = (setup: string, features: string) =>
      passesIn(
        `part: wedge
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 24 }
features:
${features}setups:
  one: { up: top, ${setup} }
`,
        campus,
      )[0]!;
    const RAD = Math.PI / 180;
    const near = (a: number | undefined, b: number) => assert.ok(Math.abs(a! - b) < 1e-6, `${a} for ${b}`);
    const held = (deg: number) =>
      `hold: { angle: ${deg}, about: y, vise: mill-vise-100, jaws: [back, front], grip: 10, stop: left }`;
    const jet = `  jet: { kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 5.5, depth: 8, tilt: { about: y, angle: 20 } }\n`;
    for (const zero of ['z: top', 'z: parallels', 'x: left']) {
      const { zeros, rows, heightsFrom } = passes(`${held(20)}, zero: { ${zero} }, cuts: [jet]`, jet);
      const z = zeros.find((t) => t.axis === 'Z')!;
      assert.deepEqual([z.how, z.of, z.leans!.begins, heightsFrom!.on], ['leaning', 'top', 'jet', 'top']);
      near(z.leans!.deg, 20);
      near(z.showsMm, 5 + 5 / Math.cos(20 * RAD));
      const tips = rows.flatMap((r) => (r.kind === 'pass' && r.operation.does === 'drill' ? r.tipsZ : []));
      // A point of 118°, 5.5 across, is 2.75 / tan 59° long.
      near(tips[0], -8 - 2.75 / Math.tan(59 * RAD));
    }
    // Square to the spindle, a slope lies at its crest's height all over; what is milled into it begins at its middle.
    const ramp = '  ramp: { kind: slope, face: top, along: right, angle: 20, width: 24 }\n';
    const level = passes(`${held(20)}, zero: { z: top }, cuts: [ramp]`, ramp);
    const last = level.rows.findLast((r) => r.kind === 'pass');
    assert.ok(last?.kind === 'pass');
    near(last.tipsZ.at(-1), 0);
    assert.equal(level.zeros.find((t) => t.axis === 'Z')!.leans!.begins, 'ramp');
  });
  it('sweeps a bore that was cut before the work was unclamped', () => {
    const text = BLOCK.replace(
      'zero: { x: right, y: back, z: parallels }\n    cuts: [left',
      'zero: { x: bearing-seat, y: bearing-seat, z: parallels }\n    cuts: [left',
    );
    const rows = passesIn(text, campus)[1]!.rows;
    assert.deepEqual(rows[0], { kind: 'indicate', of: 'bearing-seat', at: [30, 20], totalMm: 0.02 });
  });
});

describe('the bearing block’s rows', () => {
  const [first] = passesIn(BLOCK, campus) as [SetupPasses];

  it('stop at the fit, and file the edge whose neighbour is not cut yet', () => {
    const stop = first.rows.find((r) => r.kind === 'measure');
    // ISO 286-2: 22 H7 is 22.000 to 22.021.
    assert.deepEqual(stop?.kind === 'measure' && stop.limitsMm?.map((x) => Number(x.toFixed(3))), [22, 22.021]);
    const filed = first.rows.find((r) => r.kind === 'file');
    assert.deepEqual(filed?.kind === 'file' && [filed.edges, filed.afterSetup], [[['left', 'top']], 2]);
  });

  it('share a place that does not change', () => {
    const rows = rowsOf(first);
    const drill = rows.find((r) => r.operation.does === 'drill')!;
    assert.ok(drill.samePlace);
    assert.ok(!rows[0]!.samePlace);
  });
});

describe('passes of any part', () => {
  const { shop } = checkShop(SHOP);
  const parts = fc
    .sample(partText, { numRuns: 60, seed: 21 })
    .map((text) => checkPart(text, shop))
    .filter(({ findings }) => findings.every((f) => f.severity !== 'error'))
    .slice(0, 15);

  it('are each cut of the set-up once, in its order, and take the time that is told', () => {
    assert.ok(parts.length > 8);
    for (const checked of parts)
      for (const s of passesOfPart(checked)) {
        const rows = rowsOf(s);
        const order = rows.flatMap((r) => r.of).filter((name, i, all) => name !== all[i - 1]);
        const wanted = s.setup.cuts.map((c) => c.name).filter((name) => order.includes(name));
        assert.deepEqual(order, wanted);
        assert.deepEqual(
          rows.map((r) => r.number),
          rows.map((_, i) => i + 1),
        );
        const { setups } = timeOf([s.setup], checked);
        const sum = rows.reduce((t, r) => t + r.minutes[0], 0);
        assert.ok(Math.abs(sum - setups[0]!.cutting[0]) < 1e-9, `${sum} ${setups[0]!.cutting[0]}`);
      }
  });

  it('go down to their floor, no step deeper than was worked out; zeros are touched first', () => {
    for (const checked of parts)
      for (const s of passesOfPart(checked)) {
        for (const t of s.zeros) assert.equal(t.missing, undefined);
        for (const r of rowsOf(s)) {
          for (const [i, z] of r.tipsZ.entries()) if (i > 0) assert.ok(z < r.tipsZ[i - 1]!);
          assert.ok(r.stickoutMm > 0 && r.speed.rpm >= 0);
        }
      }
  });

  it('of a hole end where its metal ends, not in what the work lies on', () => {
    const THROAT =
      'throat: { kind: pocket, face: front, at: { x: center, z: 12 }, size: { x: 40, z: 44 }, corner-radius: 8, depth: through }';
    const HOLE = 'pin: { kind: hole, face: top, at: { x: center, y: center }, diameter: 10 H7, depth: through }';
    const up = (face: string, cuts: string, jaws: string) =>
      `{ up: ${face}, hold: { vise: mill-vise-100, jaws: [${jaws}], grip: 12 }, zero: { x: left, y: back, z: top }, cuts: [${cuts}] }`;
    const bottoms = (first: string, second: string) => {
      const text = `part: arch\nmaterial: aluminium-6061-t6\nbody: { x: 80, y: 25, z: 46 }\nfeatures:\n  ${THROAT}\n  ${HOLE}\nsetups:\n  one: ${first}\n  two: ${second}\n`;
      const drills = passesIn(text, campus)
        .flatMap(rowsOf)
        .filter((r) => r.operation.does === 'drill' || r.operation.does === 'ream');
      assert.ok(drills.length >= 2);
      return Math.min(...drills.flatMap((r) => r.tipsZ));
    };
    const [throat, pin] = [up('front', 'throat', 'bottom, top'), up('top', 'pin', 'back, front')];
    // The web is 12 mm: from 34 to 46, with zero on the finished bottom; the drill's cone goes on by a third of its width.
    const open = bottoms(throat, pin);
    assert.ok(open < 34 && open > 34 - 5, `${open}`);
    const solid = bottoms(pin, throat);
    assert.ok(solid < 0 && solid > -5, `${solid}`);
  });

  it('step evenly', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 90, noNaN: true }),
        fc.double({ min: 0.05, max: 20, noNaN: true }),
        (deep, most) => {
          const down = steppedDown(deep, 0, most);
          const steps = down.map((z, i) => (i === 0 ? deep : down[i - 1]!) - z);
          assert.ok(Math.abs(steps.reduce((a, b) => a + b, 0) - deep) < 1e-9);
          assert.ok(steps.every((s) => s > 0 && s <= most * (1 + 1e-6) + 1e-9));
          assert.equal(down.at(-1), 0);
          const out = steppedOut(1, 1 + deep, most);
          assert.ok(Math.abs(out.at(-1)! - 1 - deep) < 1e-12 && out.length === down.length);
        },
      ),
      { seed: 3, numRuns: 200 },
    );
  });
});
