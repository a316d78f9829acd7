/**
 * Arithmetic against evaluators that are not ours: JavaScript's own for plain numbers, and identities of units from
 * published definitions.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { parseDimension } from '../../server/src/text/dimension';
import { type Expression, evaluate, type Quantity, toAngle, toLength } from '../../server/src/text/expression';

const scope = (unitMm: number, names: Record<string, Quantity> = {}) => ({
  unitMm,
  lookup: (name: string) => names[name] ?? ('unknown' as const),
});
function work(source: string, unitMm = 1, names: Record<string, Quantity> = {}) {
  const parsed = parseDimension(source);
  assert.ok(parsed.ok, parsed.ok ? '' : `${source}: ${parsed.message}`);
  return evaluate(parsed.dimension.expression, scope(unitMm, names));
}
function length(source: string, unitMm = 1): number {
  const worked = work(source, unitMm);
  assert.ok(worked.ok, source);
  const answer = toLength(worked.value, unitMm);
  assert.ok(answer.ok, source);
  return answer.value;
}
const near = (a: number, b: number) => Math.abs(a - b) <= 1e-12 * Math.max(1, Math.abs(a), Math.abs(b));

/** Arithmetic as text that both JavaScript and the dimension grammar read. */
const arithmetic = fc.letrec<{ sum: string; atom: string }>((tie) => ({
  atom: fc.oneof(
    fc.integer({ min: 0, max: 999 }).map(String),
    fc.tuple(fc.nat(99), fc.nat(999)).map(([a, b]) => `${a}.${String(b).padStart(3, '0')}`),
    fc.constantFrom('a', 'b'),
  ),
  sum: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    tie('atom'),
    fc.tuple(tie('sum'), fc.constantFrom(' + ', ' - ', ' * ', ' / ', '*', '/'), tie('sum')).map((p) => p.join('')),
    tie('sum').map((inner) => `(${inner})`),
    tie('atom').map((inner) => `-${inner}`),
    fc.tuple(fc.constantFrom('min', 'max'), tie('sum'), tie('sum')).map(([f, x, y]) => `${f}(${x}, ${y})`),
    tie('sum').map((inner) => `abs(${inner})`),
    tie('sum').map((inner) => `sqrt(abs(${inner}))`),
    fc.integer({ min: -720, max: 720 }).map((d) => `sin(${d}) + cos(${d})`),
  ),
})).sum;

function inJavaScript(source: string): number {
  const inner = source.replace(/\b(min|max|abs|sqrt)\(/g, 'Math.$1(');
  const code = `const deg = Math.PI / 180, sin = (d) => Math.sin(d * deg), cos = (d) => Math.cos(d * deg), a = 7, b = 0.25; return ${inner.replace(/--/g, '- -')};`;
  return new Function(code)();
}

describe('arithmetic', () => {
  it("agrees with JavaScript's on bare numbers", () => {
    const names: Record<string, Quantity> = {
      a: { dimension: 'number', value: 7 },
      b: { dimension: 'number', value: 0.25 },
    };
    let compared = 0;
    fc.assert(
      fc.property(arithmetic, (source) => {
        if (source.length > 800) return;
        const ours = work(source, 1, names);
        const theirs = inJavaScript(source);
        if (!ours.ok) {
          assert.ok(!Number.isFinite(theirs) || /zero|finite/.test(ours.message), `${source}: ${ours.message}`);
          return;
        }
        compared++;
        assert.ok(Math.abs(ours.value.value - theirs) <= 1e-9 * Math.max(1, Math.abs(theirs)), source);
      }),
      { seed: 8, numRuns: 3000 },
    );
    assert.ok(compared > 2000, `only ${compared} were compared`);
  });

  it('means the same after it is printed and read again', () => {
    fc.assert(
      fc.property(arithmetic, (source) => {
        if (source.length > 300) return;
        const parsed = parseDimension(source.replace(/\b7\b/g, '7 mm').replace(/\b8\b/g, '8 deg'));
        if (!parsed.ok) return;
        const again = parseDimension(print(parsed.dimension.expression));
        if (!again.ok) return assert.match(again.message, /too long|Too many/);
        const names = { a: { dimension: 'length', value: 7 }, b: { dimension: 'number', value: 0.25 } } as const;
        const [one, two] = [parsed, again].map((p) => evaluate(p.dimension.expression, scope(25.4, names)));
        assert.ok(one && two);
        if (one.ok && two.ok) assert.deepEqual(two.value, one.value);
        else assert.equal(two.ok ? '' : two.message, one.ok ? '' : one.message);
      }),
      { seed: 9, numRuns: 1500 },
    );
  });
});

/** An expression as text, with brackets around everything. */
function print(e: Expression): string {
  switch (e.type) {
    case 'number':
      return `(${e.value}${e.unit ? ` ${e.unit}` : ''})`;
    case 'name':
      return e.name;
    case 'minus':
      return `(-${print(e.operand)})`;
    case 'binary':
      return `(${print(e.left)} ${e.operator} ${print(e.right)})`;
    case 'call':
      return `${e.name}(${e.arguments.map(print).join(', ')})`;
  }
}

describe('units', () => {
  it('has the inch of 25.4 mm exactly (NIST SP 811, appendix B.8; from memory)', () => {
    assert.equal(length('1 in'), 25.4);
    assert.equal(length('1', 25.4), 25.4);
    assert.equal(length('1/4 in'), 6.35);
    assert.equal(length('1/64 in'), 0.396875);
    assert.equal(length('0.001 in'), 0.0254);
  });
  it('has the decimal units of the SI (BIPM, SI brochure, prefixes; from memory)', () => {
    assert.equal(length('1 m'), 1000);
    assert.equal(length('1 cm'), 10);
    assert.ok(near(length('1 µm'), 0.001));
    assert.equal(length('1 um'), length('1 μm'), 'micro sign, Greek letter and u');
  });
  it('means the same length in a document of either unit when the unit is written', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 99999 }), fc.constantFrom('mm', 'in', 'cm'), (n, unit) => {
        assert.equal(length(`${n / 100} ${unit}`, 1), length(`${n / 100} ${unit}`, 25.4));
        assert.ok(near(length(`${n / 100}`, 25.4), length(`${n / 100} in`)));
      }),
      { seed: 4, numRuns: 300 },
    );
  });
  it('has the fractions of an inch (closed form: 25.4 mm / 64 = 0.396875 mm)', () => {
    for (let n = 1; n < 64; n++) assert.ok(near(length(`${n}/64 in`), n * 0.396875), `${n}/64`);
  });
});

describe('angles', () => {
  const number = (source: string) => {
    const worked = work(source);
    assert.ok(worked.ok, source);
    return worked.value.value;
  };
  it('works in degrees, exact at the quarter turns', () => {
    assert.deepEqual(['sin(0)', 'sin(90)', 'sin(180)', 'sin(270)', 'sin(-90)'].map(number), [0, 1, 0, -1, -1]);
    assert.deepEqual(['cos(0)', 'cos(90 deg)', 'cos(180)', 'cos(360)'].map(number), [1, 0, -1, 1]);
    assert.equal(number('tan(180)'), 0);
  });
  it('keeps the identities of trigonometry', () => {
    assert.ok(near(number('sin(30)'), 0.5));
    assert.ok(near(number('tan(45°)'), 1));
    for (let d = -400; d <= 400; d += 7) {
      assert.ok(near(number(`sin(${d}) * sin(${d}) + cos(${d}) * cos(${d})`), 1), `${d}`);
      assert.ok(near(number(`sin(${d} + 90)`), number(`cos(${d})`)), `${d}`);
    }
  });
  it('turns into an angle, and never into a length', () => {
    const lean = work('15° * 2');
    assert.ok(lean.ok);
    assert.deepEqual(toAngle(lean.value), { ok: true, value: 30 });
    assert.equal(toLength(lean.value, 1).ok, false);
    assert.deepEqual(toAngle({ dimension: 'number', value: 45 }), { ok: true, value: 45 });
    assert.equal(toAngle({ dimension: 'length', value: 45 }).ok, false);
    assert.equal(toLength({ dimension: 'number', value: 5000 }, 25.4).ok, false, 'beyond 100 m');
  });
});
