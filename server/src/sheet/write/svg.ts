/** Pages as one SVG file: below each other, each as it is printed. */
import { markup } from '../../text/shown';
import { type Paper, paperSize, type Sheet } from '../page';
import { svgOf } from './html';
import { n } from './path';

const BETWEEN = 10;

export function svgFileOf(sheets: readonly Sheet[], paper: Paper): string {
  const pages = sheets.flatMap((sheet) => sheet.pages.map((page) => ({ sheet, page, size: paperSize(page, paper) })));
  const [only] = pages;
  if (only && pages.length === 1)
    return `<?xml version="1.0" encoding="UTF-8"?>\n${svgOf(only.page, paper, only.sheet.title)}\n`;
  const w = Math.max(0, ...pages.map((p) => p.size.w));
  let y = 0;
  const placed = pages.map(({ sheet, page, size }) => {
    const made = svgOf(page, paper, `${sheet.title}, ${page.number}`).replace('<svg ', `<svg y="${n(y)}" `);
    y += size.h + BETWEEN;
    return made.replace(/width="([\d.]+)mm" height="([\d.]+)mm"/, 'width="$1" height="$2"');
  });
  const h = y - BETWEEN;
  const title = markup(sheets.map((s) => s.title).join(', '));
  return `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="${n(w)}mm" height="${n(h)}mm" viewBox="0 0 ${n(w)} ${n(h)}">
<title>${title}</title>
${placed.join('\n')}
</svg>
`;
}
