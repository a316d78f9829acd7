/** Which cutter roughs and which finishes, by the time that both take; what a set-up asks for; ways to cut a slope. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { rectLoop } from '../../../server/src/geometry/2d/shape-outline';
import type { Region } from '../../../server/src/geometry/types';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import type { Shop } from '../../../server/src/model/shop-model';
import { operationsOf } from '../../../server/src/process/operations';
import { passedOverOf } from '../../../server/src/process/operations/passed-over';
import { priceOf } from '../../../server/src/process/operations/priced';
import { cornerAreaMm2, openingLeftMm2 } from '../../../server/src/process/operations/rest';
import type { Operation } from '../../../server/src/process/operations/types';
import { checkPart } from '../../../server/src/rules/check';
import { findMaterial } from '../../../server/src/tables/materials';
import { drill, endMill, shopWith } from '../../rules/shops';

const ALUMINIUM = findMaterial('aluminium-6061-t6')!;

function of(feature: string, shop: Shop, setups = '', body = '{ x: 200, y: 150, z: 30 }') {
  const text = `part: p\nunits: mm\nmaterial: aluminium-6061-t6\nbody: ${body}\nfeatures:\n  it: ${feature}\n${setups}`;
  const { part, solid } = checkPart(text, shop);
  const it = part.featureByName.get('it')!;
  return { part, solid, it, cuts: operationsOf(it, { part, solid, shop }) };
}
const does = (cuts: readonly Operation[]) =>
  cuts.map((o) => (o.does === 'missing' ? o.does : `${o.does} ${o.tool.name}`));
const minutes = (cuts: readonly Operation[], shop: Shop) =>
  cuts.reduce((sum, o) => sum + priceOf(o, ALUMINIUM, shop.machines[0]!).minutes[0], 0);

/** All that roughing, corners and finish take off. */
const removedMm3 = (cuts: readonly Operation[]) =>
  cuts.reduce((sum, o) => {
    if (o.does === 'rough' || o.does === 'rest') return sum + o.volumeMm3;
    return o.does === 'finish' ? sum + o.wayMm * o.wideMm * o.depthMm : sum;
  }, 0);

describe('what a cutter leaves in corners', () => {
  const square = (w: number, h: number): Region => ({ outer: rectLoop(0, 0, w, h), holes: [] });

  it('of a rectangle is four times R² (1 − π/4), measured by moving the outline in and out and by the closed form', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 90, noNaN: true }),
        fc.double({ min: 20, max: 90, noNaN: true }),
        fc.double({ min: 1, max: 9, noNaN: true }),
        (w, h, r) => {
          const wanted = 4 * r * r * (1 - Math.PI / 4);
          assert.ok(Math.abs(openingLeftMm2(square(w, h), r)! - wanted) < 1e-6);
          assert.ok(Math.abs(4 * cornerAreaMm2(90, 0, r) - wanted) < 1e-9);
        },
      ),
      { seed: 20261125, numRuns: 40 },
    );
  });

  it('in a corner that is round already is what lies between both circles', () => {
    // Of an equilateral corner (the walls turn by 120°): R² − r² times tan 60° − π/3.
    assert.ok(Math.abs(cornerAreaMm2(120, 2, 5) - (25 - 4) * (Math.sqrt(3) - Math.PI / 3)) < 1e-12);
    assert.equal(cornerAreaMm2(90, 5, 5), 0);
    assert.equal(cornerAreaMm2(90, 6, 5), 0);
  });

  it('of a pocket is the volume that the smaller cutter clears: (R² − r²)(4 − π) times its depth', () => {
    const shop = shopWith(endMill('em-6', 6, 20) + endMill('em-16', 16, 30));
    const { cuts } = of(
      '{ kind: pocket, face: top, at: { x: 100, y: 75 }, size: { x: 120, y: 90 }, corner-radius: 3, depth: 10 }',
      shop,
    );
    assert.deepEqual(does(cuts), ['rough em-16', 'rest em-6', 'finish em-6']);
    const [rough, rest] = cuts;
    const left = (64 - 9) * (4 - Math.PI) * 10;
    assert.ok(rest?.does === 'rest' && Math.abs(rest.volumeMm3 - left) < 1e-6 * left);
    const all = (120 * 90 - 9 * (4 - Math.PI)) * 10;
    assert.ok(rough?.does === 'rough' && Math.abs(removedMm3(cuts) - all) < 1e-6 * all);
    // 0.2 mm of the wall for the finish.
    assert.ok(Math.abs(all - left - rough.volumeMm3 - 0.2 * 10 * (2 * (114 + 84) + 6 * Math.PI)) < 1e-6 * all);
  });
});

describe('one cutter or two', () => {
  const shop = shopWith(endMill('em-6', 6, 20) + endMill('em-16', 16, 30));
  const pocket = (size: number) =>
    `{ kind: pocket, face: top, at: { x: 100, y: 75 }, size: { x: ${size}, y: ${size} }, corner-radius: 3, depth: 8 }`;

  it('is decided by the time with its change of tool, and flips where both take as long', () => {
    const alone = shopWith(endMill('em-6', 6, 20));
    const changeMin = shop.machines[0]!.toolChangeS / 60;
    let [one, two] = [18, 140];
    assert.equal(does(of(pocket(one), shop).cuts)[0], 'rough em-6');
    assert.equal(does(of(pocket(two), shop).cuts)[0], 'rough em-16');
    while (two - one > 0.05) {
      const mid = (one + two) / 2;
      if (does(of(pocket(mid), shop).cuts)[0] === 'rough em-6') one = mid;
      else two = mid;
    }
    // There the two cutters and the change take what the small one takes alone.
    const both = minutes(of(pocket(two), shop).cuts, shop) + changeMin;
    const small = minutes(of(pocket(two), alone).cuts, alone);
    assert.ok(Math.abs(both - small) < 0.02 * small, `${both} min against ${small} at ${two} mm`);
    for (const [size, quicker] of [
      [one - 4, 'small'],
      [two + 4, 'both'],
    ] as const) {
      const b = minutes(of(pocket(size), shop).cuts, shop);
      const s = minutes(of(pocket(size), alone).cuts, alone);
      if (quicker === 'both') assert.ok(b + changeMin < s);
      else assert.ok(Math.abs(b - s) < 1e-9, 'the small one alone');
    }
  });

  it('a machine that changes tools by itself takes two sooner', () => {
    const quick: Shop = { ...shop, machines: [{ ...shop.machines[0]!, toolChangeS: 5 }] };
    const slow: Shop = { ...shop, machines: [{ ...shop.machines[0]!, toolChangeS: 3600 }] };
    assert.equal(does(of(pocket(50), quick).cuts)[0], 'rough em-16');
    assert.equal(does(of(pocket(50), slow).cuts)[0], 'rough em-6');
  });

  it('a narrow place beside an island is left for the small one: round a disc next to a wall, by hand', () => {
    // A pocket of two circles' sizes: 60 × 60 with corners of 8 and a post of 40 in its middle leaves 10 mm at four places.
    const post =
      '{ kind: pocket, face: top, at: { x: 100, y: 75 }, size: { x: 60, y: 60 }, corner-radius: 8, depth: 10, islands: { post: { diameter: 40, at: { x: 100, y: 75 }, height: 10 } } }';
    const near = post.replace('at: { x: 100, y: 75 }, height', 'at: { x: 97, y: 75 }, height');
    const tools = shopWith(endMill('em-6', 6, 20) + endMill('em-12', 12, 30));
    const quick: Shop = { ...tools, machines: [{ ...tools.machines[0]!, toolChangeS: 1 }] };
    const { cuts } = of(near, quick);
    assert.deepEqual(does(cuts), ['rough em-12', 'rest em-6', 'finish em-6']);
    const [rough, rest] = cuts;
    assert.ok(rough?.does === 'rough' && rest?.does === 'rest');
    const region = 60 * 60 - 64 * (4 - Math.PI) - Math.PI * 400;
    assert.ok(Math.abs(removedMm3(cuts) - region * 10) < 1e-3 * region * 10);
    assert.ok(rest.volumeMm3 > 0.02 * region * 10 && rest.volumeMm3 < 0.6 * region * 10, `${rest.volumeMm3}`);
  });

  it('no two-millimetre cutter roughs a large pocket, whatever else is on hand', () => {
    const { cuts } = of(pocket(100).replace('corner-radius: 3', 'corner-radius: 1.2'), builtinShop());
    const [rough, ...rest] = cuts;
    assert.ok(rough?.does === 'rough' && rough.tool.diameterMm >= 10, does(cuts).join());
    assert.ok(rest.every((o) => 'tool' in o && o.tool.diameterMm <= 2.4));
  });
});

describe('a tool that a set-up asks for', () => {
  const shop = shopWith(
    endMill('em-5', 5, 16) +
      endMill('em-6', 6, 20) +
      drill(6, 60) +
      drill(5.9, 60) +
      'cm: { kind: chamfer-mill, diameter: 6 }\ncm-2: { kind: chamfer-mill, diameter: 12 }\n',
  );
  const setup = (tool: string) =>
    `setups:\n  first: { up: top, hold: { vise: vise, jaws: [front, back], grip: 6 }, zero: { x: left, y: back, z: top }, cuts: [it], tools: { it: ${tool} } }\n`;
  const POCKET =
    '{ kind: pocket, face: top, at: { x: 60, y: 60 }, size: { x: 40, y: 30 }, corner-radius: 3, depth: 8 }';
  const HOLE = '{ kind: hole, face: top, at: { x: 60, y: 60 }, diameter: 6, depth: 12 }';

  it('goes before what would be chosen', () => {
    assert.deepEqual(does(of(POCKET, shop).cuts), ['rough em-6', 'finish em-6']);
    assert.deepEqual(does(of(POCKET, shop, setup('em-5')).cuts), ['rough em-5', 'finish em-5']);
    assert.deepEqual(does(of(HOLE, shop).cuts), ['drill dr-6']);
    assert.deepEqual(does(of(HOLE, shop, setup('dr-5.9')).cuts), ['drill dr-5.9']);
    assert.deepEqual(does(of(HOLE, shop, setup('em-5')).cuts), ['rough em-5', 'finish em-5']);
    const edge = '{ kind: chamfer, edges: [[top, front]], size: 1 }';
    assert.deepEqual(does(of(edge, shop).cuts), ['chamfer cm']);
    assert.deepEqual(does(of(edge, shop, setup('cm-2')).cuts), ['chamfer cm-2']);
  });

  it('of a kind that does not cut such a thing is passed over', () => {
    assert.deepEqual(does(of(POCKET, shop, setup('dr-6')).cuts), ['rough em-6', 'finish em-6']);
  });
});

describe('a slope', () => {
  const SLOPE = '{ kind: slope, face: top, along: front, angle: 45, width: 4 }';
  const cone = 'cm: { kind: chamfer-mill, diameter: 10, angle: 90 }\n';
  const long = endMill('em-20', 20, 80);
  const body = '{ x: 60, y: 40, z: 20 }';
  const held = (hold: string, up: string) =>
    `setups:\n  first: { up: ${up}, hold: ${hold}, zero: { x: left, y: back, z: top }, cuts: [it] }\n`;
  const vise = '{ vise: vise, jaws: [front, back], grip: 6 }';

  it('by its flank, along the edge, or held at its angle: the least trouble where no set-up says', () => {
    assert.deepEqual(does(of(SLOPE, shopWith(cone + long), '', body).cuts), ['chamfer cm']);
    assert.deepEqual(does(of(SLOPE, shopWith(long), '', body).cuts), ['rough em-20', 'finish em-20']);
    const short = of(SLOPE, shopWith(endMill('em-8', 8, 20)), '', body).cuts;
    assert.deepEqual(does(short), ['rough em-8', 'face em-8']);
    assert.match(short[0]!.how!, /held at 45°/);
    assert.deepEqual(does(of(SLOPE, shopWith(''), '', body).cuts), ['missing']);
  });

  it('as its set-up holds it', () => {
    const shop = shopWith(cone + long);
    assert.match(of(SLOPE, shop, held(vise, 'left'), body).cuts[0]!.how!, /along the edge/);
    assert.deepEqual(does(of(SLOPE, shop, held(vise, 'top'), body).cuts), ['chamfer cm']);
    assert.match(of(SLOPE, shop, held('{ angle: 45, about: x }', 'top'), body).cuts[0]!.how!, /held at 45°/);
  });

  it('takes the volume of its wedge, and is as long as its edge', () => {
    const [rough, face] = of(SLOPE, shopWith(endMill('em-8', 8, 20)), '', body).cuts;
    assert.ok(rough?.does === 'rough' && Math.abs(rough.volumeMm3 - (4 * 4 * 60) / 2) < 1e-6);
    assert.ok(face?.does === 'face' && Math.abs(face.widthMm - 4 * Math.SQRT2) < 1e-9 && face.lengthMm === 60);
  });

  it('a cone too small for it does not make it', () => {
    const small = shopWith('cm: { kind: chamfer-mill, diameter: 6, angle: 90 }\n');
    const { part, solid, it: slope, cuts } = of(SLOPE, small, '', body);
    assert.deepEqual(does(cuts), ['missing']);
    assert.deepEqual(
      passedOverOf(slope, { part, solid, shop: small }).map((p) => p.why),
      ['too small for 4 mm'],
    );
  });
});

describe('half from each side', () => {
  const THROUGH =
    '{ kind: pocket, face: top, at: { x: 60, y: 60 }, size: { x: 40, y: 30 }, corner-radius: 4, depth: through }';
  const body = '{ x: 120, y: 120, z: 30 }';
  const both = `setups:
  first: { up: top, hold: { vise: vise, jaws: [front, back], grip: 6 }, zero: { x: left, y: back, z: top }, cuts: [it] }
  second: { up: bottom, hold: { vise: vise, jaws: [front, back], grip: 6 }, zero: { x: left, y: back, z: bottom }, cuts: [it] }
`;

  it('where nothing reaches through: the same volume, twice round its walls at half the depth', () => {
    const [long, short] = [shopWith(endMill('em-8', 8, 40)), shopWith(endMill('em-8', 8, 18))];
    const [through] = of(THROUGH, long, '', body).cuts.slice(-1);
    const cuts = of(THROUGH, short, '', body).cuts;
    assert.deepEqual(does(cuts), ['rough em-8', 'finish em-8']);
    assert.ok(cuts.every((o) => o.how === 'half from each side'));
    const [rough, finish] = cuts;
    assert.ok(rough?.does === 'rough' && Math.abs(removedMm3(cuts) - (40 * 30 - 16 * (4 - Math.PI)) * 30) < 1e-3);
    assert.ok(finish?.does === 'finish' && through?.does === 'finish');
    assert.equal(finish.depthMm, 15);
    assert.ok(Math.abs(finish.wayMm - 2 * through.wayMm) < 1e-9);
    assert.deepEqual(does(of(THROUGH, shopWith(endMill('em-8', 8, 14)), '', body).cuts), ['missing']);
  });

  it('where two set-ups do so, though a tool reaches through; a blind one never', () => {
    const shop = shopWith(endMill('em-8', 8, 40));
    assert.equal(of(THROUGH, shop, '', body).cuts[0]!.how, undefined);
    assert.equal(of(THROUGH, shop, both, body).cuts[0]!.how, 'half from each side');
    const blind = THROUGH.replace('through', '25');
    assert.deepEqual(does(of(blind, shopWith(endMill('em-8', 8, 18)), '', body).cuts), ['missing']);
  });

  it('a hole with a short drill, once from each side for every member', () => {
    const hole =
      '{ kind: hole, face: top, at: { x: 60, y: 60 }, diameter: 5, depth: through, pattern: { line: { x: 20, count: 3 } } }';
    const [cut] = of(hole, shopWith(drill(5, 20)), '', body).cuts;
    assert.ok(cut?.does === 'drill' && cut.times === 6 && cut.depthMm === 16 && cut.how === 'half from each side');
    // A thread runs through in one.
    const thread = hole.replace('diameter: 5', 'thread: M6');
    assert.equal(of(thread, shopWith(drill(5, 20)), '', body).cuts[0]!.does, 'missing');
  });
});

describe('a finishing cut', () => {
  const shop = shopWith(endMill('em-6', 6, 20));
  const bends = (width: string) => {
    const { cuts } = of(
      `{ kind: slot, face: top, ends: [{ x: 30, y: 60 }, { x: 90, y: 60 }], width: ${width}, depth: 8 }`,
      shop,
    );
    const finish = cuts.find((o) => o.does === 'finish')!;
    const priced = priceOf(finish, ALUMINIUM, shop.machines[0]!);
    return { mm: priced.milling!.deflectionMm, minutes: priced.minutes[0] };
  };

  it('bends its cutter by half of half the tolerance at most, 0.02 mm where there is none, and takes longer for it', () => {
    const [plain, close] = [bends('8'), bends('8 ±0.008')];
    assert.ok(plain.mm <= 0.02 + 1e-9 && plain.mm > 0.004);
    assert.ok(close.mm <= 0.004 + 1e-9, `${close.mm}`);
    assert.ok(close.minutes > plain.minutes);
    // A wide tolerance does not loosen what common practice asks.
    assert.ok(bends('8 ±0.5').mm <= 0.02 + 1e-9);
    assert.ok(bends('8 H7').mm <= 0.015 / 4 + 1e-9);
  });
});
