/**
 * The arithmetic inside a dimension: shapes, and how it is worked out with its units checked.
 *
 * Bare numbers take the unit of what they meet, so `pitch / 2 + 3` and `2 * pitch` both mean what they look like; a
 * length and an angle never mix; a product of lengths is an area and may only be used on the way (`sqrt(a*a + b*b)`).
 */

/** Units that may stand after a number, with what one of them is in mm or degrees. */
export const UNITS = {
  mm: { dimension: 'length', factor: 1 },
  cm: { dimension: 'length', factor: 10 },
  m: { dimension: 'length', factor: 1000 },
  µm: { dimension: 'length', factor: 0.001 },
  in: { dimension: 'length', factor: 25.4 },
  deg: { dimension: 'angle', factor: 1 },
} as const;
export type Unit = keyof typeof UNITS;

export const FUNCTIONS = ['min', 'max', 'abs', 'sqrt', 'sin', 'cos', 'tan'] as const;
export type FunctionName = (typeof FUNCTIONS)[number];
export type Operator = '+' | '-' | '*' | '/';

interface Place {
  /** Offsets in the scalar's source. */
  readonly from: number;
  readonly to: number;
}
export type Expression = Place &
  (
    | { readonly type: 'number'; readonly value: number; readonly unit?: Unit }
    | { readonly type: 'name'; readonly name: string }
    | { readonly type: 'minus'; readonly operand: Expression }
    | {
        readonly type: 'binary';
        readonly operator: Operator;
        readonly left: Expression;
        readonly right: Expression;
      }
    | { readonly type: 'call'; readonly name: FunctionName; readonly arguments: readonly Expression[] }
  );

/** A length in mm, an angle in degrees, or a bare number. */
export interface Quantity {
  readonly dimension: 'length' | 'angle' | 'number';
  readonly value: number;
}

export interface Scope {
  /** What a bare 1 means beside a length: 1, or 25.4 in a document in inches. */
  readonly unitMm: number;
  /** `broken`: the name is known but its own value is wrong, which is said there. */
  lookup(name: string): Quantity | 'unknown' | 'broken';
}

type Evaluated =
  | { readonly ok: true; readonly value: Quantity }
  | {
      readonly ok: false;
      readonly message: string;
      readonly from: number;
      readonly to: number;
      /** Set where the cause is another value's fault, already told there. */
      readonly broken?: string;
      /** Set for a name that nothing answers to. */
      readonly unknown?: string;
    };

/** Works an expression out. Sizes beyond `MOST_MM`, division by zero and anything not finite are errors that say so. */
export function evaluate(expression: Expression, scope: Scope): Evaluated {
  try {
    const { power, angle, value } = work(expression, scope);
    const dimension = angle === 0 ? DIMENSION_OF_POWER[power] : power === 0 && angle === 1 ? 'angle' : undefined;
    if (!dimension)
      throw new Trouble(
        `This works out to ${nameOf(power, angle)}, which is not a size. Write a length, like \`12 mm\`.`,
        expression,
      );
    if (dimension === 'length' && Math.abs(value) > MOST_MM) throw new Trouble(absurd(value), expression);
    return { ok: true, value: { dimension, value: value === 0 ? 0 : value } };
  } catch (error) {
    if (!(error instanceof Trouble)) throw error;
    const { from, to } = error.place;
    return { ok: false, message: error.message, from, to, ...error.cause };
  }
}

/** A hundred metres: a slip of the pen, never a part. */
const MOST_MM = 1e5;
const absurd = (mm: number) =>
  `This works out to ${Number(mm.toPrecision(4))} mm, more than ${MOST_MM / 1000} m. Check the digits and the unit.`;

/** A quantity as a length in mm; a bare number counts in the document's units. */
export function toLength(quantity: Quantity, unitMm: number): Converted {
  if (quantity.dimension === 'angle')
    return { ok: false, message: 'An angle is written where a length is needed. Write a length, like `12 mm`.' };
  const value = quantity.dimension === 'number' ? quantity.value * unitMm : quantity.value;
  return Math.abs(value) > MOST_MM ? { ok: false, message: absurd(value) } : { ok: true, value };
}

/** A quantity as an angle in degrees; a bare number counts in degrees. */
export function toAngle(quantity: Quantity): Converted {
  if (quantity.dimension === 'length')
    return { ok: false, message: 'A length is written where an angle is needed. Write an angle, like `30 deg`.' };
  return { ok: true, value: quantity.value };
}
type Converted = { readonly ok: true; readonly value: number } | { readonly ok: false; readonly message: string };

/** A value on the way: mm to the power, or degrees. `angle` is 0 or 1. */
interface Working {
  readonly power: number;
  readonly angle: number;
  readonly value: number;
}

class Trouble extends Error {
  constructor(
    message: string,
    readonly place: Place,
    override readonly cause: { readonly broken?: string; readonly unknown?: string } = {},
  ) {
    super(message);
  }
}

const DIMENSION_OF_POWER: Readonly<Record<number, 'length' | 'number'>> = { 0: 'number', 1: 'length' };

function nameOf(power: number, angle: number): string {
  if (angle > 0) return power === 0 ? 'an angle' : 'an angle times a length';
  if (power === 0) return 'a bare number';
  if (power === 1) return 'a length';
  if (power === 2) return 'an area (a length times a length)';
  return power === 3 ? 'a volume' : `a length to the power ${power}`;
}

function work(e: Expression, scope: Scope): Working {
  const result = step(e, scope);
  if (!Number.isFinite(result.value))
    throw new Trouble('This does not work out to a number. Check each value and sign.', e);
  return result;
}

function step(e: Expression, scope: Scope): Working {
  switch (e.type) {
    case 'number': {
      const unit = e.unit && UNITS[e.unit];
      if (!unit) return { power: 0, angle: 0, value: e.value };
      const isAngle = unit.dimension === 'angle';
      return { power: isAngle ? 0 : 1, angle: isAngle ? 1 : 0, value: e.value * unit.factor };
    }
    case 'name':
      return named(e, scope);
    case 'minus': {
      const operand = work(e.operand, scope);
      return { ...operand, value: -operand.value };
    }
    case 'binary':
      return binary(e.operator, work(e.left, scope), work(e.right, scope), e, scope);
    case 'call':
      return call(e, scope);
    default:
      return e satisfies never;
  }
}

function named(e: Extract<Expression, { type: 'name' }>, scope: Scope): Working {
  const found = scope.lookup(e.name);
  if (found === 'broken')
    throw new Trouble(`\`${e.name}\` has no value. Correct it where it is defined.`, e, { broken: e.name });
  if (found !== 'unknown') {
    return {
      power: found.dimension === 'length' ? 1 : 0,
      angle: found.dimension === 'angle' ? 1 : 0,
      value: found.value,
    };
  }
  const apart = subtraction(e.name, scope);
  const message = apart
    ? `\`${e.name}\` is one name, and there is no such parameter. Put spaces around the minus to subtract: \`${apart}\`.`
    : `There is no parameter \`${e.name}\`. Add it under \`parameters\`, or correct the name.`;
  throw new Trouble(message, e, { unknown: e.name });
}

/** `pitch-edge` → `pitch - edge`, when both are known (or a number): then a subtraction was meant. */
function subtraction(name: string, scope: Scope): string | undefined {
  const known = (part: string) => /^\d+$/.test(part) || scope.lookup(part) !== 'unknown';
  const words = name.split('-');
  const parts: string[] = [];
  for (let from = 0; from < words.length; ) {
    let to = words.length;
    while (to > from && !(to - from < words.length && known(words.slice(from, to).join('-')))) to--;
    if (to === from) return undefined;
    parts.push(words.slice(from, to).join('-'));
    from = to;
  }
  return parts.length > 1 ? parts.join(' - ') : undefined;
}

function binary(operator: Operator, left: Working, right: Working, e: Expression, scope: Scope): Working {
  if (operator === '*') {
    if (left.angle + right.angle > 1)
      throw new Trouble('An angle is multiplied by an angle. Make one of them a plain number, like `2`.', e);
    return {
      power: left.power + right.power,
      angle: left.angle + right.angle,
      value: left.value * right.value,
    };
  }
  if (operator === '/') {
    if (right.value === 0) throw new Trouble('This divides by zero. Write another number below the `/`.', e);
    if (right.angle > left.angle)
      throw new Trouble('Something else is divided by an angle. Make it a plain number, like `2`.', e);
    return {
      power: left.power - right.power,
      angle: left.angle - right.angle,
      value: left.value / right.value,
    };
  }
  const [a, b] = alike(left, right, e, scope, operator === '+' ? 'added to' : 'subtracted from');
  return { ...a, value: operator === '+' ? a.value + b.value : a.value - b.value };
}

/** Two values in the same terms: a bare number takes the unit of the other. */
function alike(a: Working, b: Working, e: Expression, scope: Scope, verb: string): [Working, Working] {
  if (a.power === b.power && a.angle === b.angle) return [a, b];
  if (isBare(a)) return [{ ...b, value: a.value * scope.unitMm ** b.power }, b];
  if (isBare(b)) return [a, { ...a, value: b.value * scope.unitMm ** a.power }];
  const [x, y] = [nameOf(b.power, b.angle), nameOf(a.power, a.angle)];
  throw new Trouble(
    `${x[0]!.toUpperCase()}${x.slice(1)} cannot be ${verb} ${y}. Make both the same, like \`12 mm\` and \`3 mm\`.`,
    e,
  );
}

function isBare(a: Working): boolean {
  return a.power === 0 && a.angle === 0;
}

const RADIANS = Math.PI / 180;

function call(e: Extract<Expression, { type: 'call' }>, scope: Scope): Working {
  const values = e.arguments.map((argument) => work(argument, scope));
  const [first] = values;
  if (!first) throw new Trouble(`\`${e.name}\` needs a value in its brackets. Write it like \`${e.name}(5)\`.`, e);
  switch (e.name) {
    case 'min':
    case 'max':
      return values.reduce((best, next) => {
        const [a, b] = alike(best, next, e, scope, 'compared with');
        return (e.name === 'min' ? a.value <= b.value : a.value >= b.value) ? a : b;
      });
    case 'abs':
      return { ...first, value: Math.abs(first.value) };
    case 'sqrt':
      if (first.value < 0)
        throw new Trouble('There is no square root of a negative number. Check the sign in the brackets.', e);
      if (first.angle !== 0 || first.power % 2 !== 0) {
        throw new Trouble(
          `There is no square root of ${nameOf(first.power, first.angle)}. Write an area or a number, like \`sqrt(a * a)\`.`,
          e,
        );
      }
      return { power: first.power / 2, angle: 0, value: Math.sqrt(first.value) };
    case 'sin':
    case 'cos':
    case 'tan':
      if (first.power !== 0)
        throw new Trouble(
          `\`${e.name}\` needs an angle, not ${nameOf(first.power, 0)}. Write it like \`${e.name}(30 deg)\`.`,
          e,
        );
      return { power: 0, angle: 0, value: trigonometric(e.name, first.value, e) };
    default:
      return e.name satisfies never;
  }
}

/** Exact at the quarter turns, where rounding would leave 6e-17 for nothing. */
function trigonometric(name: 'sin' | 'cos' | 'tan', degrees: number, e: Expression): number {
  const quarter = ((degrees % 360) + 360) % 360;
  if (quarter % 90 === 0) {
    const [sine, cosine] = [
      [0, 1],
      [1, 0],
      [0, -1],
      [-1, 0],
    ][quarter / 90]!;
    if (name === 'sin') return sine!;
    if (name === 'cos') return cosine!;
    if (cosine === 0) throw new Trouble(`tan(${degrees}°) is infinite. Use another angle, like \`45 deg\`.`, e);
    return 0;
  }
  return Math[name](degrees * RADIANS);
}
