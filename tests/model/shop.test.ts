import assert from 'node:assert/strict';
import fc from 'fast-check';
import { resolveShop } from '../../server/src/model/shop';
import { readText } from '../../server/src/text/read';
import { mended, shopOf } from './shop-said';

/** The example of the format page. */
const CAMPUS = `shop: campus workshop
units: mm
machines:
  toolroom-mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.1 kW, torque: 14 N·m }, feed: 3000 mm/min, coolant: flood, zero-error: { edge-finder: 0.02, probe: 0.01, tool-edge: 0.08, stop: 0.02 } }
vises:
  mill-vise-100: { jaw: { width: 100, height: 32 }, opens: 110, force: 15 kN, face: smooth }
parallels: [10, 14, 18, 22, 26, 30]        # heights of the pairs on hand
holders: { er20-short: { diameter: 34, length: 50 } }
tools:
  em-6: { kind: end-mill, diameter: 6, flutes: 3, flute-length: 16, reach: 18, shank: 6, corner-radius: 0, material: carbide, holder: er20-short, stickout: 24 }
  dr-4.2: { kind: drill, diameter: 4.2, flute-length: 43, point: 118, material: hss, holder: er20-short }
  tap-m5: { kind: tap, thread: M5, chamfer: plug, reach: 22 }
rack:                                       # bars and plates that can be had
  - { form: flat-bar, material: aluminium-6061-t6, section: { width: 40, thickness: 16 }, lengths: [1000, 3000], per-metre: 9.5 }
rates: { machine-hour: 25, person-hour: 0, currency: EUR }
`;

describe('spec: a shop from its text', () => {
  it('reads the example of the format page whole', () => {
    const { shop, said } = shopOf(CAMPUS);
    assert.deepEqual(said, []);
    assert.equal(shop.name, 'campus workshop');
    assert.equal(shop.uri, 'campus.shop.yaml');
    assert.equal(shop.builtIn, false);
    const [machine] = shop.machines;
    assert.deepEqual(machine?.travelMm, [400, 220, 380]);
    assert.deepEqual(machine?.rpm, [150, 5000]);
    assert.equal(machine?.powerW, 1100);
    assert.equal(machine?.torqueNm, 14);
    assert.equal(machine?.feedMmPerMin, 3000);
    assert.equal(machine?.coolant, 'flood');
    assert.equal(machine?.zeroErrorMm['tool-edge'], 0.08);
    assert.deepEqual(shop.parallelsMm, [10, 14, 18, 22, 26, 30]);
    const [vise] = shop.vises;
    assert.deepEqual(
      [vise?.jawWidthMm, vise?.jawHeightMm, vise?.opensMm, vise?.forceN, vise?.face],
      [100, 32, 110, 15_000, 'smooth'],
    );
    const [mill, drill, tap] = shop.tools;
    assert.ok(mill?.kind === 'end-mill' && drill?.kind === 'drill' && tap?.kind === 'tap');
    assert.deepEqual(
      [
        mill.diameterMm,
        mill.flutes,
        mill.fluteLengthMm,
        mill.reachMm,
        mill.shankMm,
        mill.cornerRadiusMm,
        mill.stickoutMm,
      ],
      [6, 3, 16, 18, 6, 0, 24],
    );
    assert.deepEqual([drill.diameterMm, drill.fluteLengthMm, drill.pointDeg, drill.material], [4.2, 43, 118, 'hss']);
    assert.deepEqual([tap.thread, tap.diameterMm, tap.chamfer, tap.reachMm], ['M5', 5, 'plug', 22]);
    assert.deepEqual(shop.rack[0]?.lengthsMm, [1000, 3000]);
    assert.deepEqual([shop.rack[0]?.widthMm, shop.rack[0]?.thicknessMm, shop.rack[0]?.perMetre], [40, 16, 9.5]);
    assert.deepEqual(shop.rates, { machineHour: 25, personHour: 0, currency: 'EUR' });
    assert.deepEqual(
      shop.names.map((n) => `${n.of} ${n.name}`),
      ['machine toolroom-mill', 'vise mill-vise-100', 'holder er20-short', 'tool em-6', 'tool dr-4.2', 'tool tap-m5'],
    );
  });

  it('says what was assumed, where it stands and why', () => {
    const { shop } = shopOf(CAMPUS);
    assert.deepEqual(
      shop.assumed.map((a) => `${a.of} ${a.field} ${a.text}`),
      [
        'machines/toolroom-mill control program',
        'machines/toolroom-mill tapping hand',
        'machines/toolroom-mill backlash 0 mm',
        'machines/toolroom-mill zero-error.indicator 0.01 mm',
        'machines/toolroom-mill tool-change 90 s',
        'vises/mill-vise-100 bed 65 mm',
        'tools/em-6 helix 30 to 45',
        'tools/em-6 centre-cutting yes',
        'tools/tap-m5 material hss',
      ],
    );
    for (const a of shop.assumed) assert.ok(a.why && a.span.to > a.span.from);
  });

  it('in inches, every bare length is one', () => {
    const { shop, said } = shopOf(`shop: s
units: in
machines: { m: { travel: { x: 16, y: 8, z: 15 }, spindle: { rpm: [100, 4000], power: 1.5 hp, torque: 10 ft-lb }, feed: 100 } }
vises: { v: { jaw: { width: 4, height: 1.25 }, opens: 4, force: 3000 lbf, face: serrated } }
parallels: [1/2, 3/4, 1 1/4, 20 mm]
tools: { dr: { kind: drill, diameter: 1/4, flute-length: 2 3/4 }, em: { kind: end-mill, diameter: 6 mm } }
`);
    assert.deepEqual(said, []);
    assert.deepEqual(shop.machines[0]?.travelMm, [406.4, 203.2, 381]);
    assert.ok(Math.abs(shop.machines[0]!.powerW - 1118.55) < 0.01);
    assert.ok(Math.abs(shop.machines[0]!.torqueNm! - 13.558) < 0.001);
    assert.equal(shop.machines[0]?.feedMmPerMin, 2540);
    assert.ok(Math.abs(shop.vises[0]!.forceN - 13_344.7) < 0.1);
    assert.deepEqual(
      shop.parallelsMm,
      [12.7, 19.049999999999997, 20, 31.75].map((n) => shop.parallelsMm.find((p) => Math.abs(p - n) < 1e-9)),
    );
    assert.deepEqual(
      shop.tools.map((t) => t.diameterMm),
      [6.35, 6],
    );
  });

  it('limits: rule, setting, value; a length with a unit in mm', () => {
    const { shop, said } = shopOf(
      'shop: s\nlimits:\n  wall/thin: { metal: 1.2, plastic: 0.1 in }\n  hole/depth-ratio: { peck: 8 }\n',
    );
    assert.deepEqual(said, []);
    assert.equal(shop.limits.get('wall/thin')?.get('metal'), 1.2);
    assert.equal(shop.limits.get('wall/thin')?.get('plastic'), 2.54);
    assert.equal(shop.limits.get('hole/depth-ratio')?.get('peck'), 8);
  });

  const told: Readonly<Record<string, readonly [text: string, ...wanted: RegExp[]]>> = {
    'a shop without a name': ['machines: {}\n', /^m → form\/schema: A shop needs a name/],
    'a misspelt section': ['shop: s\ntoools: {}\n', /^toools → form\/schema: .*Did you mean `tools`/],
    'a wrong unit system': ['shop: s\nunits: cm\n', /^cm → form\/schema: `units` cannot be `cm`. Write `mm` or `in`/],
    'a section that is a list': ['shop: s\ntools: [a]\n', /^\[a\] → form\/schema: `tools` needs a name/],
    'power without a unit': [
      'shop: s\nmachines: { m: { travel: { x: 1, y: 1, z: 1 }, spindle: { rpm: [1, 2], power: 1.1 } } }\n',
      /^1\.1 → form\/unit: `power` has no unit/,
    ],
    'power in a unit of force': [
      'shop: s\nmachines: { m: { travel: { x: 1, y: 1, z: 1 }, spindle: { rpm: [1, 2], power: 1.1 kN } } }\n',
      /^1\.1 kN → form\/unit: `kN` is not a unit of power/,
    ],
    'speeds the wrong way round': [
      'shop: s\nmachines: { m: { travel: { x: 1, y: 1, z: 1 }, spindle: { rpm: [5000, 150], power: 1 kW } } }\n',
      /^\[5000, 150\] → form\/schema: The slowest speed, 5000, is over the fastest, 150/,
    ],
    'one speed': [
      'shop: s\nmachines: { m: { travel: { x: 1, y: 1, z: 1 }, spindle: { rpm: [5000], power: 1 kW } } }\n',
      /^\[5000\] → form\/schema: `rpm` needs two speeds/,
    ],
    'no travel': [
      'shop: s\nmachines: { m: { spindle: { rpm: [1, 2], power: 1 kW } } }\n',
      /^m → form\/schema: Machine `m` needs `travel`/,
    ],
    'a vise that opens less than nothing': [
      'shop: s\nvises: { v: { jaw: { width: 100, height: 30 }, opens: -5 } }\n',
      /^-5 → form\/schema: `opens` is `-5`. Make it more than 0/,
    ],
    'clamping force without a unit': [
      'shop: s\nvises: { v: { jaw: { width: 100, height: 30 }, opens: 90, force: 15 } }\n',
      /^15 → form\/unit: `force` has no unit/,
    ],
    'the same parallels twice': [
      'shop: s\nparallels: [10, 12, 10.0]\n',
      /^10\.0 → form\/schema: Parallels 10 mm high are listed already/,
    ],
    'a coolant nobody has': [
      'shop: s\nmachines: { m: { travel: { x: 1, y: 1, z: 1 }, spindle: { rpm: [1, 2], power: 1 kW }, coolant: flod } }\n',
      /^flod → form\/schema: `coolant` cannot be `flod`/,
    ],
    'a bar of an unknown material': [
      'shop: s\nrack:\n  - { form: plate, material: aluminium-6061-t5, section: { width: 500, thickness: 10 } }\n',
      /^aluminium-6061-t5 → stock\/unknown-material: .*Did you mean `aluminium-6061-t6`/,
    ],
    'a flat bar without a thickness': [
      'shop: s\nrack:\n  - { form: flat-bar, material: 6061, section: { width: 40 } }\n',
      /^\{ width: 40 \} → form\/schema: Bar 1 of the rack needs the `thickness`/,
    ],
    'a round bar with a section': [
      'shop: s\nrack:\n  - { form: round-bar, material: 6061, section: { width: 40, thickness: 4 } }\n',
      /^round-bar → form\/schema: Bar 1 of the rack is round/,
    ],
    'a square bar that is none': [
      'shop: s\nrack:\n  - { form: square-bar, material: 6061, section: { width: 40, thickness: 30 } }\n',
      /^square-bar → form\/schema: .* width and thickness differ/,
    ],
    'a limit that is no number': [
      'shop: s\nlimits: { wall/thin: { metal: thick } }\n',
      /^thick → form\/schema: `metal` needs a number/,
    ],
  };
  for (const [what, [text, ...wanted]] of Object.entries(told)) {
    it(`tells of ${what}, once`, () => {
      const { said } = shopOf(text);
      assert.equal(said.length, wanted.length, said.join('\n'));
      wanted.forEach((pattern, i) => {
        assert.match(said[i]!, pattern);
      });
    });
  }

  it('its fixes cure what they are offered for', () => {
    let offered = 0;
    for (const [text] of Object.values(told)) {
      const { shop, tree } = shopOf(text);
      for (const problem of shop.problems.filter((p) => p.fixes)) {
        offered++;
        assert.deepEqual(shopOf(mended(problem, tree)).said, [], problem.message);
      }
    }
    assert.ok(offered >= 6, `${offered} fixes were tried`);
  });

  it('one broken thing leaves the others standing', () => {
    const { shop, said } = shopOf(
      CAMPUS.replace('diameter: 6, flutes', 'diameter: six, flutes').replace('opens: 110', 'opens: 0'),
    );
    assert.equal(said.length, 2);
    assert.deepEqual(
      shop.tools.map((t) => t.name),
      ['dr-4.2', 'tap-m5'],
    );
    assert.equal(shop.vises.length, 0);
    assert.equal(shop.machines.length, 1);
    // Its name is still known: mentioning it elsewhere is no unknown name.
    assert.ok(shop.names.some((n) => n.name === 'em-6') && shop.names.some((n) => n.name === 'mill-vise-100'));
  });

  it('square bar, round bar, plate', () => {
    const { shop, said } = shopOf(`shop: s
rack:
  - { form: square-bar, material: 6061, section: { width: 20 } }
  - { form: round-bar, material: c45, diameter: 16, lengths: [3000] }
  - { form: plate, material: pom-c, section: { width: 500, thickness: 10 }, lengths: [500 mm, 1 m] }
`);
    assert.deepEqual(said, []);
    assert.deepEqual(
      shop.rack.map((r) => [r.material, r.widthMm, r.thicknessMm, r.diameterMm, r.lengthsMm]),
      [
        ['aluminium-6061-t6', 20, 20, undefined, [1000]],
        ['steel-c45', undefined, undefined, 16, [3000]],
        ['pom-c', 500, 10, undefined, [500, 1000]],
      ],
    );
  });

  it('never throws, whatever stands in the text', () => {
    const pieces = [
      'shop: s',
      'tools:',
      '  a: {',
      'kind: drill',
      'diameter: 3',
      '}',
      '- ',
      'limits: { x: 1 }',
      'rack:',
      ': ',
      '\t',
      '"',
      'null',
      '[',
      ']',
      '  b:',
      'units: in',
      '~',
      'parallels: [{}]',
      'machines: { m: { spindle: 3 } }',
    ];
    const text = fc.array(fc.constantFrom(...pieces), { maxLength: 14 }).map((p) => p.join('\n'));
    fc.assert(
      fc.property(text, (t) => {
        const shop = resolveShop(readText(t));
        return Array.isArray(shop.tools) && Array.isArray(shop.problems);
      }),
      { seed: 2, numRuns: 200 },
    );
  });

  it('never throws when a good shop loses a piece anywhere', () => {
    fc.assert(
      fc.property(fc.nat(CAMPUS.length), fc.nat(40), (from, length) => {
        resolveShop(readText(CAMPUS.slice(0, from) + CAMPUS.slice(from + length)));
        return true;
      }),
      { seed: 4, numRuns: 80 },
    );
  });

  it('what did not change is the same object after an edit elsewhere', () => {
    const before = readText(CAMPUS.replace('diameter: 4.2', 'diameter: 4.2, point: 40'));
    const first = resolveShop(before);
    const after = readText(before.text.replace('flute-length: 16', 'flute-length: 15'), before);
    const second = resolveShop(after);
    const at = (name: string) => [first, second].map((s) => s.tools.find((t) => t.name === name));
    const [drill, sameDrill] = at('dr-4.2');
    const [mill, otherMill] = at('em-6');
    assert.ok(drill && drill === sameDrill);
    assert.ok(mill && otherMill && mill !== otherMill);
    assert.equal(first.vises[0], second.vises[0]);
    // What was told and assumed of it is told and assumed again.
    assert.deepEqual(
      second.problems.map((p) => p.message),
      first.problems.map((p) => p.message),
    );
    assert.deepEqual(second.assumed, first.assumed);
  });

  it('the same text in another unit is another thing', () => {
    const before = readText(CAMPUS);
    resolveShop(before);
    const inches = resolveShop(readText(CAMPUS.replace('units: mm', 'units: in'), before));
    assert.ok(Math.abs(inches.tools.find((t) => t.name === 'dr-4.2')!.diameterMm - 4.2 * 25.4) < 1e-9);
  });

  it('an empty document is an empty shop', () => {
    const { shop } = shopOf('');
    assert.deepEqual([shop.tools, shop.machines, shop.rack, shop.problems], [[], [], [], []]);
  });
});
