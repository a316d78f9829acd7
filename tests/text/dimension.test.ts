/** The dimension grammar: what is read, what is refused, and where. */
import assert from 'node:assert/strict';
import { parseDimension } from '../../server/src/text/dimension';
import { evaluate, type Quantity } from '../../server/src/text/expression';
import { toleranceLimits } from '../../server/src/text/tolerance';

const NAMES: Record<string, Quantity | 'broken'> = {
  pitch: { dimension: 'length', value: 36 },
  edge: { dimension: 'length', value: 4 },
  'wall-2': { dimension: 'length', value: 2 },
  count: { dimension: 'number', value: 3 },
  lean: { dimension: 'angle', value: 15 },
  'body.x': { dimension: 'length', value: 60 },
  h6: { dimension: 'length', value: 5 },
  sick: 'broken',
};
const lookup = (name: string) => NAMES[name] ?? 'unknown';

function parsed(source: string) {
  const answer = parseDimension(source);
  assert.ok(answer.ok, answer.ok ? '' : `${source}: ${answer.message}`);
  return answer.dimension;
}
/** `36 length`, in mm, degrees or bare. */
function value(source: string, unitMm = 1): string {
  const answer = evaluate(parsed(source).expression, { unitMm, lookup });
  return answer.ok ? `${Number(answer.value.value.toPrecision(12))} ${answer.value.dimension}` : answer.message;
}
/** What is wrong, and with which piece of the text. */
function wrong(source: string, unitMm = 1): [string, string] {
  const answer = parseDimension(source);
  const fault = answer.ok ? evaluate(answer.dimension.expression, { unitMm, lookup }) : answer;
  assert.ok(!fault.ok, `${source} was accepted`);
  assert.ok(fault.from >= 0 && fault.to <= Math.max(1, source.length) && fault.from < fault.to, `${source}: place`);
  return [source.slice(fault.from, fault.to), fault.message];
}

describe('reading a dimension', () => {
  it('reads numbers, units and fractions', () => {
    assert.equal(value('22'), '22 number');
    assert.equal(value('.5'), '0.5 number');
    assert.equal(value('1e1'), '10 number');
    assert.equal(value(' 22 mm '), '22 length');
    assert.equal(value('2.2cm'), '22 length');
    assert.equal(value('0.022 m'), '22 length');
    assert.equal(value('1/4 in'), '6.35 length');
    assert.equal(value('1/4"'), '6.35 length');
    assert.equal(value('1 3/4 in'), '44.45 length');
    assert.equal(value('1 3/4', 25.4), '1.75 number');
    assert.equal(value('10 / 4 in'), '63.5 length');
    assert.equal(value('30°'), '30 angle');
    assert.equal(value('30 deg'), '30 angle');
  });

  it('reads arithmetic with the usual precedence', () => {
    assert.equal(value('pitch / 2 + 3 mm'), '21 length');
    assert.equal(value('body.x - 12'), '48 length');
    assert.equal(value('2 * (3 + 4) - 5'), '9 number');
    assert.equal(value('2 - 3 - 4'), '-5 number');
    assert.equal(value('24 / 4 / 2'), '3 number');
    assert.equal(value('-pitch + 40'), '4 length');
    assert.equal(value('10 * -2'), '-20 number');
    assert.equal(value('7 − 2'), '5 number', 'the typographic minus');
    assert.equal(value('3mm-2mm'), '1 length');
    assert.equal(value('(1 + 2) in'), '76.2 length');
    assert.equal(value('min(pitch, 10) + max(1, 2, 3)'), '13 length');
    assert.equal(value('abs(edge - pitch)'), '32 length');
    assert.equal(value('pitch / edge'), '9 number');
    assert.equal(value('count * lean'), '45 angle');
  });

  it('lets a bare number take the unit of what it meets', () => {
    assert.equal(value('pitch + 1', 25.4), '61.4 length');
    assert.equal(value('pitch * 2', 25.4), '72 length');
    assert.equal(value('min(pitch, 1)', 25.4), '25.4 length');
    assert.equal(value('lean + 1', 25.4), '16 angle');
    assert.equal(value('sqrt(edge * edge + 1 * 1)', 25.4), `${Number(Math.hypot(4, 25.4).toPrecision(12))} length`);
  });

  it('keeps dashes in names', () => {
    assert.equal(value('wall-2'), '2 length');
    assert.equal(value('wall-2 - 1'), '1 length');
    assert.equal(value('pitch- edge'), '32 length');
    assert.deepEqual(parsed('wall-2 + max(body.x, pitch)').names, [
      { name: 'wall-2', from: 0, to: 6 },
      { name: 'body.x', from: 13, to: 19 },
      { name: 'pitch', from: 21, to: 26 },
    ]);
  });

  it('answers the same object again', () => {
    assert.equal(parseDimension('pitch / 2'), parseDimension('pitch / 2'));
  });
});

describe('reading a tolerance', () => {
  const limits = (source: string, unitMm = 1) => {
    const { tolerance } = parsed(source);
    assert.ok(tolerance?.type === 'limits', source);
    assert.equal(source.slice(tolerance.from, tolerance.to), tolerance.text);
    const answer = toleranceLimits(tolerance, 'length', unitMm);
    assert.ok(answer.ok);
    return [answer.upper, answer.lower];
  };
  it('reads equal and unequal limits', () => {
    for (const sign of ['±', '+-', '+/-', '± ', '+/- ']) assert.deepEqual(limits(`40 ${sign}0.05`), [0.05, -0.05]);
    assert.deepEqual(limits('40 +0.1/-0'), [0.1, 0]);
    assert.deepEqual(limits('40 +0.1 / -0.05'), [0.1, -0.05]);
    assert.deepEqual(limits('40 +0.021/+0.000'), [0.021, 0]);
    assert.deepEqual(limits('40 -0.02/-0.05'), [-0.02, -0.05]);
    assert.deepEqual(limits('40 -0.1/+0.2'), [0.2, -0.1]);
    assert.deepEqual(limits('40 0/-0.1'), [0, -0.1]);
    assert.deepEqual(limits('40 +0.1/0'), [0.1, 0]);
    assert.deepEqual(limits('pitch / 2 ±0.05 mm'), [0.05, -0.05]);
  });
  it('counts bare limits in the units of the document', () => {
    assert.deepEqual(limits('1 ±0.001', 25.4), [0.0254, -0.0254]);
    assert.deepEqual(limits('1 ±0.001 mm', 25.4), [0.001, -0.001]);
    assert.deepEqual(limits('25.4 mm +0.001/-0.002 in'), [0.0254, -0.0508]);
  });
  it('reads angles with theirs, and refuses a length on an angle', () => {
    const { tolerance } = parsed('30° ±0.5');
    assert.ok(tolerance?.type === 'limits');
    assert.deepEqual(toleranceLimits(tolerance, 'angle', 25.4), { ok: true, upper: 0.5, lower: -0.5 });
    const wrongKind = parsed('30 deg ±0.5 mm').tolerance;
    assert.ok(wrongKind?.type === 'limits');
    assert.equal(toleranceLimits(wrongKind, 'angle', 1).ok, false);
  });
  it('reads classes of ISO 286', () => {
    for (const [source, letter, grade] of [
      ['22 H7', 'H', 7],
      ['22H7', 'H', 7],
      ['22 mm g6', 'g', 6],
      ['pitch js6', 'js', 6],
      ['(pitch + 1) JS7', 'JS', 7],
      ['22 h6', 'h', 6],
      ['body.x - 2 k11', 'k', 11],
    ] as const) {
      const { tolerance } = parsed(source);
      assert.ok(tolerance?.type === 'fit', source);
      assert.deepEqual([tolerance.letter, tolerance.grade], [letter, grade]);
    }
  });
  it('tells a class from a name and from a sum', () => {
    assert.equal(parsed('2 * h6').tolerance, undefined);
    assert.equal(value('2 * h6'), '10 length');
    assert.equal(parsed('h6').tolerance, undefined);
    assert.equal(parsed('40 + 0.1').tolerance, undefined);
    assert.equal(value('10 - 4/-2'), '12 number');
    assert.equal(value('22e2'), '2200 number');
  });
});

describe('refusing', () => {
  const cases: [string, string, RegExp][] = [
    ['', '', /missing/],
    ['2 +', '+', /missing at the end/],
    ['* 2', '*', /missing before/],
    ['(1 + 2', '(', /not closed/],
    ['1)', ')', /not opened/],
    ['1 2', '2', /sign is missing/],
    ['2 pitch', 'pitch', /not a unit.*`\*`/],
    ['3 parsec', 'parsec', /not a unit/],
    ['3,5', ',', /point/],
    ['sqrt(3,5)', 'sqrt(3,5)', /one value.*point/],
    ['Ø22 H7', 'Ø', /diameter/],
    ['2 ^ 3', '^', /power/],
    ['3 x 4', 'x', /multiply/],
    ['3 × 4', '×', /multiply/],
    ['foo(3)', 'foo', /no function/],
    ['NaN', 'NaN', /small letters/],
    ['Infinity', 'Infinity', /small letters/],
    ['1e400', '1e400', /too large/],
    ['1e308 * 10', '1e308 * 10', /work out to a number/],
    ['1/0', '1/0', /zero/],
    ['1/0 in', '1/0', /zero/],
    ['pitch / (edge - 4)', 'pitch / (edge - 4)', /zero/],
    ['1e6 mm', '1e6 mm', /100 m/],
    ['pitch * edge', 'pitch * edge', /area/],
    ['1 / pitch', '1 / pitch', /not a size/],
    ['pitch + lean', 'pitch + lean', /angle cannot be added to a length/],
    ['min(pitch, lean)', 'min(pitch, lean)', /compared/],
    ['lean * lean', 'lean * lean', /multiplied by an angle/],
    ['sqrt(pitch)', 'sqrt(pitch)', /square root of a length/],
    ['sqrt(0 - 1)', 'sqrt(0 - 1)', /negative/],
    ['sin(pitch)', 'sin(pitch)', /needs an angle/],
    ['tan(90)', 'tan(90)', /infinite/],
    ['nobody', 'nobody', /no parameter/],
    ['1 + sick', 'sick', /no value\. Correct it/],
    ['pitch-edge', 'pitch-edge', /`pitch - edge`/],
    ['wall-2-1', 'wall-2-1', /`wall-2 - 1`/],
    ['1-3/4 in', '1-3/4 in', /`1 3\/4 in` or `1 - 3\/4 in`/],
    ['40 +0.1 -0.05', '+0.1 -0.05', /`\+0\.1\/-0\.05`/],
    ['22 H7 ±0.1', '±0.1', /two tolerances/],
    ['22 H7/g6', 'H7/g6', /only this part’s own/],
    ['22 Q7', 'Q7', /ISO 286/],
    ['22 H19', 'H19', /ISO 286/],
    ['22 H', 'H', /not a unit/],
    ['22 ±', '±', /tolerance/],
    ['a'.repeat(2000), 'a'.repeat(2000), /too long/],
    [`${'('.repeat(60)}1${')'.repeat(60)}`, '', /brackets/],
  ];
  for (const [source, place, message] of cases) {
    it(`${JSON.stringify(source.slice(0, 30))}: ${message.source}`, () => {
      const [where, said] = wrong(source);
      assert.match(said, message);
      if (place) assert.equal(where, place);
    });
  }
  it('tells whose fault it is', () => {
    const fault = evaluate(parsed('1 + sick').expression, { unitMm: 1, lookup });
    assert.ok(!fault.ok && fault.broken === 'sick');
    const unknown = evaluate(parsed('1 + nobody').expression, { unitMm: 1, lookup });
    assert.ok(!unknown.ok && unknown.unknown === 'nobody');
  });
});
