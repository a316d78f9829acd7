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
/** A text as a name: in small letters, its words joined. */
export function madeName(text: string): string {
  return text
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^[^a-z]+|-+$/g, '');
}

export function checkName(
  work: Evaluation,
  key: ScalarNode,
  what: 'feature' | 'parameter' | 'setup' | 'island' | 'variant',
): void {
  const name = String(key.value);
  if (!NAME.test(name)) {
    const better = madeName(name);
    const rule = 'small letters, digits and `-`, a letter first';
    const more = NAME.test(better) ? { fixes: [replace(key.span, better)] } : {};
    work.remark(
      `${quote(name)} is not a name for a ${what}. ${NAME.test(better) ? `Write \`${better}\`: ` : 'Use '}${rule}.`,
      key.span,
      more,
    );
  } else if ((what === 'parameter' ? TAKEN_IN_SUMS : TAKEN).has(name)) {
    work.remark(`${quote(name)} has a meaning of its own here. Give the ${what} another name.`, key.span);
  }
}
