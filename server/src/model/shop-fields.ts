/**
 * Reading the fields of a shop or job: a length, an angle, a count, a word, a quantity, each from its place in the text,
 * with what is wrong and what was assumed noted down on the way.
 */

import { parseDimension } from '../text/dimension';
import { evaluate, toAngle, toLength } from '../text/expression';
import { type ScalarNode, type Span, scalarAt, type TextNode, within } from '../text/tree';
import type { SpecProblem, Units } from './model';
import { type QuantityKind, readQuantity } from './quantity';
import { code, fewOf, nearest, type ProblemRule, quote, replace } from './resolve/problem';

const NOTHING = 'There are no parameters in this document. Write the number, like `12`.';

/** A value that the text leaves out, and what holds instead. */
export interface Assumed {
  /** `tools/em-6`, `machines/toolroom-mill`. */
  readonly of: string;
  /** The key that is left out. */
  readonly field: string;
  /** `6 mm`, `carbide`. */
  readonly text: string;
  /** Where the value comes from: a standard, a table, common practice. */
  readonly why: string;
  /** The name of what leaves it out. */
  readonly span: Span;
}

/** A field that nobody wrote, of `machines/mill`, say. */
interface LeftOut {
  readonly of: string;
  readonly span: Span;
  readonly field: string;
}

export class Fields {
  readonly problems: SpecProblem[] = [];
  readonly assumed: Assumed[] = [];

  constructor(readonly units: Units) {}

  get unitMm(): number {
    return this.units === 'in' ? 25.4 : 1;
  }

  problem(rule: ProblemRule, message: string, span: Span, more: Partial<SpecProblem> = {}): void {
    this.problems.push({ rule, message, span, ...more });
  }

  /** A size in mm, over 0; undefined where it is left out or wrong (which is told). */
  size(map: TextNode | undefined, key: string): number | undefined {
    const node = scalarAt(map, key);
    return node && this.lengthOf(node, key, 'over 0');
  }

  /** A length in mm that may be 0. */
  lengthFrom0(map: TextNode | undefined, key: string): number | undefined {
    const node = scalarAt(map, key);
    return node && this.lengthOf(node, key, 'from 0');
  }

  lengthOf(node: ScalarNode, what: string, range: 'over 0' | 'from 0'): number | undefined {
    const mm = this.dimension(node, 'length');
    if (mm === undefined) return undefined;
    if (mm < 0 || (mm === 0 && range === 'over 0')) {
      this.problem(
        'form/schema',
        `\`${what}\` is ${quote(node.source)}. Make it ${range === 'over 0' ? 'more than 0' : '0 or more'}, like \`5\`.`,
        node.span,
      );
      return undefined;
    }
    return mm;
  }

  /** An angle in degrees within limits, both excluded but for the upper one. */
  angle(map: TextNode | undefined, key: string, over: number, upTo: number): number | undefined {
    const node = scalarAt(map, key);
    const deg = node && this.dimension(node, 'angle');
    if (deg === undefined) return undefined;
    if (deg > over && deg <= upTo) return deg;
    this.problem(
      'form/schema',
      `\`${key}\` is ${deg}°. Make it more than ${over}° and at most ${upTo}°, like \`${upTo} deg\`.`,
      node!.span,
    );
    return undefined;
  }

  /** A plain number within limits. */
  number(map: TextNode | undefined, key: string, least: number, whole = false): number | undefined {
    const node = scalarAt(map, key);
    return node && this.numberOf(node, key, least, whole);
  }

  numberOf(node: ScalarNode, what: string, least: number, whole = false): number | undefined {
    const value = this.dimension(node, 'number');
    if (value === undefined) return undefined;
    if (value >= least && (!whole || Number.isInteger(value))) return value;
    const wanted = whole ? `a whole number, ${least} or more` : `${least} or more`;
    this.problem(
      'form/schema',
      `\`${what}\` is ${value}. Make it ${wanted}, like \`${Math.max(least, 4)}\`.`,
      node.span,
    );
    return undefined;
  }

  /** A quantity in its base unit, 0 or more. */
  quantity(map: TextNode | undefined, key: string, kind: QuantityKind, bare?: string): number | undefined {
    const node = scalarAt(map, key);
    if (!node) return undefined;
    const read = readQuantity(node.source, kind, bare);
    if (read.ok) return read.value;
    const said = read.message.replace(/^This (?:\w+ )?(?=(?:has|cannot|is) )/, `\`${key}\` `);
    const fixes = read.instead === undefined ? {} : { fixes: [replace(node.span, read.instead)] };
    this.problem(read.unit ? 'form/unit' : 'form/schema', said, node.span, fixes);
    return undefined;
  }

  /** A word or text as written; undefined where it is left out. */
  word(map: TextNode | undefined, key: string): string | undefined {
    return scalarAt(map, key)?.source;
  }

  /** Notes a default: what was left out, what holds instead and why. */
  assume<T extends number | string>({ of, span, field }: LeftOut, value: T, why: string, unit = ''): T {
    const text = typeof value === 'number' ? `${Number(value.toFixed(4))}${unit}` : String(value);
    this.assumed.push({ of, field, text, why, span });
    return value;
  }

  unknownName(what: string, word: string, known: readonly string[], span: Span): void {
    const like = nearest(word, known);
    const has = known.length === 0 ? ' Correct the name, or delete it.' : ` Write ${fewOf(code(known))}.`;
    const message = like
      ? `There is no ${what} \`${word}\`. Did you mean \`${like}\`?`
      : `There is no ${what} \`${word}\`.${has}`;
    this.problem('form/unknown-name', message, span, {
      facts: like ? { name: word, nearest: like } : { name: word },
      ...(like && { fixes: [replace(span, like)] }),
    });
  }

  private dimension(node: ScalarNode, wanted: 'length' | 'angle' | 'number'): number | undefined {
    const parsed = parseDimension(node.source);
    if (!parsed.ok) return this.wrong(node, parsed.message, parsed.from, parsed.to);
    if (parsed.dimension.tolerance) {
      const { from, to } = parsed.dimension.tolerance;
      return this.wrong(node, 'A tolerance means nothing here. Write the size alone, like `12`.', from, to);
    }
    const worked = evaluate(parsed.dimension.expression, { unitMm: this.unitMm, lookup: () => 'unknown' });
    if (!worked.ok) return this.wrong(node, worked.unknown ? NOTHING : worked.message, worked.from, worked.to);
    if (wanted === 'number') {
      if (worked.value.dimension === 'number') return worked.value.value;
      return this.wrong(
        node,
        'A unit is written where a plain number is needed. Write the number only, like `4`.',
        0,
        node.source.length,
      );
    }
    const converted = wanted === 'length' ? toLength(worked.value, this.unitMm) : toAngle(worked.value);
    return converted.ok ? converted.value : this.wrong(node, converted.message, 0, node.source.length);
  }

  private wrong(node: ScalarNode, message: string, from: number, to: number): undefined {
    this.problem('form/unit', message, within(node, from, to));
    return undefined;
  }
}
