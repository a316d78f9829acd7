/** Which names without a unit are lengths by all that is done with them, and what an expression comes to. */
import type { Part } from '../../model/model';
import type { scalarsOf } from '../../model/scalars';
import type { Expression } from '../../text/expression';
import { piecesOf } from '../../text/pieces';

export interface Names {
  /** Parameters that are numbers as they are written, and lengths as they are used. */
  readonly lengths: ReadonlySet<string>;
  readonly part: Part;
}

type Meant = ReturnType<typeof scalarsOf> extends Generator<infer M> ? M : never;

/** Of length: 1, of an area: 2, of a number: 0; undefined where an angle is in it or it cannot be told. */
export function powerOf(e: Expression, names: Names): number | undefined {
  switch (e.type) {
    case 'number':
      return e.unit === undefined ? 0 : e.unit === 'deg' ? undefined : 1;
    case 'name':
      return ofName(e.name, names);
    case 'minus':
      return powerOf(e.operand, names);
    case 'binary': {
      const [a, b] = [powerOf(e.left, names), powerOf(e.right, names)];
      if (a === undefined || b === undefined) return undefined;
      if (e.operator === '*') return a + b;
      return e.operator === '/' ? a - b : Math.max(a, b);
    }
    case 'call': {
      if (e.name === 'sin' || e.name === 'cos' || e.name === 'tan') return 0;
      const powers = e.arguments.map((a) => powerOf(a, names));
      if (powers.includes(undefined)) return undefined;
      const most = Math.max(...(powers as number[]));
      return e.name === 'sqrt' ? most / 2 : most;
    }
    default:
      return e satisfies never;
  }
}

function ofName(name: string, { lengths, part }: Names): number | undefined {
  if (name.startsWith('body.') || name === 'center') return 1;
  const dimension = part.parameters.get(name)?.value?.dimension;
  if (dimension === 'angle' || dimension === undefined) return undefined;
  return dimension === 'length' || lengths.has(name) ? 1 : 0;
}

interface Use {
  readonly expression: Expression;
  readonly names: readonly string[];
  /** The parameter that it defines. */
  readonly own: string | undefined;
  readonly isLength: boolean;
}

/** The most of them: those by which something would not be what it is are left numbers, what it is divided by first. */
export function lengthNames(part: Part, scalars: readonly Meant[]): Names {
  const isNumber = (name: string) => part.parameters.get(name)?.value?.dimension === 'number';
  const lengths = new Set([...part.parameters.keys()].filter(isNumber));
  const uses = scalars.flatMap(({ node, path, shape }): Use[] => {
    const pieces = shape.meta.unit ? piecesOf(node.source) : undefined;
    const own = path[0] === 'parameters' ? String(path[1]) : undefined;
    if (!pieces) return [];
    const { expression } = pieces;
    return [{ expression, names: pieces.names.map((n) => n.name), own, isLength: shape.meta.unit === 'length' }];
  });
  for (const { names, own, isLength } of uses)
    if (own === undefined && !isLength) for (const n of names) lengths.delete(n);
  for (let changed = true; changed; ) {
    changed = false;
    for (const use of uses.filter((u) => !fits(u, { lengths, part }, isNumber))) {
      const under = divisors(use.expression).filter((n) => lengths.has(n));
      for (const name of under.length > 0 ? under : use.names) changed = lengths.delete(name) || changed;
    }
  }
  return { lengths, part };
}

/** Whether it is what its place takes; a number that stands for a length becomes one, where no length was lost in it. */
function fits({ expression, names, own, isLength }: Use, known: Names, isNumber: (name: string) => boolean): boolean {
  const power = powerOf(expression, known);
  const hasLengths = names.some((n) => known.lengths.has(n));
  if (own !== undefined && isNumber(own) && !known.lengths.has(own)) return power === 0 && !hasLengths;
  if (own !== undefined && !isNumber(own)) return true;
  return isLength || own !== undefined ? power === 1 || (power === 0 && !hasLengths) : power === 0;
}

function divisors(e: Expression): readonly string[] {
  if (e.type === 'minus') return divisors(e.operand);
  if (e.type === 'call') return e.arguments.flatMap(divisors);
  if (e.type !== 'binary') return [];
  const under = e.operator === '/' && e.right.type === 'name' ? [e.right.name] : [];
  return [...under, ...divisors(e.left), ...divisors(e.right)];
}
