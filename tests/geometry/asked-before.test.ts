/** A solid's answers are its own: they do not turn on what was asked of it, or of one like it, before. */
import assert from 'node:assert/strict';
import { unitsOf } from '../../server/src/effort';
import { solidOf } from '../../server/src/geometry/part-solid';
import type { Solid, Wall } from '../../server/src/geometry/types';
import type { Part } from '../../server/src/model/model';
import { resolvePart } from '../../server/src/model/part';
import { cutSide } from '../../server/src/rules/wall/walls';
import { readText } from '../../server/src/text/read';
import { chainOfHoles, cover } from '../bench/slow-parts';
import { runs } from '../fuzz/runs';

/** Leaning pockets that run into each other: more than the work allowed follows exactly. */
const crowd = (many: number) => `part: crowd
body: { x: 200, y: 120, z: 40 }
features:
${Array.from(
  { length: many },
  (_, i) =>
    `  p${i}: { kind: pocket, face: top, at: { x: ${30 + 7 * i}, y: ${40 + 3 * (i % 5)} }, size: { x: 30, y: 20 }, corner-radius: 3, depth: 8, tilt: { about: ${i % 2 ? 'x' : 'y'}, angle: ${10 + i} } }\n`,
).join('')}`;
/** As many as are followed, and one more than are. */
const FEW = crowd(4);
const MANY = crowd(8);

const partOf = (text: string, before?: Part) => resolvePart(readText(text), before);
const fresh = (text: string) => solidOf(partOf(text));

const questions: Readonly<Record<string, (s: Solid) => unknown>> = {
  measures: (s) => s.measures,
  pieces: (s) => s.pieces,
  alone: (s) => s.voids.map((v) => s.aloneMm3(v)),
  shared: (s) => s.voids.slice(1).map((v) => s.sharedMm3(v, s.voids[0]!)),
};

describe('what is asked of a solid', function () {
  this.timeout(60_000);
  const measured = fresh(MANY).measures;

  it('takes more work than is allowed, so that a rough answer serves', () => {
    assert.equal(fresh(FEW).measures.exact, true);
    assert.equal(measured.exact, false);
  });

  it('is answered as if nothing else had been asked', () => {
    const [one, other] = [fresh(MANY), fresh(MANY)];
    const last = Object.entries(questions).reverse();
    const answers = new Map(last.map(([name, ask]) => [name, ask(one)]));
    for (const [name, ask] of Object.entries(questions)) assert.deepEqual(ask(other), answers.get(name), name);
    assert.deepEqual(one.measures, measured);
  });

  it('is answered as if the part had never been another', () => {
    let tree = readText(FEW);
    let part = resolvePart(tree);
    let solid = solidOf(part);
    for (const text of [FEW, MANY, crowd(3), MANY]) {
      tree = readText(text, tree);
      part = resolvePart(tree, part);
      solid = solidOf(part, solid);
      assert.deepEqual(solid.measures, text === MANY ? measured : fresh(text).measures);
    }
  });

  it('costs as much when its answer is known', () => {
    for (const [name, ask] of Object.entries(questions))
      for (const text of [FEW, MANY]) {
        const part = partOf(text);
        const cold = unitsOf(() => void ask(solidOf(part)));
        assert.ok(cold > 0, name);
        assert.equal(
          unitsOf(() => void ask(solidOf(part))),
          cold,
          name,
        );
      }
  });
});

describe('walls of a solid', function () {
  this.timeout(60_000);
  const LIMITS = runs(1) > 1 ? [1, 6, 2.5, 12, 1] : [1, 6, 2.5];

  it('below a limit are the same whichever limits were asked for before', () => {
    for (const text of runs(1) > 1 ? [chainOfHoles(4), cover(12), FEW] : [chainOfHoles(3), cover(6)]) {
      const part = partOf(text);
      for (const held of [undefined, 1.5]) {
        const first = new Map(LIMITS.map((mm) => [mm, told(solidOf(partOf(text)).walls(mm, held))]));
        for (const order of [LIMITS, [...LIMITS].reverse()])
          for (const mm of order) {
            assert.deepEqual(told(solidOf(part).walls(mm, held)), first.get(mm), `below ${mm}, one solid for all`);
            assert.deepEqual(told(solidOf(part, solidOf(part)).walls(mm, held)), first.get(mm), `below ${mm}, anew`);
          }
      }
    }
  });

  /** Without the volumes themselves, which are other objects in another solid. */
  const told = (walls: readonly Wall[]) =>
    walls.map(({ a, b, ...wall }) => [wall, cutSide(a), typeof b === 'string' ? b : cutSide(b)]);
});
