/** setup/craft: orders that can be made and that a machinist would not take. Common practice, no source. */
import assert from 'node:assert/strict';
import { ALUMINIUM } from '../parts';
import { findingsOf, mended, onlyFinding } from '../tester';

const vise = (jaws: string, grip: number, parallels: number) =>
  `hold: { vise: mill-vise-100, jaws: [${jaws}], grip: ${grip}, parallels: ${parallels} }`;
const part = (body: string, features: string, setups: string) =>
  `${ALUMINIUM}body: ${body}\nfeatures:\n${features}setups:\n${setups}`;
const up = (name: string, face: string, jaws: string, cuts: string) =>
  `  ${name}: { up: ${face}, ${vise(jaws, 10, 22)}, cuts: [${cuts}] }\n`;

describe('setup/craft', () => {
  const gapped = (
    deep: number,
  ) => `  gap: { kind: slot, face: top, ends: [{ x: center, y: -10 }, { x: center, y: 50 }], width: 24, depth: ${deep} }
  pin: { kind: hole, face: left, at: { y: center, z: 15 }, diameter: 6, depth: through }
`;
  const top = up('first', 'top', 'front, back', 'gap');
  const side = up('second', 'left', 'front, back', 'pin');

  it('the gap before the hole across it; where both do not meet, either order', () => {
    const body = '{ x: 50, y: 40, z: 20 }';
    assert.deepEqual(findingsOf('setup/craft', part(body, gapped(14), top + side)), []);
    const f = onlyFinding('setup/craft', part(body, gapped(14), side + top));
    assert.deepEqual([f.severity, f.facts.why, f.of[0]], ['hint', 'gap', 'pin']);
    assert.deepEqual(findingsOf('setup/craft', part(body, gapped(1.5), side + top)), []);
    const cured = mended(
      'setup/craft',
      part(body, gapped(14), side.replace('\n', ' # across\n') + top),
      /Make first before second/,
    );
    assert.match(cured, /setups:\n {2}first: .*\n {2}second: .*\n/);
    assert.match(cured, /# across/);
  });

  it('of a part of seventy features as well', () => {
    const many = Array.from(
      { length: 70 },
      (_, i) =>
        `  h${i}: { kind: hole, face: top, at: { x: ${60 + 4 * (i % 10)}, y: ${4 + 5 * Math.floor(i / 10)} }, diameter: 2.5, depth: 4 }\n`,
    ).join('');
    const body = '{ x: 105, y: 40, z: 20 }';
    const gap = gapped(14).replaceAll('x: center', 'x: 25');
    const f = onlyFinding('setup/craft', part(body, gap + many, side + top));
    assert.deepEqual([f.facts.why, f.of[0]], ['gap', 'pin']);
  });

  it('a port that only comes out in a pocket is drilled before or after', () => {
    const features = `  well: { kind: pocket, face: top, at: { x: 25, y: 20 }, size: { x: 24, y: 20 }, corner-radius: 5, depth: 14 }
  port: { kind: hole, face: left, at: { y: center, z: 15 }, diameter: 5, depth: 15 }
`;
    const setups = up('first', 'left', 'front, back', 'port') + up('second', 'top', 'front, back', 'well');
    assert.deepEqual(findingsOf('setup/craft', part('{ x: 50, y: 40, z: 20 }', features, setups)), []);
  });

  it('what crosses a reamed bore before it, in the same set-up too', () => {
    const features = `  seat: { kind: hole, face: top, at: { x: 20, y: 20 }, diameter: 8 H7, depth: through }
  oil: { kind: hole, face: front, at: { x: 20, z: 12 }, diameter: 4.2, depth: 20 }
`;
    const setups = up('first', 'top', 'back, front', 'seat') + up('second', 'front', 'left, right', 'oil');
    const text = part('{ x: 40, y: 40, z: 24 }', features, setups);
    assert.equal(onlyFinding('setup/craft', text).facts.why, 'burr');
    const plain = text.replace('8 H7', '8');
    assert.deepEqual(findingsOf('setup/craft', plain), []);
  });

  it('the screw before the slit that it closes; a wide gap goes first', () => {
    const features = (
      width: number,
    ) => `  slit: { kind: slot, face: top, ends: [{ x: 20, y: 20 }, { x: 20, y: 55 }], width: ${width}, depth: through }
  pinch: { kind: hole, face: left, at: { y: 42, z: 7 }, thread: M4, depth: through }
`;
    const slitFirst = up('first', 'top', 'left, right', 'slit') + up('second', 'left', 'top, bottom', 'pinch');
    const screwFirst = up('first', 'left', 'top, bottom', 'pinch') + up('second', 'top', 'left, right', 'slit');
    const body = '{ x: 40, y: 50, z: 14 }';
    assert.equal(onlyFinding('setup/craft', part(body, features(2), slitFirst)).facts.why, 'slit');
    assert.deepEqual(findingsOf('setup/craft', part(body, features(2), screwFirst)), []);
    assert.deepEqual(findingsOf('setup/craft', part(body, features(8), slitFirst)), []);
    assert.equal(onlyFinding('setup/craft', part(body, features(8), screwFirst)).facts.why, 'gap');
  });

  it('a screw’s hole and its counterbore from one side, and the fix moves it there', () => {
    const features = `  under: { kind: pocket, face: bottom, at: { x: 42, y: 20 }, size: { x: 24, y: 24 }, corner-radius: 5, depth: 6 }
  clear: { kind: hole, face: bottom, at: { x: 12, y: 20 }, diameter: 6.6, depth: through }
  head: { kind: hole, face: top, at: { x: 12, y: 20 }, diameter: 11, depth: 6, bottom: flat }
`;
    const setups = up('first', 'bottom', 'back, front', 'under, clear') + up('second', 'top', 'back, front', 'head');
    const text = part('{ x: 60, y: 40, z: 20 }', features, setups);
    const f = onlyFinding('setup/craft', text);
    assert.deepEqual([f.of[0], f.facts.in, f.facts.was_up], ['clear', 'second', 'bottom']);
    const cured = mended('setup/craft', text, /Cut it in second/);
    assert.match(cured, /cuts: \[under\][\s\S]*cuts: \[head, clear\]/);
  });

  it('seats of a fit from both sides are the matter of setup/across', () => {
    const seat = (face: string) =>
      `{ kind: hole, face: ${face}, at: { x: center, y: center }, diameter: 22 H7, depth: 7, bottom: flat }\n`;
    const setups = up('first', 'bottom', 'back, front', 'low') + up('second', 'top', 'back, front', 'high');
    const text = part('{ x: 60, y: 40, z: 20 }', `  high: ${seat('top')}  low: ${seat('bottom')}`, setups);
    assert.deepEqual(findingsOf('setup/craft', text), []);
  });
});
