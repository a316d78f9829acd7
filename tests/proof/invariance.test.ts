/**
 * A part is what it is, however it is said: generated parts turned to other faces, mirrored, written in inches, with
 * parameters for numbers, and with their features in another order keep their volume, balance point, walls and findings.
 *
 * A few small parts with every run; SCRIBELINE_PROOF=200 runs as many, with up to five features each.
 * Letters run one way along a face and cannot be turned with it: engravings are left out.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { type CheckedPart, checkPart } from '../../server/src/rules/check';
import type { Finding } from '../../server/src/rules/rule';
import { builtinShop } from '../../server/src/spec/builtin-shop';
import { stockSizeMm } from '../../server/src/spec/stock';
import { type PartText, partTexts } from './parts';
import {
  AXES,
  handOf,
  inInches,
  isFace,
  reversedOrder,
  TURNS,
  type Turn,
  turnedFace,
  turnedPoint,
  turnedText,
  withParameters,
} from './turn';

const MANY = Number(process.env.SCRIBELINE_PROOF ?? 0);
const RUNS = MANY || 5;
const MOST = MANY ? 5 : 2;
const KINDS = ['hole', 'pocket', 'slot', 'step', 'edges', 'contour', 'groove', 'incline'];
const SHOP = builtinShop();
const SAME = TURNS[0]!;

/** What a finding would have done about it is rounded to the document's units: `7.3 mm`, `0.29 in`. */
const SUGGESTED = new Set(['needed_radius_mm', 'flat_mm', 'missing_mm', 'allowed_depth_mm']);

const bare = (name: string) => name.replace(/\[\d+\]/g, '');
const near = (a: number, b: number, within: number) => Math.abs(a - b) <= within;

/** A finding in a form that does not hang on how the part lies: rule, features without member numbers, its numbers. */
function told(
  f: Finding,
  suggestions: boolean,
  turn: Turn,
): { readonly what: string; readonly numbers: readonly number[] } {
  const facts = Object.entries(f.facts)
    .filter(([key, v]) => typeof v === 'number' && (suggestions || !SUGGESTED.has(key)))
    .sort(([a], [b]) => (a < b ? -1 : 1));
  // sizes along the part's axes go with the axes
  const axial = facts.filter(([key]) => /^[xyz]_mm$/.test(key)).map(([, v]) => v as number);
  axial.sort((m, n) => m - n);
  return {
    what: `${f.rule} ${f.severity} ${f.of
      .map((n) => (isFace(n) ? turnedFace(turn, n) : bare(n)))
      .sort()
      .join()} ${facts.map(([key]) => key).join()}`,
    numbers: facts.map(([key, v]) => (/^[xyz]_mm$/.test(key) ? axial.shift()! : (v as number))),
  };
}

function assertSameFindings(a: CheckedPart, b: CheckedPart, suggestions: boolean, turn: Turn): void {
  const left = b.findings.map((f) => told(f, suggestions, SAME));
  for (const one of a.findings.map((f) => told(f, suggestions, turn))) {
    const i = left.findIndex((x) => x.what === one.what && x.numbers.every((n, k) => near(n, one.numbers[k]!, 2e-3)));
    assert.ok(i >= 0, `lost: ${one.what} ${one.numbers.join(' ')}; left: ${JSON.stringify(left)}`);
    left.splice(i, 1);
  }
  assert.deepEqual(left, [], 'findings that were not there before');
}

/** `turn`: how `b` lies to `a`. */
function assertSame(a: CheckedPart, b: CheckedPart, turn: Turn, suggestions = true): void {
  const [p, q] = [a.solid.measures, b.solid.measures];
  // a number that is told as rough may be rough in another way
  if (p.exact && q.exact) {
    assert.ok(near(p.volumeMm3, q.volumeMm3, 1e-6 * p.volumeMm3), `volume ${p.volumeMm3}, ${q.volumeMm3}`);
    const [x, y, z] = a.part.size;
    const centroid = turnedPoint(turn, p.centroid, { x, y, z });
    for (const i of [0, 1, 2] as const) assert.ok(near(q.centroid[i], centroid[i]!, 1e-3), `balance along ${AXES[i]}`);
  }
  assert.equal(a.solid.pieces, b.solid.pieces);
  // a limit off every grid: no wall is as thick as that but for rounding
  const thick = (c: CheckedPart) => c.solid.walls(2.00371).map((w) => w.thicknessMm);
  const [walls, others] = [thick(a), thick(b)];
  assert.equal(walls.length, others.length, `walls ${walls.join(' ')}; ${others.join(' ')}`);
  walls.forEach((w, i) => {
    assert.ok(near(w, others[i]!, 1e-4), `walls ${walls.join(' ')}; ${others.join(' ')}`);
  });
  const stock = (c: CheckedPart) => [...stockSizeMm(c.part)].sort((m, n) => m - n);
  stock(a).forEach((s, i) => {
    assert.ok(near(s, stock(b)[i]!, 1e-6), 'stock');
  });
  assertSameFindings(a, b, suggestions, turn);
}

/**
 * Leaning cuts are left out: their walls are sought, not worked out, and a turned search may stop at another of several
 * places; their volumes are held to the exact solid elsewhere.
 */
const parts = partTexts(MOST, KINDS).filter(({ text }) => !text.includes('tilt'));

function holds(property: (part: PartText, pick: number) => void, seed: number): void {
  fc.assert(fc.property(parts, fc.nat(47), property), { numRuns: RUNS, seed });
}

describe('proof: the same part said otherwise', function () {
  this.timeout(MANY ? 3_600_000 : 120_000);
  const check = (text: string) => checkPart(text, SHOP);

  it('turned or mirrored onto any face', () => {
    holds(({ text }, pick) => {
      const turn = TURNS[pick]!;
      assertSame(check(text), check(turnedText(text, turn)), turn);
    }, 31);
  });

  it('in inches', () => {
    holds(({ text }) => assertSame(check(text), check(inInches(text)), SAME, false), 32);
  });

  it('with parameters for numbers', () => {
    holds(({ text }) => assertSame(check(text), check(withParameters(text)), SAME), 33);
  });

  it('with its features in the opposite order', () => {
    holds(({ text }) => {
      const other = reversedOrder(text);
      if (other) assertSame(check(text), check(other), SAME);
    }, 34);
  });

  it('knows 24 turns and 24 mirrors, and each takes a face to a face', () => {
    assert.equal(TURNS.length, 48);
    assert.equal(TURNS.filter((t) => handOf(t) > 0).length, 24);
    const seen = new Set(
      TURNS.map((t) => [turnedFace(t, 'top'), turnedFace(t, 'front'), turnedFace(t, 'left')].join()),
    );
    assert.equal(seen.size, 48);
  });
});

const BRACKET = `part: bracket
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
stock: { form: block, sawn: [left, right], extra: { left: 1.5, right: 1.5, top: 1 } }
features:
  seat: { kind: hole, face: top, at: { right: 25, front: 18 }, diameter: 22 H7, depth: 7, bottom: flat }
  clear: { kind: hole, face: top, from: seat, at: { right: 25, front: 18 }, diameter: 12, depth: through }
  ring: { kind: groove, in: clear, below: 11, width: 1.6, diameter: 15 }
  mount: { kind: hole, face: front, at: { x: 20, z: 8 }, pattern: { line: { x: 22, count: 2 } }, thread: M5, depth: 14, thread-depth: 10 }
  feet: { kind: hole, face: bottom, pattern: { places: [{ x: 5, y: 5 }, { right: 5, back: 6 }] }, diameter: 3.3, depth: 6 }
  light: { kind: pocket, face: bottom, at: { x: 14, y: center }, size: { x: 14, y: 24 }, rotate: 10, corner-radius: 3.5, depth: 7.5 }
  nose: { kind: step, face: top, along: [left, back], width: [6, 4], depth: 5 }
  fall: { kind: incline, face: top, along: front, angle: 30, width: 3 }
  soft: { kind: chamfer, edges: [bottom, [right, top]], size: 0.5 }
  rim: { kind: chamfer, edges: [{ rim: seat }], size: 0.4 }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [front, back], grip: 6, stop: left }
    cuts: [seat, clear, ring, nose, fall, rim, top]
  second:
    up: front
    hold: { vise: mill-vise-100, jaws: [bottom, top], grip: 12, stop: left }
    cuts: [mount]
`;

describe('proof: a part with stock, set-ups and one feature in another, turned every way', function () {
  this.timeout(MANY ? 3_600_000 : 120_000);
  const some = MANY ? TURNS : TURNS.filter((_, i) => i % 12 === 5);
  for (const turn of some) {
    it(AXES.map((a) => `${a} → ${turn[a].sign < 0 ? '−' : ''}${turn[a].to}`).join(', '), () => {
      assertSame(checkPart(BRACKET, SHOP), checkPart(turnedText(BRACKET, turn), SHOP), turn);
    });
  }
});
