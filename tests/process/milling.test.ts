/** Corners, necks, reach and cutters of milled features, by numbers that can be followed by hand. */
import assert from 'node:assert/strict';
import { choiceForCorner, choiceForOutline, cornerReach, outlineReach } from '../../server/src/process/choice';
import { insideCorners } from '../../server/src/process/corners';
import { endMills, fits, fitting, makersOf, tapsFor } from '../../server/src/process/cutters';
import { milledVoids } from '../../server/src/process/milling';
import { highestBeside } from '../../server/src/process/reach';
import { drill, endMill, shopWith, tap } from '../rules/shops';
import { make } from './parts';

const BODY = '{ x: 100, y: 60, z: 40 }';
const milled = (features: string, name = 'f') => {
  const made = make(BODY, features);
  return { ...made, voids: milledVoids(made.part.featureByName.get(name)!, made.part, made.solid) };
};

describe('inside corners', () => {
  const corners = (features: string) => milled(features).voids.flatMap((m) => m.corners);

  it('a pocket has four, with their depth', () => {
    const found = corners(
      '  f: { kind: pocket, face: top, at: { x: 50, y: 30 }, size: { x: 40, y: 20 }, corner-radius: 3, depth: 12 }\n',
    );
    assert.equal(found.length, 4);
    for (const c of found) {
      assert.equal(c.radiusMm, 3);
      assert.ok(Math.abs(c.turnDeg - 90) < 1e-9);
      assert.ok(Math.abs(c.topMm) < 1e-9 && Math.abs(c.floorMm - 12) < 1e-9);
    }
  });

  it('a path turns by its own angles: a regular hexagon by 60° six times', () => {
    const points = Array.from({ length: 6 }, (_, i) => {
      const a = (i * Math.PI) / 3;
      return `{ x: ${(50 + 15 * Math.cos(a)).toFixed(6)}, y: ${(30 + 15 * Math.sin(a)).toFixed(6)} }`;
    });
    const found = corners(`  f: { kind: pocket, face: top, path: [${points.join(', ')}], depth: 5 }\n`);
    assert.equal(found.length, 6);
    for (const c of found) assert.ok(Math.abs(c.turnDeg - 60) < 1e-3, `${c.turnDeg}`);
  });

  it('written the other way round it is the same pocket', () => {
    const path = (list: string) => `  f: { kind: pocket, face: front, path: [${list}], depth: 5 }\n`;
    const there = corners(path('{ x: 20, z: 5 }, { x: 60, z: 5, round: 4 }, { x: 60, z: 30 }, { x: 20, z: 30 }'));
    const back = corners(path('{ x: 20, z: 30 }, { x: 60, z: 30 }, { x: 60, z: 5, round: 4 }, { x: 20, z: 5 }'));
    const radii = (list: typeof there) => list.map((c) => c.radiusMm).sort();
    assert.deepEqual(radii(there), [0, 0, 0, 4]);
    assert.deepEqual(radii(back), [0, 0, 0, 4]);
  });

  it('where another feature took the upper wall, only the rest counts', () => {
    const found = corners(
      '  f: { kind: pocket, face: top, at: { x: 30, y: 30 }, size: { x: 40, y: 20 }, corner-radius: 3, depth: 12 }\n  ledge: { kind: step, face: top, along: left, width: 20, depth: 5 }\n',
    );
    assert.deepEqual(found.map((c) => Math.round(c.topMm * 1e6) / 1e6).sort(), [0, 0, 5, 5]);
  });

  it('has none outside the body', () => {
    const { solid } = make(
      BODY,
      '  f: { kind: slot, face: top, ends: [{ x: -20, y: 30 }, { x: 120, y: 30 }], width: 8, depth: 5 }\n',
    );
    assert.deepEqual(insideCorners(solid.voids[0]!, solid, 'top'), []);
  });
});

describe('necks', () => {
  const neck = (features: string) => milled(features).voids[0]!.neckMm;

  it('of rectangle, circle, slot and ring', () => {
    assert.equal(
      neck(
        '  f: { kind: pocket, face: top, at: { x: 50, y: 30 }, size: { x: 40, y: 22 }, corner-radius: 3, depth: 5 }\n',
      ),
      22,
    );
    assert.equal(neck('  f: { kind: pocket, face: top, at: { x: 50, y: 30 }, diameter: 18, depth: 5 }\n'), 18);
    assert.equal(
      neck('  f: { kind: slot, face: top, ends: [{ x: 20, y: 30 }, { x: 70, y: 30 }], width: 7, depth: 5 }\n'),
      7,
    );
    assert.ok(
      Math.abs(neck('  f: { kind: groove, face: top, at: { x: 50, y: 30 }, diameter: 20, width: 3, depth: 2 }\n') - 3) <
        1e-6,
    );
  });

  it('of a dumbbell is its bar', () => {
    const path =
      '[{ x: 10, y: 10 }, { x: 40, y: 10 }, { x: 40, y: 27 }, { x: 60, y: 27 }, { x: 60, y: 10 }, { x: 90, y: 10 }, { x: 90, y: 50 }, { x: 60, y: 50 }, { x: 60, y: 33 }, { x: 40, y: 33 }, { x: 40, y: 50 }, { x: 10, y: 50 }]';
    assert.ok(Math.abs(neck(`  f: { kind: pocket, face: top, path: ${path}, depth: 5 }\n`) - 6) < 1e-6);
  });

  it('a step, and the outside of a boss, have none', () => {
    assert.equal(neck('  f: { kind: step, face: top, along: front, width: 6, depth: 4 }\n'), Number.POSITIVE_INFINITY);
    assert.equal(
      neck('  f: { kind: contour, face: top, at: { x: 50, y: 30 }, size: { x: 40, y: 30 }, depth: 4 }\n'),
      Number.POSITIVE_INFINITY,
    );
  });

  it('walls that another feature took away do not narrow it', () => {
    const lane =
      '  f: { kind: pocket, face: top, at: { x: 50, y: 30 }, size: { x: 40, y: 8 }, corner-radius: 3, depth: 5 }\n';
    assert.equal(neck(lane), 8);
    const wide =
      '  over: { kind: pocket, face: top, at: { x: 50, y: 22 }, size: { x: 60, y: 20 }, corner-radius: 5, depth: 5 }\n';
    assert.equal(neck(lane + wide), Number.POSITIVE_INFINITY);
  });
});

describe('reach', () => {
  it('looks as far as the tool is wide', () => {
    const { solid } = make(
      BODY,
      '  f: { kind: pocket, face: top, at: { x: 50, y: 30 }, size: { x: 40, y: 40 }, corner-radius: 4, depth: 15 }\n',
    );
    const middle = [50, 30, 0] as const;
    assert.equal(highestBeside(solid, 'top', middle, 19.9, { floorMm: 15 }), 15);
    assert.equal(highestBeside(solid, 'top', middle, 20.2, { floorMm: 15 }), 0);
  });

  it('meets a step only as high as it is', () => {
    const { solid } = make(
      BODY,
      '  f: { kind: pocket, face: top, at: { x: 50, y: 30 }, size: { x: 40, y: 40 }, corner-radius: 4, depth: 15 }\n  ledge: { kind: step, face: top, along: left, width: 40, depth: 6 }\n',
    );
    assert.equal(highestBeside(solid, 'top', [35, 30, 0], 6, { floorMm: 15 }), 6);
  });

  it('broken edges lower nothing', () => {
    const { solid } = make(
      BODY,
      '  f: { kind: pocket, face: top, at: { x: 50, y: 30 }, size: { x: 40, y: 40 }, corner-radius: 4, depth: 15 }\n  rim: { kind: chamfer, edges: { rim: f }, size: 1 }\n',
    );
    assert.equal(highestBeside(solid, 'top', [34, 30, 0], 4.2, { floorMm: 15 }), 0);
  });

  it('of a corner, of an outline, with a thick shank', () => {
    const { voids, solid } = milled(
      '  wide: { kind: pocket, face: top, at: { x: 50, y: 30 }, size: { x: 60, y: 40 }, corner-radius: 6, depth: 10 }\n  f: { kind: pocket, face: top, from: wide, at: { x: 50, y: 30 }, size: { x: 50, y: 30 }, corner-radius: 2, depth: 8 }\n',
    );
    const [m] = voids;
    const corner = m!.corners[0]!;
    assert.equal(cornerReach(m!, corner, solid, 2, 2), 8);
    // The wider walls stand 5 mm off the narrow ones: an axis 2 mm off is 7 mm away.
    assert.equal(cornerReach(m!, corner, solid, 2, 6.5), 8);
    assert.equal(cornerReach(m!, corner, solid, 2, 8), 18);
    assert.equal(outlineReach(m!, solid, 4, 4), 8);
    assert.equal(outlineReach(m!, solid, 4, 10), 18);
  });
});

describe('cutters', () => {
  const SHOP = shopWith(
    endMill('em-4', 4, 12) +
      endMill('em-8', 8, 25) +
      endMill('em-8-long', 8, 45) +
      endMill('em-12', 12, 36) +
      'bn-8: { kind: end-mill, diameter: 8, flutes: 3, flute-length: 20, reach: 25, shank: 8, corner-radius: 1, material: carbide }\n' +
      drill(4.2, 43) +
      drill(5, 52) +
      'rm-8: { kind: reamer, diameter: 8, fit: H7, reach: 40, material: hss }\n' +
      'bh: { kind: boring-head, diameter: 10, largest: 40, reach: 50, material: carbide }\n' +
      tap('M5', 'plug', 25),
  );
  const open = { radiusMm: Number.POSITIVE_INFINITY, neckMm: Number.POSITIVE_INFINITY, floorRadiusMm: 0 };
  const names = (list: readonly { readonly name: string }[]) => list.map((t) => t.name);

  it('come largest first, the stiffest of a size first', () => {
    assert.deepEqual(names(endMills(SHOP)), ['em-12', 'em-8', 'bn-8', 'em-8-long', 'em-4']);
  });

  it('fit by radius, neck and floor', () => {
    assert.deepEqual(names(fitting(SHOP, { ...open, radiusMm: 4 })), ['em-8', 'em-8-long', 'em-4']);
    assert.deepEqual(names(fitting(SHOP, { ...open, radiusMm: 3.9 })), ['em-4']);
    assert.deepEqual(names(fitting(SHOP, { ...open, neckMm: 8 })), ['em-8', 'em-8-long', 'em-4']);
    assert.ok(names(fitting(SHOP, { ...open, floorRadiusMm: Number.POSITIVE_INFINITY })).includes('bn-8'));
    assert.ok(fits(endMills(SHOP)[0]!, open));
  });

  it('of those that fit, the largest that reaches', () => {
    const { voids, solid } = milled(
      '  f: { kind: pocket, face: top, at: { x: 50, y: 30 }, size: { x: 40, y: 30 }, corner-radius: 5, depth: 30 }\n',
    );
    const choice = choiceForCorner(voids[0]!, voids[0]!.corners[0]!, solid, SHOP);
    assert.equal(choice.largest?.name, 'em-8');
    assert.equal(choice.reaching?.name, 'em-8-long');
    assert.equal(choice.longest?.name, 'em-8-long');
    assert.equal(choice.neededMm(), 30);
    assert.equal(choiceForOutline(voids[0]!, solid, SHOP).reaching?.name, 'em-12');
  });

  it('make holes: drill and reamer of the size, a head that spans it, a mill clearly smaller', () => {
    const bore = (nominalMm: number, by = 0.05) => ({ nominalMm, fromMm: nominalMm - by, toMm: nominalMm + by });
    assert.deepEqual(names(makersOf(SHOP, bore(4.2))), ['dr-4.2']);
    assert.deepEqual(names(makersOf(SHOP, bore(8))), ['rm-8', 'em-4']);
    assert.deepEqual(names(makersOf(SHOP, bore(22))), ['bh', 'em-4', 'em-8', 'em-8-long', 'em-12']);
    assert.deepEqual(names(makersOf(SHOP, bore(3))), []);
    assert.deepEqual(names(makersOf(SHOP, bore(4.3))), []);
    assert.deepEqual(names(makersOf(SHOP, bore(4.3, 0.1))), ['dr-4.2']);
    assert.deepEqual(names(tapsFor(SHOP, 'M5x0.8')), ['tap-m5-plug']);
    assert.deepEqual(tapsFor(SHOP, 'M6'), []);
  });
});

describe('kept work', () => {
  it('an unchanged pocket is not worked out again, one whose wall changed is', () => {
    const text = (width: number) =>
      `  a: { kind: pocket, face: top, at: { x: 20, y: 30 }, size: { x: 20, y: 20 }, corner-radius: 3, depth: 5 }\n  b: { kind: pocket, face: top, at: { x: 80, y: 30 }, size: { x: ${width}, y: 20 }, corner-radius: 3, depth: 5 }\n`;
    const one = make(BODY, text(20));
    const first = milledVoids(one.part.featureByName.get('a')!, one.part, one.solid);
    assert.equal(milledVoids(one.part.featureByName.get('a')!, one.part, one.solid), first);
    const other = make(BODY, text(22));
    assert.notEqual(milledVoids(other.part.featureByName.get('a')!, other.part, other.solid), first);
  });
});
