/** Which tool is used where, how far it must stand out, and what stands near it. */
import assert from 'node:assert/strict';
import { toolFor, verdictsOf } from '../../../server/src/process/access';
import { standsIn } from '../../../server/src/process/access/cutter-locations';
import { highestNear } from '../../../server/src/process/access/levels';
import { depthBelow } from '../../../server/src/process/column';
import { highestBeside } from '../../../server/src/process/reach';
import { lessOf, timelineOf } from '../../../server/src/process/stock';
import { drill, endMill, shopWith, tap } from '../../rules/shops';
import { make, randomPoint, stream } from '../parts';

const shop = shopWith(
  endMill('em-6', 6, 20, 'holder: chuck') +
    endMill('em-10', 10, 32, 'holder: chuck, stickout: 40') +
    'fm-50: { kind: face-mill, diameter: 50, flutes: 4 }\n' +
    drill(4.2, 43, 'holder: chuck') +
    tap('M5', 'plug', 22),
);

function uses(body: string, features: string, tail: string) {
  const { part, solid } = make(body, features, `${tail}`);
  const { setups } = timelineOf(part, solid);
  return setups.map((s) =>
    s.cuts.map((c) =>
      [c.name, ...toolFor(c, s, { part, solid, shop }).map((u) => `${u.does} ${u.tool.name}`)].join(': '),
    ),
  );
}

describe('the tool for a cut', () => {
  it('faces with the widest from above and with the side of a mill from beside, mills, drills and taps', () => {
    const features = `  well: { kind: pocket, face: top, at: { x: 30, y: 20 }, size: { x: 20, y: 16 }, corner-radius: 3.5, depth: 8 }
  tie: { kind: hole, face: top, at: { x: 8, y: 20 }, thread: M5, depth: 15, thread-depth: 10 }
`;
    const tail =
      'stock: { form: block, extra: { top: 1, right: 2 } }\nsetups:\n  a: { up: top, cuts: [top, right, well, tie] }\n';
    assert.deepEqual(uses('{ x: 60, y: 40, z: 20 }', features, tail), [
      ['top: face fm-50', 'right: face em-10', 'well: mill em-6', 'tie: drill dr-4.2: tap tap-m5-plug'],
    ]);
  });

  it('says how far each must stand out', () => {
    const features =
      '  well: { kind: pocket, face: top, at: { x: 30, y: 20 }, size: { x: 20, y: 16 }, corner-radius: 5.5, depth: 14 }\n';
    const { part, solid } = make(
      '{ x: 60, y: 40, z: 20 }',
      features,
      'stock: { form: block, extra: { top: 3 } }\nsetups:\n  a: { up: top, cuts: [well] }\n',
    );
    const [v] = verdictsOf({ part, solid, shop });
    const [use] = v!.uses;
    assert.deepEqual([use!.tool.name, use!.outNeededMm, use!.outMm], ['em-10', 17, 40]);
  });

  it('a step too deep from above is cut from the side it opens to', () => {
    const features = '  ledge: { kind: step, face: top, along: front, width: 12, depth: 38 }\n';
    const judged = (up: string) => {
      const { part, solid } = make('{ x: 60, y: 40, z: 60 }', features, `setups:\n  a: { up: ${up}, cuts: [ledge] }\n`);
      return verdictsOf({ part, solid, shop })[0]!;
    };
    assert.deepEqual([judged('top').short?.neededMm, judged('top').short?.longest?.name], [38, 'em-10']);
    assert.equal(judged('front').uses[0]?.tool.name, 'em-10');
    assert.equal(judged('front').uses[0]?.reachMm, 12);
  });

  it('a through cut goes no deeper than there is something to cut then', () => {
    const features = `  shelf: { kind: step, face: top, along: front, width: 28, depth: 28 }
  window: { kind: slot, face: back, ends: [{ x: 15, z: 28 }, { x: 35, z: 28 }], width: 10, depth: through }
`;
    const needed = (setups: string) => {
      const { part, solid } = make('{ x: 50, y: 40, z: 40 }', features, `setups:\n${setups}`);
      const v = verdictsOf({ part, solid, shop }).find((x) => x.cut.name === 'window')!;
      return v.short?.neededMm ?? v.uses[0]?.reachMm;
    };
    // A wall of 12 mm once the shelf is there; before, all 40 mm.
    assert.equal(needed('  a: { up: top, cuts: [shelf] }\n  b: { up: back, cuts: [window] }\n'), 12);
    assert.equal(needed('  b: { up: back, cuts: [window] }\n  a: { up: top, cuts: [shelf] }\n'), 40);
  });

  it('nothing is said of what the face that is up does not see', () => {
    const { part, solid } = make(
      '{ x: 60, y: 40, z: 20 }',
      '  well: { kind: pocket, face: top, at: { x: 30, y: 20 }, diameter: 16, depth: 8 }\n',
      'setups:\n  a: { up: bottom, cuts: [well] }\n',
    );
    assert.deepEqual(verdictsOf({ part, solid, shop }), []);
  });

  it('a change elsewhere keeps the verdict, one beside it does not', () => {
    const text = (x: number, depth: number) => `  ledge: { kind: step, face: top, along: left, width: 30, depth: 20 }
  seat: { kind: pocket, face: top, from: ledge, at: { x: 18, y: 20 }, size: { x: 16, y: 20 }, corner-radius: 5.5, depth: ${depth} }
  far: { kind: hole, face: top, at: { x: ${x}, y: 20 }, diameter: 4.2, depth: 5 }
`;
    const needed = (x: number, depth: number) => {
      const { part, solid } = make(
        '{ x: 200, y: 40, z: 60 }',
        text(x, depth),
        'setups:\n  a: { up: top, cuts: [far, ledge, seat] }\n',
      );
      return verdictsOf({ part, solid, shop }).find((v) => v.cut.name === 'seat')!.uses[0]!;
    };
    // The chuck is 40 wide: the wall of the ledge, 20 high, stands within it.
    assert.equal(needed(180, 8).outNeededMm, 28);
    assert.equal(needed(170, 8).outNeededMm, 28);
    assert.equal(needed(180, 10).outNeededMm, 30);
  });
});

describe('where the axis of a mill stands', () => {
  it('its radius off every wall, out to where the wall ends', () => {
    const { part, solid } = make(
      '{ x: 60, y: 40, z: 20 }',
      '  way: { kind: slot, face: top, ends: [{ x: 0, y: 20 }, { x: 60, y: 20 }], width: 10, depth: 6 }\n',
      'setups:\n  a: { up: top, cuts: [way] }\n',
    );
    const cut = timelineOf(part, solid).setups[0]!.cuts[0]!;
    const stands = standsIn(cut.removes[0]!, cut.after, 'top', 3);
    const xs = stands.map((p) => p[0]);
    assert.ok(
      Math.abs(Math.min(...xs)) < 0.02 && Math.abs(Math.max(...xs) - 60) < 0.02,
      `${Math.min(...xs)} ${Math.max(...xs)}`,
    );
    for (const [, y, z] of stands) {
      assert.ok(Math.abs(Math.abs(y - 20) - 2) < 0.01);
      assert.equal(z, 14);
    }
  });
});

describe('how high material stands near a tool', () => {
  // An independent way to the same number: columns on rings about the axis. It can only miss, by what lies between them.
  const features = `  tray: { kind: pocket, face: top, at: { x: 40, y: 30 }, size: { x: 40, y: 30 }, corner-radius: 5, depth: 10, islands: { post: { diameter: 8, at: { x: 40, y: 30 }, height: 6 } } }
  way: { kind: slot, face: top, ends: [{ x: 10, y: 52 }, { x: 130, y: 52 }], width: 6, depth: 7 }
  ledge: { kind: step, face: top, along: left, width: 8, depth: 5 }
  bore: { kind: hole, face: top, at: { x: 105, y: 12 }, diameter: 10, depth: 14, bottom: flat, counterbore: { diameter: 16, depth: 4 } }
`;
  it('slice by slice is no less than columns find, and hardly more', () => {
    const { solid } = make('{ x: 120, y: 60, z: 30 }', features);
    const place = lessOf({ body: solid.body, voids: [] }, solid.voids);
    const random = stream(7);
    let compared = 0;
    for (let n = 0; n < 300; n++) {
      const p = randomPoint(random, [120, 60, 30]);
      const radius = 2 + 15 * random();
      const tip = depthBelow(solid, 'top', p);
      const columns = tip - highestBeside(place, 'top', p, radius, { floorMm: tip });
      const slices = highestNear(place, 'top', { stands: [p], tips: [tip] }, radius, 0).aboveMm;
      assert.ok(slices >= columns - 1e-6, `${slices} is less than ${columns} at ${p.join()} within ${radius}`);
      // A sliver between two columns is seen by the slices only: then a little more all round is seen by the columns too.
      const wider = tip - highestBeside(place, 'top', p, radius * 1.06, { floorMm: tip });
      if (wider >= slices - 1e-6) compared++;
    }
    assert.ok(compared > 285, `only ${compared} of 300 agree`);
  });
});
