/**
 * The working out of one piece of a document: reads dimensions and names from its nodes, notes what it looked at, and
 * collects what is wrong. The text was judged by its schema before, so a node is of the type its field wants.
 */
import { fitLimits } from '../../tables/fits';
import { parseDimension } from '../../text/dimension';
import { evaluate, type Quantity, type Scope, toAngle, toLength } from '../../text/expression';
import { formatLength } from '../../text/format';
import { toleranceLimits } from '../../text/tolerance';
import { type ScalarNode, type Span, scalarAt, type TextNode, within } from '../../text/tree';
import type { Angle, AnyFeature, Axis, Length, Named, SpecProblem, Stands, Tolerance, Units } from '../base';
import { MIDDLE } from '../everyday/places';
import { plainCount, plainLength, plainSize } from '../everyday/scalar';
import type { Answers, Dependency, NamesDependency, Value, ValueDependency } from './dependencies';
import { code, fewOf, listed, nearest, type ProblemRule, problem, quote, replace } from './problem';

/** What a length may be: a size (over 0), 0 or more, or anything. */
type Sign = 'size' | 'from-zero' | 'any';

/** The document as the working out of a piece of it asks it; `database.ts` keeps the answers. */
export interface Database {
  readonly units: Units;
  readonly unitMm: number;
  readonly answers: Answers;
  cell<T>(key: string, nodes: readonly unknown[], compute: (work: Evaluation) => T, of?: string): T | 'circle';
  names(of: NamesDependency['name']): readonly string[];
  look(kind: ValueDependency['kind'], name: string): Value;
  circle(key: string): string;
}

/** A feature that another stands on, lies in or breaks the rim of. */
export interface Standing {
  readonly named: Named;
  readonly feature: AnyFeature;
  readonly stands: Stands;
}

export class Evaluation {
  readonly problems: SpecProblem[] = [];
  readonly dependencies: Dependency[] = [];
  lasting = true;
  /** Something could not be understood: what is being worked out has no value. */
  broken = false;
  /** The axis that `center` is the middle of, while a position is read. */
  private centreOf: string | undefined;
  private readonly scope: Scope;

  constructor(
    readonly doc: Database,
    private readonly of: string | undefined,
  ) {
    this.scope = { unitMm: doc.unitMm, lookup: (name) => this.lookup(name) };
  }

  fail(message: string, span: Span, more: Partial<SpecProblem> = {}, rule: ProblemRule = 'form/schema'): undefined {
    this.broken = true;
    this.problems.push(problem(rule, message, span, this.of === undefined ? more : { of: this.of, ...more }));
    return undefined;
  }

  /** Notes a fault without giving up what is worked out. */
  remark(message: string, span: Span, more: Partial<SpecProblem> = {}, rule: ProblemRule = 'form/schema'): void {
    const was = this.broken;
    this.fail(message, span, more, rule);
    this.broken = was;
  }

  length(map: TextNode | undefined, key: string, sign: Sign = 'size'): Length | undefined {
    const node = scalarAt(map, key);
    return node && this.lengthOf(node, key, sign);
  }

  lengthOf(node: ScalarNode, key: string, sign: Sign = 'size'): Length | undefined {
    const before = this.problems.length;
    const read = this.quantity(node, 'length');
    if (!read) return this.meant(before, node, plainLength(node.source, key), key);
    const mm = read.value;
    if (sign !== 'any' && (mm < 0 || (sign === 'size' && mm === 0))) {
      const limit = sign === 'size' ? 'more than 0' : '0 or more';
      this.fail(`\`${key}\` is ${formatLength(mm, this.doc.units)}. Make it ${limit}, like \`5\`.`, node.span);
      return this.meant(before, node, plainSize(node.source, key), key);
    }
    return { mm, text: node.source, span: node.span, ...(read.tolerance && { tolerance: read.tolerance }) };
  }

  /** What was told of a value is said by what the value means, where that is plain. */
  private meant(
    before: number,
    node: ScalarNode,
    plain: { readonly texts: readonly string[]; readonly why: string } | undefined,
    key: string,
  ): undefined {
    const told = this.problems[before];
    if (!told || !plain) return undefined;
    const texts = plain.texts.map((text) => `${key}: ${text}`);
    this.problems[before] = {
      ...told,
      message: `${plain.why} Write ${listed(code(texts))}.`.trim(),
      span: node.span,
      fixes: plain.texts.map((text) => ({
        ...replace(node.span, text),
        ...(plain.texts.length > 1 && { equal: true as const }),
      })),
    };
    return undefined;
  }

  /** Degrees, strictly between the two limits. */
  angle(map: TextNode | undefined, key: string, over = -360, under = 360): Angle | undefined {
    const node = scalarAt(map, key);
    if (!node) return undefined;
    const read = this.quantity(node, 'angle');
    if (!read) return undefined;
    if (read.value <= over || read.value >= under) {
      return this.fail(
        `\`${key}\` is ${round(read.value)}°. Make it between ${over}° and ${under}°, like \`${round((over + under + 60) / 2)} deg\`.`,
        node.span,
      );
    }
    return { deg: read.value, text: node.source, span: node.span };
  }

  /** A whole number from 1 to `most`. */
  count(map: TextNode | undefined, key: string, most: number): number | undefined {
    const node = scalarAt(map, key);
    const before = this.problems.length;
    const value = node && this.quantity(node, 'number')?.value;
    if (!node) return undefined;
    if (value === undefined) {
      const text = plainCount(node.source);
      return this.meant(before, node, text === undefined ? text : { texts: [text], why: 'It is a number alone.' }, key);
    }
    if (Number.isInteger(value) && value >= 1 && value <= most) return value;
    const why = value > most ? `at most ${most.toLocaleString('en')}` : 'a whole number, 1 or more';
    return this.fail(`\`${key}\` is ${round(value)}. Make it ${why}, like \`${Math.min(4, most)}\`.`, node.span);
  }

  number(map: TextNode | undefined, key: string, over: number): number | undefined {
    const node = scalarAt(map, key);
    const value = node && this.quantity(node, 'number')?.value;
    if (!node || value === undefined) return undefined;
    return value > over
      ? value
      : this.fail(`\`${key}\` is ${round(value)}. Make it more than ${over}, like \`${over + 1}\`.`, node.span);
  }

  /** A coordinate: a length of any sign, in which `center` is the middle of the body along `axis`. */
  coordinate(node: ScalarNode, axis: string): Length | undefined {
    this.centreOf = axis;
    const read = this.lengthOf(node, axis, 'any');
    this.centreOf = undefined;
    return read;
  }

  /** Half the body's size, and so on: what a bare name comes to. */
  sizeOf(axis: string): number | undefined {
    const found = this.look('size', axis);
    if (typeof found === 'object' && 'dimension' in found) return found.value;
    this.broken = true;
    return undefined;
  }

  /** Of a round body: the axis it lies along, and its diameter. */
  round(): { readonly axis: Axis; readonly mm: number } | undefined {
    const found = this.look('size', 'round');
    if (typeof found !== 'object' || !('dimension' in found)) return undefined;
    const axes: readonly Axis[] = ['x', 'y', 'z'];
    const axis = axes[found.value]!;
    const mm = this.sizeOf(axes[(found.value + 1) % 3]!);
    return mm === undefined ? undefined : { axis, mm };
  }

  /** A quantity of any dimension, for parameters. */
  any(node: ScalarNode): Quantity | undefined {
    return this.worked(node)?.value;
  }

  private quantity(
    node: ScalarNode,
    wanted: 'length' | 'angle' | 'number',
  ): { value: number; tolerance?: Tolerance } | undefined {
    const worked = this.worked(node);
    if (!worked) return undefined;
    const { unitMm } = this.doc;
    if (wanted === 'number') {
      const { dimension, value } = worked.value;
      if (dimension === 'number') return { value };
      return this.fail(
        `${dimension === 'length' ? 'A length' : 'An angle'} is written where a plain number is needed. Write the number only, like \`4\`.`,
        node.span,
        {},
        'form/unit',
      );
    }
    const turned = wanted === 'length' ? toLength(worked.value, unitMm) : toAngle(worked.value);
    if (!turned.ok) return this.fail(turned.message, node.span, {}, 'form/unit');
    if (!worked.tolerance) return { value: turned.value };
    const t = worked.tolerance;
    const span = within(node, t.from, t.to);
    if (t.type === 'fit') {
      if (wanted === 'angle')
        return this.fail(
          'A tolerance class is for lengths, not for angles. Write `±` and the angle, like `30 ±0.5 deg`.',
          span,
          {},
          'form/unit',
        );
      const limits = fitLimits(turned.value, t.letter, t.grade);
      const fit = { letter: t.letter, grade: t.grade };
      const sizes = limits && { upperMm: limits.upperMm, lowerMm: limits.lowerMm };
      return { value: turned.value, tolerance: { text: t.text, fit, span, ...sizes } };
    }
    const limits = toleranceLimits(t, wanted, unitMm);
    if (!limits.ok) return this.fail(limits.message, span, {}, 'form/unit');
    return { value: turned.value, tolerance: { text: t.text, upperMm: limits.upper, lowerMm: limits.lower, span } };
  }

  private worked(node: ScalarNode) {
    const parsed = parseDimension(node.source);
    if (!parsed.ok) {
      // `{ y: max(a, 3) }`: the comma has ended the value before it came here.
      const comma = !node.quoted && parsed.message.startsWith('This bracket is not closed');
      const hint = comma ? ' Put it in quotes, like `"max(a, b)"`: inside `{ }` or `[ ]` a comma ends the value.' : '';
      return this.fail(parsed.message + hint, within(node, parsed.from, parsed.to), {}, 'form/unit');
    }
    const { expression, tolerance } = parsed.dimension;
    const result = evaluate(expression, this.scope);
    if (result.ok) return { value: result.value, tolerance };
    const span = within(node, result.from, result.to);
    if (result.broken !== undefined) {
      this.broken = true;
      return undefined;
    }
    if (result.unknown === undefined) return this.fail(result.message, span, {}, 'form/unit');
    // `pitch-3` is one name; where a subtraction was meant the message ends in how to write it.
    const apart = / (`[^`]+ - [^`]+`)\.$/.exec(result.message)?.[1]?.slice(1, -1);
    const isMiddle = this.centreOf !== undefined && MIDDLE.test(result.unknown);
    const like = apart ?? (isMiddle ? 'center' : nearest(result.unknown, this.knownNames()));
    const message = isMiddle
      ? 'The middle of the body is `center`. Write `center`.'
      : like && !apart
        ? `There is no parameter ${quote(result.unknown)}. Did you mean \`${like}\`?`
        : result.message;
    return this.fail(message, span, like ? { fixes: [replace(span, like)] } : {}, 'form/unknown-name');
  }

  /** What a name in an expression comes to. */
  private lookup(name: string): Quantity | 'unknown' | 'broken' {
    const axis = name === 'center' ? this.centreOf : name.startsWith('body.') ? name.slice(5) : undefined;
    const found = axis !== undefined ? this.look('size', axis) : this.look('parameter', name);
    if (typeof found === 'string') return found === 'unknown' ? 'unknown' : 'broken';
    const quantity = found as Quantity;
    return name === 'center' ? { dimension: 'length', value: quantity.value / 2 } : quantity;
  }

  private knownNames(): string[] {
    const words = [...this.names('parameters'), 'body.x', 'body.y', 'body.z'];
    return this.centreOf === undefined ? words : [...words, 'center'];
  }

  /** A feature that this one stands on: looked up, and remembered. */
  feature(node: ScalarNode): Standing | undefined {
    const name = String(node.value);
    const found = this.look('feature', name);
    if (typeof found === 'object' && 'kind' in found)
      return { named: { name, span: node.span }, feature: found, stands: this.doc.answers.stands(found) };
    if (found === 'unknown') {
      const others = this.names('features').filter((known) => known !== this.of);
      return this.unknown('feature', name, node.span, others);
    }
    this.broken = true;
    return undefined;
  }

  unknown(what: string, name: string, span: Span, known: Iterable<string>, hint = ''): undefined {
    const names = [...known];
    const like = nearest(name, names);
    const some = names.length > 0 ? ` Write ${fewOf(code(names))}.` : ' Correct the name, or delete it.';
    const rest = like ? `. Did you mean \`${like}\`?` : `.${hint || some}`;
    return this.fail(
      `There is no ${what} ${quote(name)}${rest}`,
      span,
      like ? { fixes: [replace(span, like)] } : {},
      'form/unknown-name',
    );
  }

  /** Every name there is, for a message that says what is known: it is another when one of them is. */
  names(of: NamesDependency['name']): readonly string[] {
    const saw = this.doc.names(of);
    this.dependencies.push({ kind: 'names', name: of, saw });
    return saw;
  }

  look(kind: ValueDependency['kind'], name: string): Value {
    const saw = this.doc.look(kind, name);
    this.dependencies.push({ kind, name, saw });
    if (saw === 'circle') {
      this.lasting = false;
      this.circle ??= name;
    }
    return saw;
  }

  /** The first name whose own value needs this one. */
  circle: string | undefined;
}

/** Items of a list, or the one thing that stands where a list may. */
export function itemsOf(node: TextNode | undefined): readonly TextNode[] {
  if (!node) return [];
  return node.type === 'list' ? node.items : [node];
}

/** Free text as it is written: `007` stays `007`. */
export function textOf(node: ScalarNode): string {
  return typeof node.value === 'string' ? node.value : node.source;
}

export function namedOf(node: ScalarNode): Named {
  return { name: textOf(node), span: node.span };
}

function round(value: number): string {
  return String(Number(value.toPrecision(6)));
}
