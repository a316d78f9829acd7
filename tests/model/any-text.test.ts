/**
 * Any text: nothing throws, every problem stands inside the text, and the judge that speaks agrees with the schema that
 * does not. Seeds are fixed.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { EXAMPLES } from '../../server/generate/format-prose';
import { FEATURE_KINDS, KINDS } from '../../server/src/model/feature-kinds';
import { resolvePart } from '../../server/src/model/part';
import { faultsOf } from '../../server/src/model/resolve/validate';
import { partSchema } from '../../server/src/model/schema/part';
import { type Shape, shapeOf } from '../../server/src/model/schema/shape';
import { readText } from '../../server/src/text/read';
import type { MapNode, TextNode } from '../../server/src/text/tree';
import { block, partOf } from './read';

const ALL_KINDS = block(`
  a: { kind: hole, face: top, at: { x: center, y: center }, diameter: 22 H7, depth: 7, bottom: flat, counterbore: M5, finish: 1.6 }
  b: { kind: hole, from: a, at: { x: center, y: center }, thread: M5, depth: through, countersink: { diameter: 10, angle: 90 } }
  c: { kind: pocket, face: bottom, at: { x: 14, y: center }, size: { x: 14, y: 24 }, corner-radius: 3.5, depth: 9, islands: { i: { diameter: 3, at: { x: 14, y: 20 } } } }
  d: { kind: slot, face: front, ends: [{ x: 10, z: 8 }, { right: 10, z: 8 }], width: 4, depth: 5, tee: { width: 8, height: 2 } }
  e: { kind: step, face: top, along: [front, left], width: [8, 5], depth: 4, floor-radius: 1 }
  f: { kind: contour, face: top, depth: 2, path: [{ x: 2, y: 2 }, { x: 50, y: 2, round: 6 }, { x: 50, y: 30, bevel: 2 }, { x: 2, y: 30, arc: { x: 1, y: 12 } }] }
  g: { kind: chamfer, edges: [top, left], size: 0.5 }
  h: { kind: edge-round, edges: { rim: c }, radius: 1 }
  i: { kind: groove, in: a, below: 2, width: 1.3, diameter: 24 }
  j: { kind: engraving, face: top, at: { x: 30, y: 5 }, text: A 1, height: 4, depth: 0.3 }
  k: { kind: slope, face: top, along: front, angle: 15, width: 12 }
  l: { kind: hole, face: left, at: { y: 20, z: 8 }, pattern: { bolt-circle: { diameter: 8, count: 4, start: 45 } }, diameter: 2, depth: 3, tilt: { about: z, angle: 5 } }
`);
const TEXTS = [EXAMPLES.part.trimStart(), ALL_KINDS];

/** Words of the format, and numbers that are none, in place of other words. */
const WORDS = fc.constantFrom(
  ...[
    '0',
    '-1',
    '1e308',
    '1e9',
    '.nan',
    '.inf',
    '-.inf',
    'through',
    'center',
    'top',
    'left',
    'kind',
    'hole',
    'slot',
    'x',
    'z',
  ],
  ...[
    '~',
    '""',
    '[]',
    '{}',
    'a',
    'b',
    'body.x',
    '1/0',
    'sqrt(-1)',
    '5 kg',
    '22 H7',
    '5 deg',
    '±',
    '#',
    ':',
    '- ',
    '\n',
    '  ',
    '🛠',
  ],
  ...['constructor', '__proto__', 'toString', '999999999999999999999', 'tan(90)', 'a + b', '{ rim: a }', "'a[2]'"],
);
const mutation = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  cut: fc.integer({ min: 0, max: 12 }),
  put: WORDS,
});

function mutate(text: string, by: { at: number; cut: number; put: string }): string {
  // Whole words are replaced more often than bytes: that is what people get wrong.
  const at = Math.floor(by.at * text.length);
  const from = by.cut < 6 ? text.slice(0, at).search(/[\w.-]*$/) : at;
  const to = by.cut < 6 ? at + (/^[\w.-]*/.exec(text.slice(at))?.[0].length ?? 0) : at + by.cut - 6;
  return text.slice(0, from) + by.put + text.slice(to);
}

describe('any text', () => {
  it('has a part, and problems inside it', () => {
    const texts = fc.tuple(fc.constantFrom(...TEXTS), fc.array(mutation, { minLength: 1, maxLength: 4 }));
    fc.assert(
      fc.property(texts, ([text, mutations]) => {
        const edited = mutations.reduce(mutate, text);
        const tree = readText(edited);
        const part = resolvePart(tree);
        for (const p of part.problems) {
          const { start, end } = tree.locate(p.span);
          assert.ok(start >= 0 && start <= end && end <= edited.length, p.message);
          assert.ok(
            p.message.length > 0 && p.message.length < 600 && !/undefined|NaN(?!`)|\[object/.test(p.message),
            p.message,
          );
        }
        for (const f of part.features) {
          for (const { u, v } of f.places) assert.ok(Number.isFinite(u) && Number.isFinite(v));
          if ('depth' in f && f.depth) assert.ok(f.depth.mm > 0 && Number.isFinite(f.depth.mm));
        }
      }),
      { seed: 20261125, numRuns: 100 },
    );
  });

  it('edited step by step gives what it gives from the start', () => {
    fc.assert(
      fc.property(fc.constantFrom(...TEXTS), fc.array(mutation, { minLength: 2, maxLength: 5 }), (text, mutations) => {
        let tree = readText(text);
        let part = resolvePart(tree);
        let edited = text;
        for (const m of mutations) {
          edited = mutate(edited, m);
          tree = readText(edited, tree);
          part = resolvePart(tree, part);
        }
        const anew = resolvePart(readText(edited));
        assert.deepEqual({ ...part, problems: told(part.problems) }, { ...anew, problems: told(anew.problems) });
      }),
      { seed: 7, numRuns: 30 },
    );
  });
});

/** Messages without their order, which follows what was asked first. */
function told(problems: readonly { rule: string; message: string }[]): string[] {
  return problems.map((p) => `${p.rule} ${p.message}`).sort();
}

describe('a sound part', () => {
  const length = fc.integer({ min: 1, max: 400 }).map((n) => n / 10);
  const at = fc.record({ x: fc.oneof(length.map(String), fc.constant('center')), back: length });
  const hole = fc.record({ at, diameter: length, depth: fc.oneof(length.map(String), fc.constant('through')) });
  const pocket = fc.record({
    at,
    x: length,
    y: length,
    share: fc.double({ min: 0, max: 0.5, noNaN: true }),
    depth: length,
  });

  it('of random sizes has no problem', () => {
    fc.assert(
      fc.property(fc.array(hole, { maxLength: 8 }), fc.array(pocket, { maxLength: 4 }), (holes, pockets) => {
        const place = (p: { x: string; back: number }) => `{ x: ${p.x}, back: ${p.back} }`;
        const lines = [
          ...holes.map(
            (h, i) =>
              `h${i}: { kind: hole, face: top, at: ${place(h.at)}, diameter: ${h.diameter}, depth: ${h.depth} }`,
          ),
          ...pockets.map((p, i) => {
            const radius = Math.floor(Math.min(p.x, p.y) * p.share * 1000) / 1000;
            return `p${i}: { kind: pocket, face: bottom, at: ${place(p.at)}, size: { x: ${p.x}, y: ${p.y} }, corner-radius: ${radius}, depth: ${p.depth} }`;
          }),
        ];
        const part = partOf(block(lines.join('\n')));
        assert.deepEqual(part.problems, []);
        assert.equal(part.features.length, lines.length);
        for (const [i, h] of holes.entries()) {
          const { places } = part.featureByName.get(`h${i}`)!;
          assert.ok(Math.abs(places[0]!.v - (40 - h.at.back)) < 1e-9);
        }
      }),
      { seed: 11, numRuns: 50 },
    );
  });
});

describe('the judge and the schema', () => {
  /** Agree: the judge finds a fault where and only where zod does. */
  function agree(shape: Shape, accepts: (value: unknown) => boolean, node: TextNode): void {
    const faults = faultsOf(shape, node, 'It');
    assert.equal(
      faults.length === 0,
      accepts(plain(node)),
      `${JSON.stringify(plain(node))}: ${faults.map((f) => f.message).join(' ')}`,
    );
  }

  it('agree on every feature, however it is changed', () => {
    fc.assert(
      fc.property(fc.constantFrom(...TEXTS), mutation, (text, m) => {
        const features = readText(mutate(text, m)).root?.entries.find((e) => e.key.value === 'features')?.value;
        if (features?.type !== 'map') return;
        for (const e of features.entries) {
          if (e.value?.type !== 'map' || hasEmpty(e.value) || hasTwice(e.value)) continue;
          const word = e.value.entries.find((x) => x.key.value === 'kind')?.value;
          const kind = KINDS.find((k) => word?.type === 'scalar' && k === word.value);
          if (!kind || needsGroups(shapeOf(FEATURE_KINDS[kind].schema), e.value)) continue;
          agree(
            shapeOf(FEATURE_KINDS[kind].schema),
            (value) => FEATURE_KINDS[kind].schema.safeParse(value).success,
            e.value,
          );
        }
      }),
      { seed: 3, numRuns: 100 },
    );
  });

  it('agree on the examples', () => {
    for (const text of TEXTS) {
      const root = readText(text).root!;
      assert.deepEqual(faultsOf(shapeOf(partSchema), root, 'A part'), []);
      assert.ok(partSchema.safeParse(plain(root)).success);
    }
  });
});

/** Values as plain data, as zod takes them. */
function plain(node: TextNode | undefined): unknown {
  if (!node) return null;
  if (node.type === 'scalar') return node.value;
  if (node.type === 'list') return node.items.map(plain);
  return Object.fromEntries(node.entries.map((e) => [String(e.key.value), plain(e.value)]));
}

function hasEmpty(node: TextNode | undefined): boolean {
  if (!node) return true;
  if (node.type === 'scalar') return false;
  return node.type === 'list' ? node.items.some(hasEmpty) : node.entries.some((e) => hasEmpty(e.value));
}

function hasTwice(node: TextNode | undefined): boolean {
  if (node?.type === 'list') return node.items.some(hasTwice);
  if (node?.type !== 'map') return false;
  const names = new Set(node.entries.map((e) => String(e.key.value)));
  return names.size < node.entries.length || names.has('__proto__') || node.entries.some((e) => hasTwice(e.value));
}

/** `exactly one of` and the like are the judge's alone: zod's part of the schema does not say them. */
function needsGroups(shape: Shape, node: MapNode): boolean {
  return faultsOf(shape, node, 'It').some((f) => /needs `[^:.]*\. Write|can have only one of/.test(f.message));
}
