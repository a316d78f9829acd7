/** A set-up that is missing, written by the fix. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { checkPart } from '../../../server/src/rules/check';
import { ALUMINIUM } from '../parts';
import { findingsOf, mended } from '../tester';

const FEATURES = `features:
  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 20, y: 16 }, corner-radius: 3.5, depth: 5 }
  tie: { kind: hole, face: front, at: { x: center, z: 10 }, diameter: 5, depth: 12 }
`;
const HOLD = 'hold: { vise: mill-vise-100, jaws: [back, front], grip: 14, parallels: 18, stop: left }';
const text = (setups: string, features = FEATURES, body = '{ x: 50, y: 30, z: 30 }') =>
  `${ALUMINIUM}body: ${body}\n${features}setups:\n${setups}`;
const worse = (t: string) =>
  checkPart(t, builtinShop())
    .findings.filter((f) => f.severity !== 'hint')
    .map((f) => f.rule);

describe('access/no-setup: a set-up is added', () => {
  const lines = `  first:
    up: top
    ${HOLD}
    zero: { x: left, y: back, z: parallels }
    cuts: [seat] # the seat
`;

  it('on lines, as a plan writes it, and the part is whole then', () => {
    const cured = mended('access/no-setup', text(lines), /Add a set-up with front up/);
    assert.match(
      cured,
      /cuts: \[seat\] # the seat\n {2}second:\n {4}up: front\n {4}hold: \{ vise: [a-z0-9-]+, jaws: \[/,
    );
    assert.match(cured, /\n {4}zero: \{.*\}\n {4}cuts: \[tie\]\n/);
    assert.deepEqual(worse(cured), []);
  });

  it('in braces where the others are, with windows’ line ends, under a name that is free', () => {
    const braces = `  second: { up: top, ${HOLD}, zero: { x: left, y: back, z: parallels }, cuts: [seat] }\r\n`;
    const cured = mended('access/no-setup', text(braces).replace(/\r?\n/g, '\r\n'), /Add a set-up/);
    assert.match(cured, /\r\n {2}third: \{ up: front, hold: \{.*cuts: \[tie\] \}\r\n/);
    assert.deepEqual(worse(cured), []);
  });

  it('one for all that no set-up sees from there', () => {
    const two = `${FEATURES}  other: { kind: hole, face: front, at: { x: 10, z: 10 }, diameter: 5, depth: 12 }\n`;
    const cured = mended('access/no-setup', text(lines, two), /Add a set-up/);
    assert.match(cured, /cuts: \[tie, other\]/);
    assert.deepEqual(worse(cured), []);
  });

  it('takes it off the set-up that cannot cut it', () => {
    const wrong = text(lines.replace('[seat]', '[seat, tie]'));
    const cured = mended('access/no-setup', wrong, /Add a set-up with front up/);
    assert.match(cured, /cuts: \[seat\] # the seat/);
    assert.deepEqual(worse(cured), []);
  });

  it('a face that lies on the parallels gets one with that face up', () => {
    const faced = text(
      lines.replace('[seat]', '[seat, bottom]'),
      `stock: { form: block, extra: { bottom: 2 } }\n${FEATURES.replace(/ {2}tie.*\n/, '')}`,
    );
    const cured = mended('access/no-setup', faced, /Add a set-up with bottom up/);
    assert.match(cured, /up: bottom\n[\s\S]*cuts: \[bottom\]/);
    assert.deepEqual(findingsOf('access/no-setup', cured), []);
  });

  it('none where no vise opens so far', () => {
    const wide = text(lines.replace(/ {4}hold:.*\n/, ''), FEATURES, '{ x: 400, y: 300, z: 300 }');
    assert.throws(() => mended('access/no-setup', wide, /Add a set-up/), /no such fix/);
  });
});
