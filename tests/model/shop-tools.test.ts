import assert from 'node:assert/strict';
import { TOOL_KINDS, TOOL_KINDS_BY_NAME } from '../../server/src/model/tool-kinds';
import { toolOf } from './shop-said';

describe('spec: tools', () => {
  /** The least that each kind can be written with, and what it then is. */
  const least: Readonly<Record<string, readonly [fields: string, is: Record<string, unknown>]>> = {
    'end-mill': [
      'diameter: 10',
      { flutes: 3, fluteLengthMm: 22, reachMm: 22, shankMm: 10, cornerRadiusMm: 0, material: 'carbide' },
    ],
    'face-mill': ['diameter: 50', { flutes: 4, fluteLengthMm: 5, reachMm: 25, shankMm: 22, cornerRadiusMm: 0 }],
    'corner-rounder': [
      'diameter: 10, corner-radius: 2',
      { cornerRadiusMm: 2, fluteLengthMm: 2, reachMm: 2, shankMm: 10 },
    ],
    engraver: ['diameter: 0.3', { angleDeg: 60, flutes: 1, fluteLengthMm: 2, reachMm: 2, shankMm: 6 }],
    'tee-cutter': [
      'diameter: 14, neck: 6, thickness: 6, reach: 18',
      { neckMm: 6, thicknessMm: 6, reachMm: 18, flutes: 6 },
    ],
    'dovetail-cutter': ['diameter: 16, neck: 8, thickness: 6, reach: 18', { angleDeg: 60, neckMm: 8, thicknessMm: 6 }],
    'ball-undercutter': ['diameter: 6, neck: 4, reach: 20', { thicknessMm: 6, neckMm: 4, reachMm: 20, flutes: 2 }],
    'slitting-saw': [
      'diameter: 63, thickness: 1.6',
      { neckMm: 25.2, belowMm: 6.3, flutes: 40, reachMm: 31.5, shankMm: 16, material: 'hss' },
    ],
    drill: ['diameter: 4.2', { fluteLengthMm: 43, pointDeg: 118, material: 'hss' }],
    'spot-drill': ['diameter: 8', { fluteLengthMm: 16, pointDeg: 90 }],
    'flat-drill': ['diameter: 6', { fluteLengthMm: 18, pointDeg: 180 }],
    reamer: ['diameter: 6', { fit: 'H7', reachMm: 24, material: 'hss' }],
    'boring-head': ['diameter: 10, largest: 50, reach: 40', { largestMm: 50, reachMm: 40 }],
    tap: ['thread: m8×1', { thread: 'M8x1', diameterMm: 8, chamfer: 'plug', reachMm: 32 }],
    'thread-mill': [
      'diameter: 16, pitch: 3',
      {
        pitchMm: [3, 3],
        flutes: 3,
        fluteLengthMm: 3,
        reachMm: 40,
        shankMm: 16,
        material: 'carbide',
        flanksDeg: 60,
        cuts: 'inside',
      },
    ],
    'chamfer-mill': ['diameter: 8', { angleDeg: 90, reachMm: 8, tipMm: 0, material: 'carbide' }],
    countersink: ['diameter: 16.5', { angleDeg: 90, reachMm: 16.5, tipMm: 0, material: 'hss' }],
    'counterbore-cutter': ['diameter: 10, pilot: 5.5', { angleDeg: 180, reachMm: 20, pilotMm: 5.5 }],
  };

  it('every kind is tried here', () => {
    assert.deepEqual(Object.keys(least).sort(), [...TOOL_KINDS].sort());
  });

  for (const [kind, [fields, is]] of Object.entries(least)) {
    it(`a ${kind} with the least that says what it is`, () => {
      const { tool, said, shop } = toolOf(`{ kind: ${kind}, ${fields} }`);
      assert.deepEqual(said, []);
      assert.equal(tool?.kind, kind);
      for (const [key, value] of Object.entries(is)) {
        assert.deepEqual((tool as unknown as Record<string, unknown>)[key], value, key);
      }
      // Whatever is not written is noted as assumed, under the name the field has in the text.
      const fieldNames = Object.keys(TOOL_KINDS_BY_NAME[kind as keyof typeof TOOL_KINDS_BY_NAME].schema.shape);
      for (const a of shop.assumed) assert.ok(fieldNames.includes(a.field), `${a.field} is a field of ${kind}`);
    });
  }

  it('what is written is not assumed', () => {
    const { shop, said } = toolOf(
      '{ kind: end-mill, diameter: 6, flutes: 2, flute-length: 16, reach: 18, shank: 6, corner-radius: 3, helix: 30°, centre-cutting: no, material: hss, holder: er20, stickout: 24, largest-speed: 4000, note: in the red box }',
    );
    assert.deepEqual(said, []);
    assert.deepEqual(shop.assumed, []);
    const [mill] = shop.tools;
    assert.equal(mill?.note, 'in the red box');
    assert.ok(mill.kind === 'end-mill' && mill.centreCutting === false);
  });

  it('a mill cuts over its centre by its flutes and what it is made of, unless it is said', () => {
    const cuts = (more: string) => {
      const { tool } = toolOf(`{ kind: end-mill, diameter: 10, ${more} }`);
      return tool?.kind === 'end-mill' && tool.centreCutting;
    };
    for (const [more, does] of [
      ['flutes: 2, material: hss', true],
      ['flutes: 3, material: hss', true],
      ['flutes: 4, material: hss', false],
      ['flutes: 4, material: carbide', true],
      ['flutes: 6, material: carbide', false],
      ['flutes: 6, centre-cutting: yes', true],
    ] as const)
      assert.equal(cuts(more), does, more);
  });

  it('inch cutters get inch shanks', () => {
    const { tool } = toolOf('{ kind: end-mill, diameter: 3/16 }', 'in');
    assert.ok(tool?.kind === 'end-mill');
    assert.ok(Math.abs(tool.shankMm - 4.7625) < 1e-9);
  });

  const told: Readonly<Record<string, readonly [fields: string, wanted: RegExp]>> = {
    'no kind': ['{ diameter: 6 }', /^t → form\/schema: Tool `t` needs `kind`/],
    'an unknown kind': ['{ kind: endmill, diameter: 6 }', /^endmill → form\/schema: .*Did you mean `end-mill`/],
    'a kind like no other': ['{ kind: laser, diameter: 6 }', /^laser → form\/schema: .*Write `end-mill`/],
    'no map at all': ['6 mm', /^t → form\/schema: Tool `t` has no entries/],
    'a field of another kind': [
      '{ kind: drill, diameter: 6, chamfer: plug }',
      /^chamfer → form\/schema: Tool `t` has no field `chamfer`/,
    ],
    'a misspelt field': ['{ kind: drill, diametre: 6 }', /^diametre → form\/schema: .*Did you mean `diameter`/],
    'a missing diameter': ['{ kind: drill }', /^t → form\/schema: Tool `t` needs `diameter`/],
    'a diameter of nothing': [
      '{ kind: drill, diameter: 0 }',
      /^0 → form\/schema: `diameter` is `0`. Make it more than 0/,
    ],
    'a diameter that is an angle': [
      '{ kind: drill, diameter: 6 deg }',
      /^6 deg → form\/unit: .*where a length is needed/,
    ],
    'a tolerance on a tool': [
      '{ kind: drill, diameter: 6 ±0.1 }',
      /^±0\.1 → form\/unit: A tolerance means nothing here/,
    ],
    'a parameter': ['{ kind: drill, diameter: pitch }', /^pitch → form\/unit: There are no parameters/],
    'half a flute': [
      '{ kind: end-mill, diameter: 6, flutes: 2.5 }',
      /^2\.5 → form\/schema: `flutes` is 2.5. Make it a whole number/,
    ],
    'flutes longer than the reach': [
      '{ kind: end-mill, diameter: 6, flute-length: 20, reach: 18 }',
      /^18 → form\/schema: Its flutes, 20 mm, are longer than its reach, 18 mm/,
    ],
    'a wide shank that begins within the flutes': [
      '{ kind: end-mill, diameter: 3, flute-length: 12, reach: 8, shank: 6 }',
      /^8 → form\/schema: .*its shank of 6 mm begins where its reach ends/,
    ],
    'a stick-out shorter than the flutes': [
      '{ kind: end-mill, diameter: 6, flute-length: 16, reach: 16, stickout: 12, holder: er20 }',
      /^12 → form\/schema: Its stick-out is only 12 mm, but its flutes are 16 mm/,
    ],
    'a corner radius over a ball': [
      '{ kind: end-mill, diameter: 6, corner-radius: 3.5 }',
      /^3\.5 → form\/schema: A corner radius of 3\.5 mm does not go on a cutter 6 mm wide/,
    ],
    'a point that nobody grinds': [
      '{ kind: drill, diameter: 6, point: 40 }',
      /^40 → form\/schema: A drill’s point of 40°/,
    ],
    'a point past flat': [
      '{ kind: drill, diameter: 6, point: 200 }',
      /^200 → form\/schema: `point` is 200°. Make it more than 0° and at most 180°/,
    ],
    'a thread that is not in the tables': [
      '{ kind: tap, thread: M5.5 }',
      /^M5\.5 → thread\/unknown: .*Write `M5` or `M6`, the nearest/,
    ],
    'a holder nobody has': [
      '{ kind: drill, diameter: 6, holder: er02 }',
      /^er02 → form\/unknown-name: .*Did you mean `er20`/,
    ],
    'a neck as thick as the head': [
      '{ kind: tee-cutter, diameter: 14, neck: 14, thickness: 6, reach: 18 }',
      /^14 → form\/schema: Its neck, 14 mm, is not thinner/,
    ],
    'a head thicker than its reach': [
      '{ kind: tee-cutter, diameter: 14, neck: 6, thickness: 20, reach: 18 }',
      /^18 → form\/schema: Its reach, 18 mm, is less than the thickness/,
    ],
    // 60° over 6.3 mm takes 2 × 6.3 / tan 60° = 7.27 mm off 16: 8.73 mm is left, 9 does not fit.
    'a neck thicker than the dovetail’s cone': [
      '{ kind: dovetail-cutter, diameter: 16, neck: 9, thickness: 6.3, angle: 60, reach: 20 }',
      /^9 → form\/schema: At 6\.3 mm up, its cone is only 8\.725 mm wide/,
    ],
    'a reamer of no fit': ['{ kind: reamer, diameter: 6, fit: tight }', /^tight → form\/schema: This `fit`/],
    'a boring head that shrinks': [
      '{ kind: boring-head, diameter: 50, largest: 10, reach: 40 }',
      /^10 → form\/schema: The largest bore, 10 mm, is under the smallest, 50 mm/,
    ],
    'a tip wider than the cone': [
      '{ kind: chamfer-mill, diameter: 6, tip: 8 }',
      /^8 → form\/schema: Its tip, 8 mm, is not smaller/,
    ],
    'a pilot wider than the cutter': [
      '{ kind: counterbore-cutter, diameter: 10, pilot: 11 }',
      /^11 → form\/schema: Its pilot, 11 mm, is not smaller/,
    ],
    'a rounder with nothing left': [
      '{ kind: corner-rounder, diameter: 6, corner-radius: 3 }',
      /^3 → form\/schema: Rounding with 3 mm on both sides leaves nothing/,
    ],
    'an unknown chamfer': [
      '{ kind: tap, thread: M5, chamfer: plugg }',
      /^plugg → form\/schema: `chamfer` cannot be `plugg`/,
    ],
  };
  for (const [what, [fields, wanted]] of Object.entries(told)) {
    it(`tells of ${what}, once and at the narrowest place`, () => {
      const { said } = toolOf(fields);
      assert.equal(said.length, 1, said.join('\n'));
      assert.match(said[0]!, wanted);
    });
  }

  it('flutes that end at the wide shank are no mistake', () => {
    assert.deepEqual(toolOf('{ kind: end-mill, diameter: 3, flute-length: 8, reach: 8, shank: 6 }').said, []);
  });

  it('names that are no names, with a tidy one offered', () => {
    const { shop } = toolOf('{ kind: drill, diameter: 3 }\n  Big Drill: { kind: drill, diameter: 12 }');
    assert.equal(shop.problems[0]?.fixes?.[0]?.edits[0]?.newText, 'big-drill');
    assert.equal(shop.tools.length, 1);
  });
});
