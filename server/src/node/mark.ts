/** What a paper is told by from an older one: the same for the same texts and program, and for no others. */
import { createHash } from 'node:crypto';

/** Eight hexadecimal digits. */
export function markOf(texts: readonly string[]): string {
  const hash = createHash('sha256');
  for (const text of texts) hash.update(`${text.length}:`).update(text);
  return hash.digest('hex').slice(0, MARK_DIGITS);
}
const MARK_DIGITS = 8;
