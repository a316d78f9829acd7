/** Drawn parts with a known edit each: it is named rightly, and nothing else is; what only the text says otherwise is no change. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import type { FeatureChange } from '../../server/src/compare/features';
import { partChange } from '../../server/src/compare/part';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkPart } from '../../server/src/rules/check';

const RUNS = Number(process.env.SCRIBELINE_COMPARED ?? 10);
const SHOP = builtinShop();

interface Drawn {
  readonly name: string;
  readonly kind: 'hole' | 'pocket' | 'slot';
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly depth: number;
  readonly fit: '' | ' H7' | ' ±0.05 mm';
}
interface Spec {
  readonly features: readonly Drawn[];
  readonly units: 'mm' | 'in';
  readonly material: string;
}

const drawn: fc.Arbitrary<Spec> = fc
  .uniqueArray(fc.tuple(fc.integer({ min: 0, max: 5 }), fc.integer({ min: 0, max: 2 })), {
    minLength: 3,
    maxLength: 7,
    selector: ([i, j]) => `${i} ${j}`,
  })
  .chain((cells) =>
    fc.tuple(
      ...cells.map(([i, j], n) =>
        fc.record({
          name: fc.constant(`f${n}`),
          kind: fc.constantFrom('hole' as const, 'pocket' as const, 'slot' as const),
          x: fc.integer({ min: 28 * i + 13, max: 28 * i + 15 }),
          y: fc.integer({ min: 28 * j + 13, max: 28 * j + 15 }),
          size: fc.integer({ min: 4, max: 6 }),
          depth: fc.integer({ min: 3, max: 9 }),
          fit: fc.constantFrom('' as const, ' H7' as const, ' ±0.05 mm' as const),
        }),
      ),
    ),
  )
  .map((features) => ({ features, units: 'mm' as const, material: 'aluminium-6061-t6' }));

/** Lengths in the part's unit, each exactly: 1 in is 25.4 mm. */
function textOf({ features, units, material }: Spec): string {
  const mm = (value: number) => (units === 'mm' ? `${value}` : `${value} mm`);
  const each = features.map(({ name, kind, x, y, size, depth, fit }) => {
    const at = `face: top, at: { x: ${mm(x)}, y: ${mm(y)} }`;
    if (kind === 'hole') return `  ${name}: { kind: hole, ${at}, diameter: ${mm(size)}${fit}, depth: ${mm(depth)} }`;
    if (kind === 'pocket')
      return `  ${name}: { kind: pocket, ${at}, size: { x: ${mm(size + 8)}${fit}, y: ${mm(12)} }, corner-radius: ${mm(3)}, depth: ${mm(depth)} }`;
    const ends = `[{ x: ${mm(x - 5)}, y: ${mm(y)} }, { x: ${mm(x + 5)}, y: ${mm(y)} }]`;
    return `  ${name}: { kind: slot, face: top, ends: ${ends}, width: ${mm(size)}${fit}, depth: ${mm(depth)} }`;
  });
  return `part: drawn\nunits: ${units}\nmaterial: ${material}\nbody: { x: ${mm(170)}, y: ${mm(86)}, z: ${mm(12)} }\nfeatures:\n${each.join('\n')}\n`;
}

function read(spec: Spec) {
  const checked = checkPart(textOf(spec), SHOP);
  assert.deepEqual(checked.part.problems, []);
  return checked;
}
const withFirst = (spec: Spec, edit: (f: Drawn) => Drawn): Spec => ({
  ...spec,
  features: spec.features.map((f, i) => (i === 0 ? edit(f) : f)),
});

interface Case {
  readonly edit: (spec: Spec) => Spec;
  /** Of the only feature that is told. */
  readonly kinds: FeatureChange['kinds'];
}
const CASES: Readonly<Record<string, Case>> = {
  moved: { edit: (s) => withFirst(s, (f) => ({ ...f, x: f.x + 0.4 })), kinds: ['moved'] },
  deeper: { edit: (s) => withFirst(s, (f) => ({ ...f, depth: f.depth + 0.5 })), kinds: ['resized'] },
  wider: { edit: (s) => withFirst(s, (f) => ({ ...f, size: f.size + 0.5 })), kinds: ['resized'] },
  fitted: { edit: (s) => withFirst(s, (f) => ({ ...f, fit: ' H9' as Drawn['fit'] })), kinds: ['tolerance'] },
  renamed: { edit: (s) => withFirst(s, (f) => ({ ...f, name: 'seat' })), kinds: ['renamed'] },
  gone: { edit: (s) => ({ ...s, features: s.features.slice(1) }), kinds: ['gone'] },
  added: {
    edit: (s) => ({
      ...s,
      features: [...s.features, { name: 'new', kind: 'hole', x: 4, y: 4, size: 2, depth: 2.5, fit: '' }],
    }),
    kinds: ['added'],
  },
};

describe('drawn parts compared', function () {
  this.timeout(300_000);
  for (const [name, { edit, kinds }] of Object.entries(CASES)) {
    it(`${name}: that, and nothing else`, () => {
      fc.assert(
        fc.property(drawn, (spec) => {
          const change = partChange(read(spec), read(edit(spec)));
          assert.deepEqual(
            change.features.map((f) => f.kinds),
            [kinds],
          );
          assert.deepEqual([change.part, change.setups], [[], []]);
          assert.equal(change.same, false);
          const metal = !['moved', 'fitted', 'renamed'].includes(name);
          assert.equal(
            change.figures.some((f) => f.what === 'volume'),
            metal,
          );
        }),
        { numRuns: RUNS, seed: 16 },
      );
    });
  }

  it('itself, another order, inches: the same part', () => {
    fc.assert(
      fc.property(drawn, (spec) => {
        const before = read(spec);
        for (const other of [
          spec,
          { ...spec, features: spec.features.toReversed() },
          { ...spec, units: 'in' as const },
        ]) {
          const change = partChange(before, read(other));
          assert.deepEqual([change.part, change.features, change.setups], [[], [], []]);
          assert.ok(change.same);
          assert.deepEqual(
            change.figures.filter((f) => ['volume', 'mass', 'balance'].includes(f.what)),
            [],
          );
        }
      }),
      { numRuns: RUNS, seed: 17 },
    );
  });
});

describe('what means the same', () => {
  const HEAD = 'part: plate\nmaterial: aluminium-6061-t6\nbody: { x: 80, y: 40, z: 10 }\n';
  const HOLES = (places: readonly (readonly [number, number])[]) =>
    `features:\n${places.map(([x, y], i) => `  tie-${i}: { kind: hole, face: top, at: { x: ${x}, y: ${y} }, diameter: 5.5, depth: through }`).join('\n')}\n`;
  const GRID =
    'features:\n  ties: { kind: hole, face: top, at: { x: 40, y: 20 }, pattern: { grid: { x: { pitch: 60, count: 2 }, y: { pitch: 20, count: 2 } } }, diameter: 5.5, depth: through }\n';
  const SUMS =
    'parameters: { edge: 10 mm, d: 5 mm }\nfeatures:\n  tie-0: { kind: hole, face: top, at: { x: edge, y: edge }, diameter: d + 0.5 mm, depth: through }\n';
  const change = (a: string, b: string) => partChange(checkPart(HEAD + a, SHOP), checkPart(HEAD + b, SHOP));

  it('numbers made parameters are no change', () => {
    const found = change(HOLES([[10, 10]]), SUMS);
    assert.ok(found.same && found.textDiffers);
    assert.deepEqual(found.features, []);
  });

  it('four holes as one pattern are the same holes', () => {
    const four = HOLES([
      [10, 10],
      [70, 10],
      [10, 30],
      [70, 30],
    ]);
    const checked = checkPart(HEAD + GRID, SHOP);
    assert.deepEqual(checked.part.problems, [], checked.part.problems[0]?.message);
    const found = change(four, GRID);
    assert.deepEqual(
      found.features.map((f) => [f.kinds, f.name]),
      [[['rewritten'], 'ties']],
    );
    assert.ok(found.same);
  });

  it('a 32 H7 bore made 33 H8 is told with both limits', () => {
    const bore = (d: string) =>
      `features:\n  seat: { kind: hole, face: top, at: { x: center, y: center }, diameter: ${d}, depth: 6, bottom: flat }\n`;
    const found = change(bore('32 H7'), bore('33 H8'));
    assert.deepEqual(found.features[0]!.kinds, ['resized', 'tolerance']);
    assert.deepEqual(found.features[0]!.differences[0], { what: 'diameter', before: '32 mm', after: '33 mm' });
    // ISO 286-2, from memory: H7 at 32 mm is +25 µm, H8 at 33 mm +39 µm.
    assert.match(found.features[0]!.differences[1]!.before!, /H7 .*0\.025/);
    assert.match(found.features[0]!.differences[1]!.after!, /H8 .*0\.039/);
  });

  it('an accept is told with its reason, and what it silences is cured by nobody', () => {
    const bad =
      'features:\n  a: { kind: pocket, face: top, at: { x: 20, y: 20 }, size: { x: 20, y: 20 }, corner-radius: 3, depth: 5 }\n  b: { kind: pocket, face: top, at: { x: 40.3, y: 20 }, size: { x: 20, y: 20 }, corner-radius: 3, depth: 5 }\n';
    const before = checkPart(HEAD + bad, SHOP);
    const rule = before.findings.find((f) => f.rule.startsWith('wall/'))!.rule;
    const after = checkPart(`${HEAD}${bad}accept:\n  - { rule: ${rule}, because: the web is filed away }\n`, SHOP);
    const { findings } = partChange(before, after);
    assert.deepEqual(
      findings.accepted.map((a) => [a.rule, a.because]),
      [[rule, 'the web is filed away']],
    );
  });
});
