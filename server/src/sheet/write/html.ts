/**
 * Pages as SVG inside HTML: a sheet of paper each, for the editor's panel and any browser. Presentation attributes only;
 * each text says its width, so that a reader without the font sees the same layout.
 */
import { markup } from '../../text/shown';
import type { Fill, Mark, Stroke, Words } from '../draw/marks';
import { CAPITAL } from '../draw/metrics';
import { MARGIN, PAPER_SIZE, type Page, type Paper, paperSize, type Sheet } from '../page';
import { n, outlineOf, pathOf } from './path';

const FAMILY = "'DejaVu Sans Condensed','DejaVu Sans',Verdana,sans-serif";

export function svgOf(page: Page, paper: Paper, title: string): string {
  const { w, h } = paperSize(page, paper);
  const [x, y] = [MARGIN.left, MARGIN.top];
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${n(w)}mm" height="${n(h)}mm" viewBox="0 0 ${n(w)} ${n(h)}" role="img" font-family="${FAMILY}">
<title>${markup(title)}</title>
<rect width="${n(w)}" height="${n(h)}" fill="#fff"/>
<g transform="translate(${x} ${y})" stroke-linejoin="round" stroke-linecap="butt">
${page.marks.map(drawn).join('\n')}
</g>
</svg>`;
}

function drawn(m: Mark): string {
  switch (m.type) {
    case 'stroke':
      return strokeOf(m);
    case 'fill':
      return fillOf(m);
    case 'sign':
      return m.strokes.map((s) => (s.type === 'stroke' ? strokeOf(s) : fillOf(s))).join('');
    case 'words':
      return wordsOf(m);
    default:
      return m satisfies never;
  }
}

function strokeOf({ edges, width, dash, white }: Stroke): string {
  const dashes = dash ? ` stroke-dasharray="${dash.map(n).join(' ')}"` : '';
  return `<path d="${pathOf(edges)}" fill="none" stroke="${white ? '#fff' : '#000'}" stroke-width="${n(width)}"${dashes}/>`;
}

function fillOf({ loops, white }: Fill): string {
  return `<path d="${outlineOf(loops)}" fill="${white ? '#fff' : '#000'}"/>`;
}

function wordsOf({ x, y, words, cap, width, bold, white, turned }: Words): string {
  const place = turned ? `transform="translate(${n(x)} ${n(y)}) rotate(-90)"` : `x="${n(x)}" y="${n(y)}"`;
  const weight = bold ? ' font-weight="bold"' : '';
  return `<text ${place} font-size="${n(cap / CAPITAL)}"${weight} fill="${white ? '#fff' : '#000'}" textLength="${n(width)}" lengthAdjust="spacingAndGlyphs" xml:space="preserve">${markup(words)}</text>`;
}

/** A file of its own. `paper` tells a browser what to print on. */
export function htmlOf(sheet: Sheet, paper: Paper): string {
  const pages = sheet.pages.map((page) => svgOf(page, paper, `${sheet.title}, ${page.number}`));
  const { w, h } = PAPER_SIZE[paper];
  return `<!DOCTYPE html>
<html lang="${sheet.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${markup(sheet.title)}</title>
<style>@page{size:${n(w)}mm ${n(h)}mm;margin:0}body{margin:0}svg{display:block;break-after:page}svg:last-of-type{break-after:auto}</style>
</head>
<body>
${pages.join('\n')}
</body>
</html>
`;
}
