/** Stock that is cast to the outline of the body, with an allowance outside each face. */
import { GRADES } from '../../tables/castings';
import { at, type MapEntry } from '../../text/tree';
import { type Body, FACES, type Stock } from '../model';
import type { Evaluation } from './evaluation';

export function castStock(
  work: Evaluation,
  entry: MapEntry,
  base: Pick<Stock, 'written' | 'form' | 'sawn' | 'extra' | 'span'>,
  body: Body | undefined,
): Stock | undefined {
  if (body?.form === 'round')
    return work.fail(
      'A casting here has a body of `x`, `y` and `z`. Write a round one as `form: blank`, with a part file of its own.',
      at(entry.value, 'form')!.span,
    );
  const written = at(entry.value, 'allowance');
  const allowance = written && work.length(entry.value, 'allowance', 'from-zero');
  const graded = at(entry.value, 'grade');
  const grade = graded && work.count(entry.value, 'grade', GRADES);
  if (base.sawn.length > 0) work.fail('A casting is not sawn. Delete `sawn`.', at(entry.value, 'sawn')!.span);
  if (work.broken) return undefined;
  const more = allowance
    ? FACES.filter((f) => !base.extra[f]).map((f) => [f, { ...allowance, from: '`allowance`' }])
    : [];
  return { ...base, extra: { ...base.extra, ...Object.fromEntries(more) }, ...(grade !== undefined && { grade }) };
}
