/** Work held at an angle: what a tool needs there by hand, and what stands in its way. */
import assert from 'node:assert/strict';
import type { Vec3 } from '../../../server/src/geometry/types';
import { add, distance, sub } from '../../../server/src/geometry/vector';
import { verdictsOf } from '../../../server/src/process/access';
import { above } from '../../../server/src/process/access/collision';
import { RIM } from '../../../server/src/process/drilling';
import { isMaterial, timelineOf } from '../../../server/src/process/stock';
import { leaningBores } from '../../../server/src/process/tilted/bores';
import { axesToward, inPart, seen, seenWork } from '../../../server/src/process/tilted/place';
import { leanFor, spindleOf, wantedBy } from '../../../server/src/process/tilted/spindle';
import { drill, endMill, shopWith } from '../../rules/shops';
import { make, randomPoint, stream } from '../parts';

const between = (random: () => number, low: Vec3, high: Vec3): Vec3 => add(randomPoint(random, sub(high, low)), low);

const RAD = Math.PI / 180;
const shop = shopWith(
  endMill('em-10', 10, 32, 'holder: chuck') + endMill('em-16', 16, 40, 'holder: chuck') + drill(5, 52, 'holder: chuck'),
);

function first(features: string, setups: string, body = '{ x: 60, y: 40, z: 30 }') {
  const { part, solid } = make(body, features, setups);
  return { part, solid, v: verdictsOf({ part, solid, shop })[0] };
}

const jet = (deg: number) =>
  `  jet: { kind: hole, face: top, at: { x: 30, y: center }, diameter: 5, depth: 18, tilt: { about: y, angle: ${deg} } }\n`;

describe('the spindle over work held at an angle', () => {
  it('looks along a feature that leans by the same angle, and square to an incline by its own', () => {
    const { part, solid } = make(
      '{ x: 60, y: 40, z: 30 }',
      `${jet(20)}  slope: { kind: slope, face: top, along: right, angle: 25, width: 20 }\n`,
      'setups:\n  a: { up: top, hold: { angle: 20 }, cuts: [jet] }\n  b: { up: top, hold: { angle: 25 }, cuts: [slope] }\n',
    );
    const near = (a: Vec3, b: Vec3) => assert.ok(distance(a, b) < 1e-9, `${a} for ${b}`);
    const [a, b] = part.setups!.map((s) => spindleOf(s, part)!);
    // Turned counter-clockwise seen against y: from z toward x.
    near(a!.toward, [Math.sin(20 * RAD), 0, Math.cos(20 * RAD)]);
    near(wantedBy(part.featureByName.get('jet')!, solid)!, a!.toward);
    near(wantedBy(part.featureByName.get('slope')!, solid)!, b!.toward);
    assert.deepEqual(leanFor(b!.toward, 'top'), { about: 'y', deg: 25 });
    assert.deepEqual(leanFor(b!.toward, 'right'), { about: 'y', deg: -65 });
    assert.equal(leanFor(b!.toward, 'bottom'), undefined);
    assert.equal(leanFor([0.6, 0.48, 0.64], 'top'), undefined);
  });

  it('sees the same material as the part has, whatever the form of its stock', () => {
    const random = stream(11);
    for (const body of ['{ x: 60, y: 40, z: 30 }', '{ diameter: 40, length: 60, axis: x }']) {
      const { part, solid } = make(body, jet(20), 'setups:\n  a: { up: top, hold: { angle: 20 }, cuts: [jet] }\n');
      const w = timelineOf(part, solid).setups[0]!.after;
      const axes = axesToward(spindleOf(part.setups![0]!, part)!.toward);
      const turned = seenWork(w, axes);
      let [hits, tried] = [0, 0];
      for (let i = 0; i < 2000; i++) {
        const p = between(random, [-10, -10, -10], [70, 50, 50]);
        tried++;
        const is = isMaterial(w, p);
        if (is) hits++;
        assert.equal(isMaterial(turned, seen(p, axes)), is, `${p}`);
        const back = inPart(seen(p, axes), axes);
        assert.ok(distance(back, p) < 1e-9);
      }
      assert.ok(hits > 200 && hits < tried - 200);
    }
  });
});

describe('reaching work held at an angle', () => {
  it('a leaning hole asks for its depth from where the drill first meets material', () => {
    const { v } = first(jet(20), 'setups:\n  a: { up: top, hold: { angle: 20 }, cuts: [jet] }\n');
    const [use] = v!.uses;
    assert.equal(use!.tool.name, 'dr-5');
    // The rim is met 2.5 mm × tan 20° before the axis; looked at on 0.94 of the radius.
    // The drill's point, 118°, goes on below the full diameter.
    const hand = 18 + 2.5 * Math.tan(20 * RAD) + 2.5 / Math.tan(59 * RAD);
    assert.ok(use!.reachMm <= hand + 1e-6 && use!.reachMm > hand - 0.06, `${use!.reachMm} for ${hand}`);
  });

  it('the holder asks for as much as the slope rises within its radius', () => {
    const { v } = first(jet(20), 'setups:\n  a: { up: top, hold: { angle: 20 }, cuts: [jet] }\n');
    const holder = shop.holders.find((h) => h.name === 'chuck')!.diameterMm / 2;
    // Up the slope the block ends 30 mm from the hole: the holder's radius counts as long as it is less.
    const hand = 18 + Math.min(holder, 30 * Math.cos(20 * RAD)) * Math.tan(20 * RAD);
    assert.ok(v!.uses[0]!.outNeededMm >= hand - 0.5, `${v!.uses[0]!.outNeededMm} for ${hand}`);
  });

  it('says nothing where the angle is not the feature’s', () => {
    assert.equal(first(jet(20), 'setups:\n  a: { up: top, hold: { angle: 15 }, cuts: [jet] }\n').v, undefined);
  });

  it('an incline is milled square to its plane, with a cutter that stands clear of the jaws or not', () => {
    const slope = '  slope: { kind: slope, face: top, along: right, angle: 30, width: 20 }\n';
    const held = (grip: number) =>
      first(
        slope,
        `setups:\n  a: { up: top, hold: { angle: 30, vise: mill-vise-100, jaws: [front, back], grip: ${grip}, stop: right }, cuts: [slope] }\n`,
      ).v!;
    assert.equal(held(8).fixture, undefined);
    assert.equal(held(8).uses[0]?.does, 'mill');
    // The stop is at the sloping end, so that it cannot stand out of the jaws. The slope ends 30 − 20 tan 30° = 18.5 mm up: jaws of 25 mm stand above it.
    assert.match(String(held(25).fixture?.clash.with.what), /jaw|stop/);
  });
});

describe('a leaning box above a tip', () => {
  it('is as near in plan as the clipped box’s shadow, found by points', () => {
    const random = stream(5);
    const box = { min: [0, 0, 0] as Vec3, max: [20, 10, 6] as Vec3 };
    for (let i = 0; i < 25; i++) {
      const d = between(random, [-1, -1, 0.3], [1, 1, 1]);
      const n = Math.hypot(...d);
      const axes = axesToward([d[0] / n, d[1] / n, d[2] / n]);
      const tip = seen(between(random, [-15, -15, -6], [35, 25, 6]), axes);
      const from = 2;
      const found = above(box, tip, axes, from);
      let least = Number.POSITIVE_INFINITY;
      let high = Number.NEGATIVE_INFINITY;
      for (let x = 0; x <= 40; x++)
        for (let y = 0; y <= 20; y++)
          for (let z = 0; z <= 12; z++) {
            const p = seen([x / 2, y / 2, z / 2], axes);
            const up = p[2] - tip[2];
            high = Math.max(high, up);
            if (up >= from) least = Math.min(least, Math.hypot(p[0] - tip[0], p[1] - tip[1]));
          }
      if (!found) {
        assert.ok(high <= from);
        continue;
      }
      assert.ok(Math.abs(found.topMm - high) < 1e-9);
      assert.ok(found.offMm <= least + 1e-9 && found.offMm > least - 0.75, `${found.offMm} for ${least}`);
    }
  });
});

describe('a leaning hole as its drill meets it', () => {
  it('falls from one side of its rim to the other by the tangent of its lean', () => {
    const { part, solid } = make('{ x: 60, y: 40, z: 30 }', jet(20), '');
    const hole = part.featureByName.get('jet');
    assert.ok(hole?.kind === 'hole');
    const [b] = leaningBores(hole, solid);
    const firsts = b!.rim.map((r) => r.material[0]!.from);
    const fall = 2 * RIM * 2.5 * Math.tan(20 * RAD);
    assert.ok(Math.abs(Math.max(...firsts) - Math.min(...firsts) - fall) < 1e-6);
    // Depths count from its place on the face: half the fall above it, half below; drilled to its depth.
    assert.ok(Math.abs(Math.min(...firsts) + fall / 2) < 1e-6);
    assert.ok(Math.abs(b!.endMm - 18) < 1e-9);
    assert.ok(Math.abs(b!.drilledMm - (18 + fall / 2)) < 1e-6);
  });
});
