/**
 * A part is what it is, however it is said: generated parts turned to other faces, mirrored, written in inches, with
 * parameters for numbers, and with their features in another order keep their volume, balance point, walls and findings;
 * so do parts in their set-ups.
 *
 * A few small parts with every run; `PROOF_RUNS=20` draws twenty times as many, with up to five features each, and
 * `PROOF_SEED` others; `PROOF_SHRINK=1` makes a failing one smaller.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkPart } from '../../server/src/rules/check';
import { type PartText, partTexts } from './parts';
import { assertSame, SAME } from './same';
import { withSetups } from './setups';
import {
  AXES,
  handOf,
  inInches,
  keepsLetters,
  reversedOrder,
  TURNS,
  type Turn,
  turnedFace,
  turnedText,
  withParameters,
} from './turn';

const runs = Number(process.env.PROOF_RUNS ?? 1);
const from = Number(process.env.PROOF_SEED ?? 0);
const MANY = runs > 1;
const KINDS = ['hole', 'pocket', 'slot', 'keyway', 'step', 'edges', 'contour', 'groove', 'slope', 'sign'];
const SHOP = builtinShop();
/** Leaning fillets and patterns cost most: with every run they are left out. */
const parts = MANY
  ? partTexts(5, KINDS)
  : partTexts(2, KINDS).filter(({ text }) => !(text.includes('tilt') && /floor-radius|pattern/.test(text)));

/** One of the ways to lie in which letters can still be read. */
function turnFor(text: string, pick: number): Turn {
  const turns = TURNS.filter((t) => keepsLetters(t, text));
  return turns[pick % turns.length]!;
}

function holds(property: (part: PartText, pick: number) => void, seed: number, share = 1): void {
  fc.assert(fc.property(parts, fc.nat(4799), property), {
    numRuns: Math.ceil(5 * runs * share),
    seed: seed + from,
    endOnFailure: !process.env.PROOF_SHRINK,
  });
}

describe('proof: the same part said otherwise', function () {
  this.timeout(MANY ? 3_600_000 : 120_000);
  const check = (text: string) => checkPart(text, SHOP);

  it('turned or mirrored onto any face', () => {
    holds(({ text }, pick) => {
      const turn = turnFor(text, pick);
      assertSame(check(text), check(turnedText(text, turn)), turn);
    }, 31);
  });

  it('turned or mirrored with its set-ups', () => {
    holds(
      ({ text: bare }, pick) => {
        const text = withSetups(bare, pick);
        const turn = turnFor(text, pick >> 4);
        assertSame(check(text), check(turnedText(text, turn)), turn);
      },
      35,
      0.6,
    );
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
  fall: { kind: slope, face: top, along: front, angle: 30, width: 3 }
  soft: { kind: chamfer, edges: [bottom, [right, top]], size: 0.5 }
  rim: { kind: chamfer, edges: [{ rim: seat }], size: 0.4 }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [front, back], grip: 6, stop: left }
    zero: { x: left, y: back, z: top, method: edge-finder }
    cuts: [seat, clear, ring, nose, fall, rim, top]
  second:
    up: front
    hold: { vise: mill-vise-100, jaws: [bottom, top], grip: 12, stop: left }
    zero: { x: seat, z: top, y: parallels }
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
