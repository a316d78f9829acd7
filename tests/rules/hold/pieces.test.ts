/** Two pieces in one vise: where both are held, what passes between them, and what that takes. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { batchMinutes, timeOf } from '../../../server/src/planning/times';
import { passesOfPart } from '../../../server/src/process/passes';
import { timelineOf } from '../../../server/src/process/stock';
import { seatingOf } from '../../../server/src/process/workholding/seating';
import { checkPart } from '../../../server/src/rules/check';
import { ALUMINIUM } from '../parts';
import { findingsOf, mended, onlyFinding } from '../tester';

const lug = (
  hold: string,
  { quantity = 4, x = 40, stock = 'form: flat-bar', cuts = '[seat]', more = '' } = {},
) => `${ALUMINIUM}quantity: ${quantity}
body: { x: ${x}, y: 30, z: 20 }
stock: { ${stock} }
features:
  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 16, y: 14 }, corner-radius: 6, depth: 5 }
  notch: { kind: step, face: top, along: right, width: 4, depth: 3 }
setups:
  one:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22, ${hold} }
    zero: { x: left, y: back, z: parallels }
    cuts: ${cuts}
${more}`;
const checked = (text: string) => checkPart(text, builtinShop());
const why = (text: string) => findingsOf('hold/pieces', text).map((f) => `${f.severity} ${f.facts.why}`);
const BOTH = 'stop: left, pieces: 2, pad: 4';

describe('hold/pieces', () => {
  it('two alike pieces with a soft strip between them and the moving jaw are held', () => {
    assert.deepEqual(why(lug(BOTH)), []);
  });
  it('bars may differ by their standard: EN 755-5, 30 mm wide, ±0.3', () => {
    const found = onlyFinding('hold/pieces', lug('stop: left, pieces: 2'));
    assert.deepEqual([found.severity, found.facts.differ_mm], ['warning', 0.6]);
    assert.match(mended('hold/pieces', lug('stop: left, pieces: 2')), /pad: 3/);
  });
  it('sawn sides differ by twice what a saw leaves, and that is an error', () => {
    const text = lug('stop: left, pieces: 2', { stock: 'form: flat-bar, sawn: [left, right, front, back]' });
    assert.deepEqual(why(text), ['error differ']);
    assert.equal(onlyFinding('hold/pieces', text).facts.differ_mm, 1);
  });
  it('milled sides are near enough', () => {
    const text = lug('stop: left, pieces: 2').replace(
      'setups:\n',
      `setups:
  sides:
    up: top
    hold: { vise: mill-vise-100, jaws: [left, right], grip: 10, parallels: 22 }
    zero: { x: left, y: back, z: parallels }
    cuts: [front, back]
`,
    );
    assert.deepEqual(why(text.replace('form: flat-bar', 'form: flat-bar, extra: { front: 1, back: 1 }')), []);
  });
  it('half of each must lie in the jaws: 2 × 66 in 100 do, 2 × 120 do not', () => {
    assert.deepEqual(why(lug(BOTH, { x: 66 })), []);
    assert.deepEqual(why(lug(BOTH, { x: 120 })), ['error short']);
    assert.deepEqual(why(lug(`${BOTH}, gap: 60`, { x: 60 })), ['error short']);
  });
  it('one alone, a V-block, two vises in line, a bar: told', () => {
    assert.deepEqual(why(lug(BOTH, { quantity: 1 })), ['warning one']);
    assert.deepEqual(why(lug(`${BOTH}, apart: 200`)), ['error with']);
    assert.deepEqual(why(lug(BOTH, { cuts: '[seat, { cut: right, by: saw }]' })), ['error with']);
  });
  it('three are refused, and a gap without a second piece', () => {
    const form = (hold: string) => findingsOf('form/schema', lug(hold)).map((f) => f.message);
    assert.match(form('stop: left, pieces: 3')[0]!, /grips two pieces/);
    assert.match(form('stop: left, gap: 3')[0]!, /for two pieces/);
  });
});

describe('the cutter between two pieces', () => {
  const jaw = (hold: string) => findingsOf('access/jaw', lug(hold, { cuts: '[seat, notch]' }));
  it('a step at the end that faces the other piece runs into it; the fix puts them apart', () => {
    const [found] = jaw(BOTH);
    assert.equal(found?.severity, 'error');
    assert.equal(found?.facts.meets, 'other piece');
    const apart = mended('access/jaw', lug(BOTH, { cuts: '[seat, notch]' }));
    assert.match(apart, /gap: \d+/);
    assert.deepEqual(jaw(`${BOTH}, gap: 30`), []);
  });
  it('a slot or step along the row is one stroke through both: the other has it at the same place', () => {
    const found = (feature: string, gap = '') =>
      findingsOf(
        'access/jaw',
        lug(`${BOTH}${gap}`, { cuts: '[notch]' }).replace(/notch: {.*}/, `notch: ${feature}`),
      ).map((f) => `${f.severity} ${f.facts.meets}`);
    const slot = (ends: string) => `{ kind: slot, face: top, ends: [${ends}], width: 8, depth: 5 }`;
    for (const gap of ['', ', gap: 0.5']) {
      assert.deepEqual(found(slot('{ x: -2, y: center }, { x: 42, y: center }'), gap), []);
      assert.deepEqual(found('{ kind: step, face: top, along: back, width: 4, depth: 3 }', gap), []);
      // Where the other has nothing: a slot that ends within, and one that comes out at another place than it goes in.
      assert.deepEqual(found(slot('{ x: 15, y: center }, { x: 42, y: center }'), gap), ['error other piece']);
      assert.deepEqual(found(slot('{ x: -2, y: 10 }, { x: 42, y: 20 }'), gap), ['error other piece']);
    }
    assert.deepEqual(found(slot('{ x: center, y: -2 }, { x: center, y: 32 }')), []);
  });
  it('what runs out into a place that the other had cut before meets nothing there', () => {
    const text = (cuts: string) =>
      lug(BOTH, { cuts }).replace(
        'setups:',
        '  lap: { kind: step, face: top, along: left, width: 12, depth: 3 }\nsetups:',
      );
    assert.deepEqual(
      findingsOf('access/jaw', text('[lap, notch]')).map((f) => f.of),
      [['lap']],
    );
    assert.deepEqual(
      findingsOf('access/jaw', text('[notch, lap]')).map((f) => f.of),
      [['notch']],
    );
  });
  it('the printed path goes through both only where both are cut', () => {
    const ends = (to: string) => {
      const text = lug(BOTH, { cuts: '[notch]' }).replace(
        /notch: {.*}/,
        `notch: { kind: slot, face: top, ends: [{ x: -2, y: center }, { x: ${to}, y: center }], width: 8, depth: 5 }`,
      );
      const [passes] = passesOfPart(checked(text));
      const [row] = passes!.rows.filter((r) => r.kind === 'pass');
      assert.ok(row?.kind === 'pass' && row.where.type === 'along');
      const [way] = row.where.ways;
      return [way!.start, way!.moves[0]!.to].map((p) => Math.round(p[0]!)).sort((x, y) => x - y);
    };
    assert.deepEqual(ends('42'), [-5, 45]);
    // Blind, and the second's would come out into the first: told, and the path stays off that.
    assert.deepEqual(ends('25'), [4, 25]);
  });
  it('a face that looks up is passed over both at once', () => {
    const text = lug(BOTH, { stock: 'form: flat-bar, extra: { top: 1 }', cuts: '[top, seat]' });
    assert.deepEqual(findingsOf('access/jaw', text), []);
  });
  it('an end that is milled needs a cutter’s width, and overhang goes by both', () => {
    const text = (hold: string) => lug(hold, { stock: 'form: flat-bar, extra: { right: 1 }', cuts: '[right, seat]' });
    assert.equal(findingsOf('access/jaw', text(BOTH))[0]?.facts.meets, 'other piece');
    const far = checked(text(`${BOTH}, gap: 24`));
    const { held } = seatingOf(timelineOf(far.part, far.solid).setups[0]!, far.part, far.shop)!;
    // 41 long and 24 apart: the second ends at 106, its finished plane at 105, 3 mm out of the jaws.
    assert.deepEqual([held?.secondMm, held?.jawToMm], [65, 102]);
  });
});

describe('two pieces on paper and in times', () => {
  it('the second lies so far on from the first, away from the stop', () => {
    const second = (hold: string) => {
      const [passes] = passesOfPart(checked(lug(hold)));
      return passes?.holding.second?.mm;
    };
    assert.equal(second(`${BOTH}, gap: 12`), 52);
    assert.equal(second('stop: right, pieces: 2, pad: 4'), -40);
  });
  it('tools are changed once for both, and the second has a zero of its own', () => {
    const minutes = (hold: string, quantity: number) => {
      const made = checked(lug(hold, { cuts: '[seat, notch]' }).replace('pad: 4', 'pad: 4, gap: 30'));
      return batchMinutes(timeOf(made.part.setups!, made), quantity)[0];
    };
    const [one, two] = [minutes('stop: left', 5), minutes(BOTH, 5)];
    const made = checked(lug('stop: left', { cuts: '[seat, notch]' }));
    const [setup] = timeOf(made.part.setups!, made).setups;
    // Five pieces: four changes saved to two, two second zeros.
    assert.ok(setup!.tools.length > 1);
    assert.ok(Math.abs(one - two - (2 * setup!.changing[0] - 2 * made.shop.times.zero[0])) < 1e-9);
  });
});
