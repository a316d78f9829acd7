/** What can be measured of a page: whether words stand out from what is behind them, and whether anything covers anything or leaves the window. */
import type { Page } from 'playwright-core';

interface Looked {
  /** Words with their contrast (WCAG 2.2, 1.4.3), the least first. */
  readonly words: readonly { readonly text: string; readonly ratio: number; readonly wanted: number }[];
  /** Pairs of things that cover each other, and things out of their frame. */
  readonly troubles: readonly string[];
}

/** As text: what is compiled for here leans on helpers that the page does not have. */
const LOOK = `(() => {
  const seen = (e) => e.checkVisibility({ checkOpacity: true, checkVisibilityCSS: true }) && !e.closest('.aloud');
  const parse = (css) => {
    const n = (css.match(/[\\d.]+/g) || []).map(Number);
    if (css.startsWith('color(srgb')) return [255 * n[0], 255 * n[1], 255 * n[2], n[3] ?? 1];
    return [n[0] ?? 0, n[1] ?? 0, n[2] ?? 0, n[3] ?? 1];
  };
  const over = ([r, g, b, a], under) => [r, g, b].map((c, i) => c * a + under[i] * (1 - a));
  const ground = (e) => {
    const stack = [];
    for (let at = e; at; at = at.parentElement) stack.push(parse(getComputedStyle(at).backgroundColor));
    return stack.reduceRight((under, c) => over(c, under), [255, 255, 255]);
  };
  const faded = (e) => {
    let all = 1;
    for (let at = e; at; at = at.parentElement) all *= Number(getComputedStyle(at).opacity);
    return all;
  };
  const light = (c) => {
    const [r, g, b] = c.map((v) => (v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const lies = (rect, e) => {
    const [r, t] = [rect.getBoundingClientRect(), e.getBoundingClientRect()];
    const [x, y] = [(t.left + t.right) / 2, (t.top + t.bottom) / 2];
    const isFilled = parse(getComputedStyle(rect).fill)[3] > 0 && getComputedStyle(rect).fill !== 'none';
    return isFilled && rect.compareDocumentPosition(e) & 4 && x > r.left && x < r.right && y > r.top && y < r.bottom;
  };
  const words = [];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    const e = node.parentElement;
    const text = node.textContent.trim();
    if (text === '' || !e || ['SCRIPT', 'OPTION'].includes(e.tagName) || !seen(e) || e.closest('#drawing, main.older')) continue;
    if (e.closest('button, input, select') && e.closest('button, input, select').disabled) continue;
    const style = getComputedStyle(e);
    // Words of a drawing are filled, on what it laid under them last.
    const paper = e.closest('svg') && [...e.closest('svg').querySelectorAll('rect, path')].filter((r) => lies(r, e)).pop();
    const back = paper ? parse(getComputedStyle(paper).fill) : ground(e);
    const [r, g, b, a] = parse(e.closest('svg') ? style.fill : style.color);
    const ink = over([r, g, b, a * faded(e)], back);
    const [x, y] = [light(ink), light(back)].sort((p, q) => q - p);
    const px = parseFloat(style.fontSize);
    const isLarge = px >= 24 || (px >= 18.66 && Number(style.fontWeight) >= 700);
    words.push({ text: text.slice(0, 60), ratio: (x + 0.05) / (y + 0.05), wanted: isLarge ? 3 : 4.5 });
  }
  words.sort((p, q) => p.ratio / p.wanted - q.ratio / q.wanted);
  const troubles = [];
  const box = (e) => e.getBoundingClientRect();
  const cover = (a, b) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1 && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 1;
  const name = (e) => (e.id ? '#' + e.id : e.className || e.tagName) + ' "' + e.textContent.trim().slice(0, 30) + '"';
  const pairs = (list) => list.forEach((a, i) => list.slice(0, i).forEach((b) => {
    if (!a.contains(b) && !b.contains(a) && cover(box(a), box(b))) troubles.push(name(a) + ' covers ' + name(b));
  }));
  const labels = [...document.querySelectorAll('#labels > *')].filter(seen);
  const step = document.querySelector('#step');
  pairs([...labels, ...(step && step.textContent && seen(step) ? [step] : [])]);
  pairs([...document.querySelectorAll('header button, header select, header input, header label, header p, header progress, header #step')].filter(seen));
  const frame = document.querySelector('#labels');
  if (frame) for (const label of labels) {
    const [f, l] = [box(frame), box(label)];
    if (l.left < f.left - 1 || l.right > f.right + 1 || l.top < f.top - 1 || l.bottom > f.bottom + 1) troubles.push(name(label) + ' leaves the picture');
  }
  for (const e of document.querySelectorAll('header *, footer *, main p, main dd, main li, main h1, main h2')) {
    if (!seen(e) || e.closest('#labels, #lines, footer dl, #drawing')) continue;
    const b = box(e);
    if (b.right > innerWidth + 1 || b.left < -1) troubles.push(name(e) + ' leaves the window');
  }
  for (const e of document.querySelectorAll('main .wide button')) {
    if (seen(e) && box(e).right > box(e.closest('.wide')).right + 1) troubles.push(name(e) + ' is cut off');
  }
  const tips = document.querySelector('footer dl');
  if (tips && seen(tips)) {
    const b = box(tips);
    if (b.left < 0 || b.top < 0 || b.right > innerWidth) troubles.push('the keys leave the window');
  }
  if (document.documentElement.scrollWidth > innerWidth + 1) troubles.push('the page is wider than its window');
  return { words, troubles };
})()`;

export async function look(page: Page): Promise<Looked> {
  return (await page.evaluate(LOOK)) as Looked;
}
