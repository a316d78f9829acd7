// The fonts that sheets are printed with: copied as they came. Their licence stands in the notices, and beside them.
import { copyFileSync, existsSync, mkdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

export const FONTS = 'node_modules/dejavu-fonts-ttf';

const FILES = [
  ['ttf/DejaVuSansCondensed.ttf', 'DejaVuSansCondensed.ttf'],
  ['ttf/DejaVuSansCondensed-Bold.ttf', 'DejaVuSansCondensed-Bold.ttf'],
  ['LICENSE', 'LICENSE'],
];

export function copyFonts(folder) {
  mkdirSync(folder, { recursive: true });
  for (const [from, to] of FILES) {
    const [source, target] = [join(FONTS, from), join(folder, to)];
    if (!existsSync(target) || statSync(target).size !== statSync(source).size) copyFileSync(source, target);
  }
}
