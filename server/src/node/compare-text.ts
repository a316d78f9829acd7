/** Comparisons as text: for a terminal, for other programs, for a pull request. */
import { jobLines, jobMarkdown } from '../compare/job-lines';
import { compareJson } from '../compare/json';
import { changeLines } from '../compare/lines';
import { changeMarkdown } from '../compare/markdown';
import type { Held } from '../page/compared';
import { escapeMarkdown } from '../text/markdown';

/** Of a part: pictures of its views, by their names beside the page. */
type PicturesOf = (held: Held) => Parameters<typeof changeMarkdown>[1];

export function textOf(
  all: readonly Held[],
  format: 'text' | 'json' | 'md',
  picturesOf: PicturesOf = () => [],
): readonly string[] {
  if (format === 'json')
    return compareJson(all.map((h) => h.compared))
      .trimEnd()
      .split('\n');
  const lines = all.flatMap((held) => {
    const { compared } = held;
    if ('only' in compared) {
      const words = compared.only === 'old' ? 'gone' : 'new';
      return format === 'md' ? [`## ${escapeMarkdown(compared.path)}: ${words}`, ''] : [`${compared.path}: ${words}`];
    }
    if ('jobChange' in compared) {
      const { path, jobChange } = compared;
      return format === 'md' ? jobMarkdown(path, jobChange) : jobLines(path, jobChange);
    }
    return format === 'md' ? changeMarkdown(compared, picturesOf(held)) : changeLines(compared);
  });
  return lines.length > 0 ? lines : ['there is no part on either side.'];
}
