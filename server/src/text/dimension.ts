/**
 * The dimension grammar: `value [unit] [tolerance]` in one scalar, from text to an expression and a tolerance.
 *
 *     sum     = product { ("+" | "-") product }
 *     product = factor { ("*" | "/") factor }
 *     factor  = "-" factor | value
 *     value   = number [unit] | fraction | name | function "(" sum { "," sum } ")" | "(" sum ")" [unit]
 *
 * A name may hold dashes, so `a-b` is one name and `a - b` a subtraction. The tolerance is cut off first
 * (`tolerance.ts`); what an expression comes to is told in `expression.ts`.
 */
import { memoByValue } from '../memo';
import { type Expression, FUNCTIONS, type FunctionName, type Operator, type Unit } from './expression';
import { cutTolerance, type ParsedTolerance } from './tolerance';
import { GrammarError, MOST_CHARACTERS, MOST_NESTED, UNIT_PATTERN, unitOf, whyNot } from './units';

interface Dimension {
  readonly expression: Expression;
  readonly tolerance?: ParsedTolerance;
  /** Every parameter or body size mentioned, in text order. */
  readonly names: readonly NameUse[];
}
interface NameUse {
  readonly name: string;
  readonly from: number;
  readonly to: number;
}
type ParsedDimension =
  | { readonly ok: true; readonly dimension: Dimension }
  | { readonly ok: false; readonly message: string; readonly from: number; readonly to: number };

const PLAIN = /^\d{1,15}(?:\.\d{1,15})?$/;
const KEPT = 4000;
const parseKept = memoByValue(parseAnew, KEPT);

/** Reads a dimension. Offsets in the answer count from the start of `source`. Never throws; keeps recent answers. */
export function parseDimension(source: string): ParsedDimension {
  return source.length > MOST_CHARACTERS ? parseAnew(source) : parseKept(source);
}

function parseAnew(source: string): ParsedDimension {
  if (PLAIN.test(source)) {
    const expression: Expression = { type: 'number', value: Number(source), from: 0, to: source.length };
    return { ok: true, dimension: { expression, names: [] } };
  }
  try {
    if (source.length > MOST_CHARACTERS) {
      throw new GrammarError(
        'This is far too long for a dimension. Write it shorter, or with parameters like `wall * 2`.',
        0,
        source.length,
      );
    }
    const { end, tolerance } = cutTolerance(source);
    const parser = new Parser(source, end);
    const expression = parser.whole();
    return { ok: true, dimension: { expression, ...(tolerance && { tolerance }), names: parser.names } };
  } catch (error) {
    if (!(error instanceof GrammarError)) throw error;
    return { ok: false, message: error.message, from: error.from, to: error.to };
  }
}

const SPACE = /\s*/y;
const NUMBER = /(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?/y;
const MIXED = /(\d+)\s+(\d+)\s*\/\s*(\d+)(?![\d.])/y;
const FRACTION = new RegExp(`(\\d+)\\s*/\\s*(\\d+)(?=${UNIT_PATTERN})`, 'y');
const DASHED_MIXED = /\d+-\d+\/\d+\s*(?:in\b|["″])/y;
const UNIT = new RegExp(UNIT_PATTERN, 'y');
const NAME = /[a-z][a-z0-9]*(?:-[a-z0-9]+)*(?:\.[a-z]+)?/y;

class Parser {
  readonly names: NameUse[] = [];
  private at = 0;
  private depth = 0;

  constructor(
    private readonly source: string,
    private readonly end: number,
  ) {}

  whole(): Expression {
    this.space();
    if (this.at >= this.end)
      throw new GrammarError('A value is missing here. Write it, like `12 mm`.', 0, Math.max(1, this.source.length));
    const expression = this.sum();
    if (this.at < this.end) throw whyNot(this.source, this.at, this.end);
    return expression;
  }

  private sum(): Expression {
    let left = this.product();
    for (let operator = this.operator('+', '-'); operator; operator = this.operator('+', '-')) {
      left = binary(operator, left, this.product());
    }
    return left;
  }

  private product(): Expression {
    let left = this.factor();
    for (let operator = this.operator('*', '/'); operator; operator = this.operator('*', '/')) {
      left = binary(operator, left, this.factor());
    }
    return left;
  }

  private factor(): Expression {
    const from = this.at;
    if (!this.operator('-')) return this.value();
    return this.nested(from, () => {
      const operand = this.factor();
      return { type: 'minus', operand, from, to: operand.to };
    });
  }

  private value(): Expression {
    const from = this.at;
    const dashed = this.peek(DASHED_MIXED);
    if (dashed && !/[\d.]/.test(this.source[from - 1] ?? '')) {
      const [whole, rest] = [dashed[0].slice(0, dashed[0].indexOf('-')), dashed[0].slice(dashed[0].indexOf('-') + 1)];
      const message = `This can be ${whole} and ${rest}, or a subtraction. Write \`${whole} ${rest}\` or \`${whole} - ${rest}\`.`;
      throw new GrammarError(message, from, from + dashed[0].length);
    }
    const mixed = this.take(MIXED);
    if (mixed) return this.fraction(mixed, 1, from);
    const fraction = this.take(FRACTION);
    if (fraction) return this.fraction(['', '0', ...fraction.slice(1)], 1, from);
    const number = this.take(NUMBER);
    if (number) return this.number(Number(number[0]), from);
    if (this.source[from] === '(') return this.bracketed(from);
    const name = this.take(NAME);
    if (!name) throw whyNot(this.source, from, this.end);
    const to = from + name[0].length;
    this.space();
    if (this.source[this.at] === '(' && this.at < this.end) return this.call(name[0], from, to);
    this.names.push({ name: name[0], from, to });
    return { type: 'name', name: name[0], from, to };
  }

  private fraction(parts: readonly string[], at: number, from: number): Expression {
    const [whole, over, under] = parts.slice(at).map(Number);
    if (under === 0) throw new GrammarError('This divides by zero. Write another number below the `/`.', from, this.at);
    return this.number(whole! + over! / under!, from);
  }

  private number(value: number, from: number): Expression {
    if (!Number.isFinite(value))
      throw new GrammarError('This number is too large. Check its digits and its unit.', from, this.at);
    const unit = this.unit();
    const to = this.at;
    this.space();
    return { type: 'number', value, ...(unit && { unit }), from, to };
  }

  private unit(): Unit | undefined {
    const found = this.take(UNIT);
    return found ? unitOf(found[1]!) : undefined;
  }

  private bracketed(from: number): Expression {
    return this.nested(from, () => {
      this.at++;
      this.space();
      const inner = this.sum();
      this.close(from);
      const at = this.at;
      const unit = this.unit();
      const to = this.at;
      this.space();
      if (!unit) return { ...inner, from, to: at };
      const one: Expression = { type: 'number', value: 1, unit, from: at, to };
      return { type: 'binary', operator: '*', left: inner, right: one, from, to };
    });
  }

  private call(name: string, from: number, to: number): Expression {
    if (!(FUNCTIONS as readonly string[]).includes(name)) {
      const message = `There is no function \`${name}\`. Write \`*\` to multiply, or a function like \`max(a, b)\`.`;
      throw new GrammarError(message, from, to);
    }
    return this.nested(from, () => {
      const open = this.at++;
      this.space();
      const given = [this.sum()];
      while (this.source[this.at] === ',' && this.at < this.end) {
        this.at++;
        this.space();
        given.push(this.sum());
      }
      this.close(open);
      const end = this.at;
      this.space();
      if (given.length > 1 && name !== 'min' && name !== 'max') {
        throw new GrammarError(
          `\`${name}\` needs one value. Write one, with a point for decimals, like \`${name}(2.5)\`.`,
          from,
          end,
        );
      }
      return { type: 'call', name: name as FunctionName, arguments: given, from, to: end };
    });
  }

  private close(open: number): void {
    if (this.at < this.end && this.source[this.at] === ')') this.at++;
    else if (this.at < this.end) throw whyNot(this.source, this.at, this.end);
    else throw new GrammarError('This bracket is not closed. Add `)`.', open, open + 1);
  }

  private nested(from: number, read: () => Expression): Expression {
    if (++this.depth > MOST_NESTED)
      throw new GrammarError(
        'There are too many brackets inside each other. Write it in parts, with parameters like `wall * 2`.',
        from,
        this.end,
      );
    const expression = read();
    this.depth--;
    return expression;
  }

  /** Takes one of these operators, with the space after it. */
  private operator(...wanted: readonly Operator[]): Operator | undefined {
    if (this.at >= this.end) return undefined;
    const found = this.source[this.at] === '−' ? '-' : this.source[this.at];
    const operator = wanted.find((w) => w === found);
    if (operator) {
      this.at++;
      this.space();
    }
    return operator;
  }

  private space(): void {
    this.take(SPACE);
  }

  private peek(pattern: RegExp): RegExpExecArray | undefined {
    if (this.at >= this.end) return undefined;
    pattern.lastIndex = this.at;
    const match = pattern.exec(this.source);
    return match && this.at + match[0].length <= this.end ? match : undefined;
  }

  private take(pattern: RegExp): RegExpExecArray | undefined {
    const match = this.peek(pattern);
    if (match) this.at += match[0].length;
    return match;
  }
}

function binary(operator: Operator, left: Expression, right: Expression): Expression {
  return { type: 'binary', operator, left, right, from: left.from, to: right.to };
}
