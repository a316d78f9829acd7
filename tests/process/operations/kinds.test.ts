/** Every kind of feature, in every variant, has the cuts that make it, with the shop that everyone starts with. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { FEATURE_KINDS, type FeatureKind } from '../../../server/src/model/feature-kinds';
import { approachesOf } from '../../../server/src/process/approach';
import { operationsOf } from '../../../server/src/process/operations';
import { priceOf } from '../../../server/src/process/operations/priced';
import type { Operation } from '../../../server/src/process/operations/types';
import { checkPart } from '../../../server/src/rules/check';
import { findMaterial } from '../../../server/src/tables/materials';

const ALUMINIUM = findMaterial('aluminium-6061-t6')!;
const SHOP = builtinShop();

/** What it is, and which cuts come of it. */
const VARIANTS: readonly (readonly [feature: string, does: string, more?: string])[] = [
  ['{ kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 6, depth: through }', 'spot drill'],
  ['{ kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 6, depth: 10, bottom: flat }', 'spot drill rough'],
  ['{ kind: hole, face: front, at: { x: 30, z: 10 }, diameter: 10 H7, depth: through }', 'spot drill ream'],
  ['{ kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 22 H7, depth: 7, bottom: flat }', 'spot drill rough bore'],
  ['{ kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 36, depth: 6, bottom: flat }', 'rough finish'],
  ['{ kind: hole, face: top, at: { x: 30, y: 20 }, thread: M5, depth: 14, thread-depth: 9 }', 'spot drill tap'],
  [
    '{ kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 5.5, depth: through, counterbore: M5 }',
    'spot drill counterbore',
  ],
  [
    '{ kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 5.5, depth: through, countersink: M5 }',
    'spot drill countersink',
  ],
  [
    '{ kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 6, depth: 12, tilt: { about: y, angle: 20 } }',
    'spot drill',
  ],
  [
    '{ kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 5, depth: 8, pattern: { bolt-circle: { diameter: 24, count: 4 } } }',
    'spot drill',
  ],
  [
    '{ kind: pocket, face: top, at: { x: 30, y: 20 }, size: { x: 30, y: 20 }, corner-radius: 4, depth: 8 }',
    'rough finish',
  ],
  [
    '{ kind: pocket, face: top, at: { x: 30, y: 20 }, size: { x: 30, y: 20 }, corner-radius: 4, depth: through }',
    'rough finish',
  ],
  ['{ kind: pocket, face: top, at: { x: 30, y: 20 }, diameter: 24, depth: 8 }', 'rough finish'],
  [
    '{ kind: pocket, face: top, at: { x: 30, y: 20 }, size: { x: 30, y: 20 }, corner-radius: 5, depth: 8, floor-radius: 1 }',
    'rough finish',
  ],
  [
    '{ kind: pocket, face: top, at: { x: 30, y: 20 }, size: { x: 40, y: 30 }, corner-radius: 4, depth: 8, islands: { boss: { diameter: 10, at: { x: 30, y: 20 } } } }',
    'rough finish',
  ],
  [
    '{ kind: pocket, face: top, at: { x: 30, y: 20 }, size: { x: 20, y: 16 }, corner-radius: 4, depth: 5, tilt: { about: y, angle: 15 } }',
    'rough finish',
  ],
  [
    '{ kind: pocket, face: top, at: { x: 55, y: 20 }, size: { x: 20, y: 20 }, corner-radius: 4, depth: 8 }',
    'rough finish',
  ],
  [
    '{ kind: pocket, face: top, path: [{ x: 10, y: 10, round: 4 }, { x: 40, y: 10, round: 4 }, { x: 25, y: 32, round: 4 }], depth: 6 }',
    'rough finish',
  ],
  ['{ kind: slot, face: top, ends: [{ x: 12, y: 20 }, { x: 48, y: 20 }], width: 8, depth: 6 }', 'rough finish'],
  ['{ kind: slot, face: top, ends: [{ x: 0, y: 20 }, { x: 60, y: 20 }], width: 8, depth: through }', 'rough finish'],
  [
    '{ kind: slot, face: top, ends: [{ x: 0, y: 20 }, { x: 60, y: 20 }], width: 8, depth: 16, tee: { width: 16, height: 8 } }',
    'rough finish undercut',
  ],
  [
    '{ kind: slot, face: top, ends: [{ x: 0, y: 20 }, { x: 60, y: 20 }], width: 14, depth: 6, dovetail: { angle: 60 } }',
    'rough undercut',
  ],
  [
    '{ kind: slot, face: top, path: [{ x: 10, y: 10 }, { x: 30, y: 28, round: 6 }, { x: 50, y: 10 }], width: 6, depth: 5 }',
    'rough finish',
  ],
  ['{ kind: step, face: top, along: front, width: 10, depth: 6 }', 'rough finish'],
  ['{ kind: step, face: top, along: front, width: 10, depth: 6, floor-radius: 2 }', 'rough finish'],
  [
    '{ kind: contour, face: top, path: [{ x: 5, y: 5, round: 5 }, { x: 55, y: 5, round: 5 }, { x: 55, y: 35, round: 5 }, { x: 5, y: 35, round: 5 }], depth: 10 }',
    'rough finish',
  ],
  [
    '{ kind: contour, face: top, path: [{ x: 5, y: 5 }, { x: 55, y: 5 }, { x: 55, y: 35 }, { x: 5, y: 35 }], depth: through }',
    'rough finish',
  ],
  ['{ kind: chamfer, edges: [top], size: 0.5 }', 'chamfer'],
  ['{ kind: chamfer, edges: [[left, front]], size: 2 }', 'chamfer'],
  [
    '{ kind: chamfer, edges: [{ rim: bore }], size: 0.5 }',
    'chamfer',
    '  bore: { kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 12, depth: through }\n',
  ],
  ['{ kind: edge-round, edges: [top], radius: 2 }', 'round'],
  ['{ kind: edge-round, edges: [[left, front]], radius: 3 }', 'round'],
  ['{ kind: groove, face: top, at: { x: 30, y: 20 }, diameter: 20, width: 3, depth: 2 }', 'rough finish'],
  [
    '{ kind: groove, in: bore, face: top, below: 4, width: 1.6, diameter: 22 }',
    'undercut',
    '  bore: { kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 20, depth: through }\n',
  ],
  ['{ kind: engraving, face: top, at: { x: 30, y: 20 }, text: A1, height: 8, depth: 0.3, stroke: 0.5 }', 'engrave'],
  ['{ kind: slope, face: top, along: front, angle: 45, width: 3 }', 'chamfer'],
  ['{ kind: slope, face: top, along: front, angle: 20, width: 8 }', 'rough finish'],
];

function cutsOf(feature: string, more = '', setups = ''): readonly Operation[] {
  const text = `part: p\nunits: mm\nmaterial: aluminium-6061-t6\nbody: { x: 60, y: 40, z: 20 }\nfeatures:\n${more}  it: ${feature}\n${setups}`;
  const { part, solid, findings } = checkPart(text, SHOP);
  const it = part.featureByName.get('it');
  assert.ok(it, `${feature}: ${findings.map((f) => f.message).join(' ')}`);
  return operationsOf(it, { part, solid, shop: SHOP });
}

describe('the cuts of every kind', () => {
  it('a corner between three walls is the one thing that no mill makes', () => {
    const cuts = cutsOf('{ kind: step, face: top, along: [front, left], width: 10, depth: 6 }');
    assert.deepEqual(
      cuts.map((o) => o.does),
      ['rough', 'finish', 'missing'],
    );
    assert.match(String(cuts[2]?.does === 'missing' && cuts[2].wanted), /no mill makes sharp ones/);
  });

  it('every form of feature is among them', () => {
    const seen = new Set(VARIANTS.map(([f]) => FEATURE_KINDS[/kind: ([\w-]+)/.exec(f)![1] as FeatureKind].form));
    assert.deepEqual([...seen].sort(), [...new Set(Object.values(FEATURE_KINDS).map((home) => home.form))].sort());
  });

  for (const [feature, wanted, more] of VARIANTS)
    it(`${feature.slice(2, 100)}: ${wanted}`, () => {
      const cuts = cutsOf(feature, more);
      // What a larger cutter leaves in the corners may be a cut of its own.
      assert.equal(
        cuts
          .map((o) => o.does)
          .filter((d) => d !== 'rest')
          .join(' '),
        wanted,
      );
      for (const o of cuts) {
        const { conditions: c, minutes } = priceOf(o, ALUMINIUM, SHOP.machines[0]!);
        // Taps are turned by hand here.
        assert.equal(c === undefined, o.does === 'tap');
        assert.ok(!c || (c.rpm >= 150 && c.rpm <= 5000 && c.feedMmPerMin > 0 && c.feedMmPerMin <= 3000 + 1e-6), o.does);
        assert.ok(minutes[0] > 0 && minutes[1] > minutes[0] && minutes[1] < 60, `${o.does} ${minutes}`);
      }
    });

  it('from every face that a straight cutter comes to it from, it takes cuts and time', () => {
    for (const [feature, , more = ''] of VARIANTS) {
      if (feature.includes('tilt')) continue;
      const text = `part: p\nunits: mm\nmaterial: aluminium-6061-t6\nbody: { x: 60, y: 40, z: 20 }\nfeatures:\n${more}  it: ${feature}\n`;
      const { part, solid } = checkPart(text, SHOP);
      for (const face of approachesOf(part.featureByName.get('it')!, part, solid)) {
        const cuts = cutsOf(feature, more, `setups:\n  one: { up: ${face}, cuts: [it] }\n`);
        const minutes = cuts.reduce((sum, o) => sum + priceOf(o, ALUMINIUM, SHOP.machines[0]!).minutes[0], 0);
        assert.ok(cuts.some((o) => o.does === 'missing') || minutes > 0, `${face} up: ${feature}`);
      }
    }
  });

  it('a step cut from the side that it runs along is as deep as it is wide there, and as wide as it is deep', () => {
    const from = (up: string, step: string) => {
      const cuts = cutsOf(step, '', `setups:\n  one: { up: ${up}, cuts: [it] }\n`);
      return cuts.flatMap((o) => (o.does === 'rough' || o.does === 'finish' ? [[o.does, o.depthMm, o.wideMm]] : []));
    };
    const step = '{ kind: step, face: top, along: front, width: 3, depth: 11 }';
    assert.deepEqual(
      from('top', step).map(([does, deep]) => [does, deep]),
      [
        ['rough', 11],
        ['finish', 11],
      ],
    );
    assert.deepEqual(
      from('front', step).map(([does, deep]) => [does, deep]),
      [
        ['rough', 3],
        ['finish', 3],
      ],
    );
    const wide = from('front', step)[0]![2] as number;
    assert.ok(wide > 10 && wide <= 11, `${wide}`);
    const high = '{ kind: step, face: front, along: right, width: 5, depth: 7 }';
    assert.deepEqual(
      from('right', high).map(([, deep]) => deep),
      [5, 5],
    );
  });
});
