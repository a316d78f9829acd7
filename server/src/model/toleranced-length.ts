/** A length with its limits, in a document without parameters. */
import { fitLimits } from '../tables/fits';
import { parseDimension } from '../text/dimension';
import { evaluate, toLength } from '../text/expression';
import { toleranceLimits } from '../text/tolerance';
import { type ScalarNode, within } from '../text/tree';
import type { Length, Tolerance } from './base';
import type { Fields } from './shop-fields';

/** Undefined where it is wrong, which is told. `source`: what of the scalar is meant. */
export function tolerancedLength(
  fields: Fields,
  node: ScalarNode,
  source: string,
  sign: 'over 0' | 'any sign' = 'over 0',
): Length | undefined {
  const from = Math.max(0, node.source.length - source.length);
  const fail = (message: string, a = 0, b = source.length) => {
    fields.problem('form/unit', message, within(node, from + a, from + b));
    return undefined;
  };
  const parsed = parseDimension(source);
  if (!parsed.ok) return fail(parsed.message, parsed.from, parsed.to);
  const { expression, tolerance: written } = parsed.dimension;
  const worked = evaluate(expression, { unitMm: fields.unitMm, lookup: () => 'unknown' });
  if (!worked.ok)
    return fail(
      worked.unknown ? 'There are no parameters in this document. Write the number, like `12`.' : worked.message,
      worked.from,
      worked.to,
    );
  const length = toLength(worked.value, fields.unitMm);
  if (!length.ok) return fail(length.message);
  if (sign === 'over 0' && length.value <= 0) return fail('This size is not more than 0. Make it more, like `12`.');
  if (!written) return { mm: length.value, text: source.trim(), span: node.span };
  const span = within(node, from + written.from, from + written.to);
  let tolerance: Tolerance;
  if (written.type === 'fit') {
    const limits = fitLimits(length.value, written.letter, written.grade);
    const fit = { letter: written.letter, grade: written.grade };
    tolerance = { text: written.text, fit, span, ...(limits && { upperMm: limits.upperMm, lowerMm: limits.lowerMm }) };
  } else {
    const limits = toleranceLimits(written, 'length', fields.unitMm);
    if (!limits.ok) return fail(limits.message, written.from, written.to);
    tolerance = { text: written.text, upperMm: limits.upper, lowerMm: limits.lower, span };
  }
  return { mm: length.value, tolerance, text: source.trim(), span: node.span };
}
