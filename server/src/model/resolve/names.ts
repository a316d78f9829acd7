/** Is a name that the author chose a good one? */
import type { ScalarNode } from '../../text/tree';
import { FACES } from '../model';
import { NAME } from '../schema/common';
import type { Evaluation } from './evaluation';
import { quote, replace } from './problem';

/** Words that mean something of their own where such a name may stand. */
const TAKEN: ReadonlySet<string> = new Set([...FACES, 'parallels', 'center', 'body', 'through']);
const TAKEN_IN_SUMS: ReadonlySet<string> = new Set([
  'center',
  'body',
  'through',
  'min',
  'max',
  'abs',
  'sqrt',
  'sin',
  'cos',
  'tan',
  'mm',
  'cm',
  'm',
  'um',
  'in',
  'inch',
  'deg',
]);

/** Remarks on a name that does not follow the rule, or that is taken. */
export function checkName(work: Evaluation, key: ScalarNode, what: 'feature' | 'parameter' | 'setup' | 'island'): void {
  const name = String(key.value);
  if (!NAME.test(name)) {
    const better = name
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^[^a-z]+|-+$/g, '');
    const rule = 'a name is lower-case letters, digits and `-`, and begins with a letter';
    const more = NAME.test(better) ? { fixes: [replace(key.span, better)] } : {};
    work.remark(
      `${quote(name)} is no name for a ${what}: ${rule}${NAME.test(better) ? `, like \`${better}\`` : ''}.`,
      key.span,
      more,
    );
  } else if ((what === 'parameter' ? TAKEN_IN_SUMS : TAKEN).has(name)) {
    work.remark(`${quote(name)} has a meaning of its own here; give the ${what} another name.`, key.span);
  }
}
