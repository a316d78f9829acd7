/** The pieces of a dimension's text, each with its place: for colouring it, and for writing it otherwise. */
import { parseDimension } from './dimension';
import type { Expression } from './expression';
import type { ParsedTolerance } from './tolerance';

interface Pieces {
  readonly expression: Expression;
  readonly tolerance?: ParsedTolerance;
  /** In the order of the text. */
  readonly numbers: readonly (Expression & { readonly type: 'number' })[];
  readonly names: readonly (Expression & { readonly type: 'name' })[];
  readonly calls: readonly (Expression & { readonly type: 'call' })[];
}

/** Undefined where it cannot be read. */
export function piecesOf(source: string): Pieces | undefined {
  const parsed = parseDimension(source);
  if (!parsed.ok) return undefined;
  const { expression, tolerance } = parsed.dimension;
  const all = [...within(expression)];
  const of = <T extends Expression['type']>(type: T) =>
    all.filter((e): e is Expression & { readonly type: T } => e.type === type);
  return { expression, ...(tolerance && { tolerance }), numbers: of('number'), names: of('name'), calls: of('call') };
}

function* within(e: Expression): Generator<Expression> {
  yield e;
  if (e.type === 'minus') yield* within(e.operand);
  else if (e.type === 'binary') {
    yield* within(e.left);
    yield* within(e.right);
  } else if (e.type === 'call') for (const inner of e.arguments) yield* within(inner);
}

/** The expression of a dimension's text and its tolerance with the blank before it. */
export function cut(source: string): { readonly value: string; readonly tolerance: string } {
  const from = piecesOf(source)?.tolerance?.from;
  if (from === undefined) return { value: source.trim(), tolerance: '' };
  return { value: source.slice(0, from).trim(), tolerance: ` ${source.slice(from).trim()}` };
}

/** In brackets where it is more than one word or number. */
export function bracketed(value: string): string {
  return /^(?:\d+(?:\.\d+)?|[a-z][a-z0-9-]*(?:\.[xyz])?|[a-z]+\([^()]*\)|\([^()]*\))$/.test(value)
    ? value
    : `(${value})`;
}
