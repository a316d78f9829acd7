/** What the picture lacks, in words: features that stand in the text and could not be read. */
import type { PictureWords } from '../../server/src/service/view/protocol';

/** `Without draw-tube, rib, lip and 3 more`: the picture lacks what they cut. Nothing where it lacks none. */
export function withoutText({ leftOut = [] }: Pick<PictureWords, 'leftOut'>): string {
  if (leftOut.length === 0) return '';
  const more = leftOut.length > MOST_NAMED ? ` and ${leftOut.length - MOST_NAMED} more` : '';
  const names = leftOut.slice(0, MOST_NAMED).map((f) => f.name);
  return `Without ${names.join(', ')}${more}`;
}
const MOST_NAMED = 3;
