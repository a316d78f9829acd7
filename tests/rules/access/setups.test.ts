/** Reaching set-up by set-up, on the work as it is then: hand-worked cases. */
import assert from 'node:assert/strict';
import { resolveShop } from '../../../server/src/model/shop';
import type { Shop } from '../../../server/src/model/shop-model';
import { checkPart } from '../../../server/src/rules/check';
import type { Finding } from '../../../server/src/rules/kit/rule';
import { readText } from '../../../server/src/text/read';
import { ALUMINIUM } from '../parts';
import { mended } from '../tester';

const bench = (tools: string): Shop =>
  resolveShop(
    readText(`shop: bench
units: mm
machines: { mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.1 kW } } }
vises: { vise: { jaw: { width: 100, height: 32 }, opens: 110, force: 15 kN } }
parallels: [8, 12, 16, 20, 22, 26]
holders: { wide: { diameter: 34, length: 50 }, slim: { diameter: 12, length: 50 } }
tools:
${tools}`),
    'bench.shop.yaml',
  );
const em = (d: number, reach: number, more = '') =>
  `  em-${d}: { kind: end-mill, diameter: ${d}, flutes: 3, flute-length: ${reach}, reach: ${reach}, shank: ${d}, material: carbide${more} }\n`;

function access(body: string, features: string, setups: string, shop: Shop): readonly Finding[] {
  const text = `${ALUMINIUM}body: ${body}\n${features}setups:\n${setups}`;
  return checkPart(text, shop).findings.filter((f) => f.rule.startsWith('access/'));
}
const names = (found: readonly Finding[]) => found.map((f) => `${f.rule} ${f.of.join(' ')}`);
const HOLD = 'hold: { vise: vise, jaws: [back, front], grip: 10 }';

describe('reach, on the work as it is then', () => {
  const shop = bench(em(8, 20));
  const features = `stock: { form: block, extra: { top: 4 } }
features:
  well: { kind: pocket, face: top, at: { x: 30, y: center }, size: { x: 20, y: 16 }, corner-radius: 4.5, depth: 18 }
`;

  it('counts what is not yet faced off', () => {
    const [f, ...others] = access(
      '{ x: 60, y: 40, z: 30 }',
      features,
      `  one: { up: top, ${HOLD}, cuts: [well, top] }\n`,
      shop,
    );
    assert.deepEqual(others, []);
    assert.equal(f?.rule, 'access/reach');
    // 18 deep under 4 of excess; the cutter reaches 20.
    assert.deepEqual([f?.facts.needed_mm, f?.facts.longest_mm, f?.facts.missing_mm], [22, 20, 2]);
    assert.match(f?.message ?? '', /Cut it last in one\.$/);
  });

  it('and nothing once it is', () => {
    assert.deepEqual(
      access('{ x: 60, y: 40, z: 30 }', features, `  one: { up: top, ${HOLD}, cuts: [top, well] }\n`, shop),
      [],
    );
  });

  it('the fix cuts it last', () => {
    const text = `${ALUMINIUM}body: { x: 60, y: 40, z: 30 }\n${features}setups:\n  one: { up: top, ${HOLD}, cuts: [well, top] }\n`;
    assert.match(mended('access/reach', text, /Cut it last/, shop), /cuts: \[top, well\]/);
  });

  it('a hole is drilled from each side half as deep', () => {
    const drills = bench('  dr-6: { kind: drill, diameter: 6, flute-length: 30, point: 118 }\n');
    const bore =
      'features:\n  bore: { kind: hole, face: top, at: { x: 30, y: center }, diameter: 6, depth: through }\n';
    const one = `  one: { up: top, ${HOLD}, cuts: [bore] }\n`;
    const two = `  two: { up: bottom, ${HOLD}, cuts: [bore] }\n`;
    const body = '{ x: 60, y: 40, z: 50 }';
    assert.deepEqual(names(access(body, bore, one, drills)), ['access/reach bore']);
    assert.deepEqual(names(access(body, bore, one + two, drills)), []);
  });

  it('a drill that starts half in a slot goes no deeper for it', () => {
    const drills = bench(
      `  dr-5: { kind: drill, diameter: 5, flute-length: 40, point: 118, holder: wide, stickout: 45 }\n${em(10, 32)}`,
    );
    const half = `features:
  way: { kind: slot, face: top, ends: [{ x: -8, y: 24 }, { x: 68, y: 24 }], width: 10, depth: 16 }
  bore: { kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 5, depth: through }
`;
    assert.deepEqual(
      access('{ x: 60, y: 40, z: 36 }', half, `  one: { up: top, ${HOLD}, cuts: [way, bore] }\n`, drills),
      [],
    );
  });

  it('the tool that the set-up names is the one judged', () => {
    const two = bench(em(8, 20) + em(6, 12));
    const pocket =
      'features:\n  well: { kind: pocket, face: top, at: { x: 30, y: center }, size: { x: 20, y: 16 }, corner-radius: 4.5, depth: 15 }\n';
    const setup = (more: string) => `  one: { up: top, ${HOLD}, cuts: [well]${more} }\n`;
    assert.deepEqual(access('{ x: 60, y: 40, z: 30 }', pocket, setup(''), two), []);
    const [f] = access('{ x: 60, y: 40, z: 30 }', pocket, setup(', tools: { well: em-6 }'), two);
    assert.deepEqual([f?.rule, f?.facts.needed_mm, f?.facts.tool], ['access/reach', 15, 'em-6']);
  });
});

describe('holders', () => {
  // A pocket on the floor of a ledge, 12 to 32 mm from a wall 25 high.
  const part = (reach: number, more: string) => ({
    shop: bench(em(8, reach, more)),
    features: `features:
  ledge: { kind: step, face: top, along: left, width: 40, depth: 25 }
  seat: { kind: pocket, face: top, from: ledge, at: { x: 24, y: center }, size: { x: 20, y: 30 }, corner-radius: 4.5, depth: 10 }
`,
  });
  const setup = `  one: { up: top, ${HOLD}, cuts: [ledge, seat] }\n`;
  const judge = (reach: number, more: string) => {
    const { shop, features } = part(reach, more);
    return access('{ x: 80, y: 60, z: 50 }', features, setup, shop);
  };

  it('need to stand out past the wall beside the pocket', () => {
    const [f, ...others] = judge(26, ', holder: wide, stickout: 30');
    assert.deepEqual(others, []);
    assert.deepEqual([f?.rule, f?.of[0]], ['access/holder', 'seat']);
    // Down to 35 below the wall's top.
    assert.deepEqual([f?.facts.needed_mm, f?.facts.out_mm, f?.facts.holder_mm], [35, 30, 34]);
  });

  it('do when they stand out as far, or are slim', () => {
    assert.deepEqual(judge(26, ', holder: wide, stickout: 35'), []);
    // 6 mm round the axis, which comes to 34 − 4 = 30 at most: the wall is 10 off.
    assert.deepEqual(judge(26, ', holder: slim, stickout: 30'), []);
  });

  it('are not judged where none is known, and stand out as needed where nothing is written', () => {
    assert.deepEqual(judge(26, ''), []);
    // 26 of reach and three shanks' thicknesses: 50.
    assert.deepEqual(judge(26, ', holder: wide'), []);
  });
});

describe('jaws, stops and clamps', () => {
  const shop = bench(em(6, 20));
  const way = (depth: number) => `features:
  way: { kind: slot, face: top, ends: [{ x: center, y: 0 }, { x: center, y: 40 }], width: 6, depth: ${depth} }
`;
  const body = '{ x: 60, y: 40, z: 20 }';

  it('a slot that runs out through the sides in the jaws stays above their tops', () => {
    const at = (depth: number, grip: number) =>
      access(
        body,
        way(depth),
        `  one: { up: top, hold: { vise: vise, jaws: [back, front], grip: ${grip} }, cuts: [way] }\n`,
        shop,
      );
    assert.deepEqual(at(9, 10), []);
    // 0.5 above them: nearer than the shop's 1 mm. Flush with them it touches.
    for (const [depth, clear, severity] of [
      [9.5, 0.5, 'warning'],
      [10, 0, 'error'],
    ] as const) {
      const [near, ...more] = at(depth, 10);
      assert.deepEqual(
        [near?.rule, near?.severity, near?.facts.clear_mm, more.length],
        ['access/jaw', severity, clear, 0],
      );
    }
    const [f, ...others] = at(12, 10);
    assert.deepEqual(others, []);
    // The tip 8 above the parallels, the jaws 10; at the end of the slot half the cutter stands beyond the side.
    assert.deepEqual([f?.rule, f?.facts.height_above_jaws_mm, f?.facts.overlap_mm], ['access/jaw', -2, 3]);
    assert.deepEqual(at(12, 6), []);
  });

  it('with the other sides in the jaws it runs out freely', () => {
    const setup = '  one: { up: top, hold: { vise: vise, jaws: [left, right], grip: 10 }, cuts: [way] }\n';
    assert.deepEqual(access(body, way(12), setup, shop), []);
  });

  it('is told where else it would do by the work that is there without it', () => {
    // Right through, into the excess at the front: from above and from below it is the same metal, and the same jaws.
    const slot = `stock: { form: block, extra: { front: 2 } }\n${way(12).replace('depth: 12', 'depth: through')}`;
    const [told, ...more] = access(
      body,
      slot,
      `  one: { up: top, hold: { vise: vise, jaws: [back, front], grip: 10 }, cuts: [way] }
  two: { up: bottom, hold: { vise: vise, jaws: [back, front], grip: 10 }, cuts: [front] }
  three: { up: bottom, hold: { vise: vise, jaws: [left, right], grip: 10 }, cuts: [] }
`,
      shop,
    ).filter((f) => f.of[0] === 'way');
    assert.deepEqual(more, []);
    assert.match(told?.message ?? '', /\. Cut it in three\.$/);
  });

  it('an end is milled where it stands out of the jaws; both ends of short work not at once', () => {
    const stock =
      'stock: { form: block, extra: { left: 2, right: 2 } }\nfeatures:\n  a: { kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 6, depth: 4, bottom: flat }\n';
    const cut = (cuts: string, stop = 'left') =>
      names(
        access(
          body,
          stock,
          `  one: { up: top, hold: { vise: vise, jaws: [back, front], grip: 10, stop: ${stop} }, cuts: [${cuts}] }\n`,
          bench(em(6, 25)),
        ),
      );
    assert.deepEqual(cut('right, a'), []);
    assert.deepEqual(cut('left, a', 'right'), []);
    assert.deepEqual(cut('left, right, a'), ['access/jaw left', 'access/jaw right']);
    assert.deepEqual(cut('left, a', 'left'), ['access/jaw left']);
  });

  it('an end is milled only as far down as something is left of it', () => {
    const rim = (depth: number) => `stock: { form: block, extra: { left: 2, right: 2, front: 1, back: 1 } }
features:
  rim: { kind: contour, face: top, path: [{ x: 0, y: 0 }, { x: 40, y: 0 }, { x: 40, y: 30 }, { x: 0, y: 30 }], depth: ${depth} }
`;
    // Turned over, the jaws hold what the contour has freed; the excess below them is milled off from above.
    const setups = (
      grip: number,
    ) => `  one: { up: top, hold: { vise: vise, jaws: [back, front], grip: 6 }, cuts: [rim] }
  two: { up: bottom, hold: { vise: vise, jaws: [left, right], grip: ${grip} }, cuts: [left, right, front, back] }
`;
    const judge = (depth: number, grip: number) =>
      names(access('{ x: 40, y: 30, z: 20 }', rim(depth), setups(grip), bench(em(10, 32))));
    assert.deepEqual(judge(7, 6), []);
    assert.deepEqual(judge(11, 10), []);
    assert.deepEqual(judge(6, 10), ['access/jaw left', 'access/jaw right', 'access/jaw front', 'access/jaw back']);
  });

  it('a fix holds it by less, on parallels that are on hand', () => {
    const text = `${ALUMINIUM}body: ${body}\n${way(12)}setups:\n  one: { up: top, hold: { vise: vise, jaws: [back, front], grip: 10 }, cuts: [way] }\n`;
    assert.match(mended('access/jaw', text, /Grip 6 mm/, shop), /grip: 6/);
  });

  it('a clamp is in the way of what is cut under it', () => {
    const pocket = (x: number) =>
      `features:\n  well: { kind: pocket, face: top, at: { x: ${x}, y: 20 }, size: { x: 20, y: 16 }, corner-radius: 4.5, depth: 5 }\n`;
    const setup =
      '  one: { up: top, hold: { clamps: [{ x: 6, y: 20 }, { x: 94, y: 20 }], on: table }, cuts: [well] }\n';
    const wide = '{ x: 100, y: 40, z: 20 }';
    assert.deepEqual(access(wide, pocket(50), setup, shop), []);
    const [f] = access(wide, pocket(20), setup, shop);
    // The strap ends 16 from the left; the cutter's axis comes to 13.
    assert.deepEqual([f?.rule, f?.facts.meets], ['access/jaw', 'clamp']);
  });
});

describe('what lies over, and what looks away', () => {
  const shop = bench(em(6, 25) + em(8, 25));
  const features = `features:
  well: { kind: pocket, face: top, at: { x: 20, y: center }, size: { x: 20, y: 20 }, corner-radius: 4.5, depth: 6 }
  annex: { kind: pocket, face: top, at: { x: 34, y: center }, size: { x: 16, y: 20 }, corner-radius: 4.5, depth: 6 }
  seat: { kind: pocket, face: top, from: well, at: { x: 28, y: center }, size: { x: 12, y: 10 }, corner-radius: 4.5, depth: 4 }
`;
  const body = '{ x: 60, y: 40, z: 20 }';

  it('is told with what is to be cut first', () => {
    assert.deepEqual(access(body, features, `  one: { up: top, ${HOLD}, cuts: [well, annex, seat] }\n`, shop), []);
    const [f, ...others] = access(body, features, `  one: { up: top, ${HOLD}, cuts: [well, seat, annex] }\n`, shop);
    assert.deepEqual(others, []);
    assert.deepEqual([f?.rule, f?.facts.over_mm], ['access/covered', 6]);
    assert.match(f?.message ?? '', /Cut annex first/);
  });

  it('a face is not cut off while it looks down', () => {
    const stock = `stock: { form: block, extra: { bottom: 2 } }\n${features}`;
    const found = access(body, stock, `  one: { up: top, ${HOLD}, cuts: [well, annex, seat, bottom] }\n`, shop);
    assert.deepEqual(names(found), ['access/no-setup bottom']);
  });

  it('edges broken all round are cut from both sides', () => {
    const edges = (mm: number) => `features:\n  soft: { kind: chamfer, edges: [top, bottom], size: ${mm} }\n`;
    const mill = bench('  cm: { kind: chamfer-mill, diameter: 6, angle: 90, reach: 18 }\n');
    const one = `  one: { up: top, ${HOLD}, cuts: [soft] }\n`;
    const two = `  two: { up: bottom, ${HOLD}, cuts: [soft] }\n`;
    const [f] = access(body, edges(1.5), one, mill);
    assert.deepEqual([f?.rule, f?.facts.unseen, f?.facts.edges], ['access/no-setup', 4, 8]);
    assert.deepEqual(access(body, edges(1.5), one + two, mill), []);
    // Small ones are broken with a file where they look away.
    assert.deepEqual(access(body, edges(1), one, mill), []);
  });
});
