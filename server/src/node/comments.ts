/** What of the judged documents a change touches, for comments on it: the lines by git, the text from the disk. */
import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import type { Lines, Reviewed } from '../report/comments';
import type { Reported } from '../report/reported';
import { changedLines } from './git';
import type { Terminal } from './terminal';

/** Without a revision every line counts as touched. */
export async function reviewedOf(
  reported: readonly Reported[],
  since: string | undefined,
  { cwd }: Terminal,
): Promise<readonly Reviewed[]> {
  const lines = since === undefined ? undefined : await changedLines(cwd, since);
  return Promise.all(
    reported.map(async (file): Promise<Reviewed> => {
      const path = resolve(cwd, file.path);
      const text = await readFile(path, 'utf8').catch(() => '');
      const whole: Lines = [0, text.split('\n').length - 1];
      if (!lines || 'why' in lines) return { file, path: file.path.replaceAll('\\', '/'), text, changed: [whole] };
      const { name, changed } = await lines.of(path);
      return { file, path: name, text, changed: changed ?? [whole] };
    }),
  );
}
