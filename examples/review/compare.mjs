// The demonstration of a review: what changed from examples/review/before to examples/review/after, as a page of its own
// (compared.html, for any browser) and as Markdown with pictures (compared.md). Run by `npm run review`.
// `node examples/review/compare.mjs FOLDER` writes them there.
import { spawnSync } from 'node:child_process';
import { dirname, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const into = resolve(process.argv[2] ?? here);
for (const name of ['compared.md', 'compared.html']) {
  const words = ['compare', 'before', 'after', '--to', relative(here, resolve(into, name))];
  const { status } = spawnSync(process.execPath, [resolve(here, '../../dist/cli.js'), ...words], {
    cwd: here,
    stdio: 'inherit',
  });
  if (status !== 0) process.exit(status ?? 1);
}
