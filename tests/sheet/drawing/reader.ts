/**
 * A drawing read as a person reads it: words that stand beside each other on one line are one text, texts below each other
 * that begin at one place are one note. Nothing is asked of the layout but the marks of its pages.
 */
import { boxOfSaying } from '../../../server/src/sheet/draw/boxes';
import type { Box, Mark } from '../../../server/src/sheet/draw/marks';
import type { Page } from '../../../server/src/sheet/page';

export interface Line {
  readonly text: string;
  readonly box: Box;
  readonly bold: boolean;
  readonly turned: boolean;
  readonly cap: number;
}

const SIGNS = 1.2;

/** Lines of one page: words and signs whose baselines agree, so near that no third letter stands between. */
export function linesOn(page: Page): readonly Line[] {
  const pieces = page.marks.flatMap((m): (Line & { at: number })[] => {
    const box = boxOfSaying(m);
    if (!box || (m.type !== 'words' && m.type !== 'sign')) return [];
    const turned = m.type === 'words' && m.turned === true;
    const at = m.type === 'words' ? (turned ? m.x : m.y) : foot(m, box);
    const cap = m.type === 'words' ? m.cap : 2.5;
    return [
      {
        text: m.type === 'words' ? m.words : m.name,
        box,
        bold: m.type === 'words' && m.bold === true,
        turned,
        cap,
        at,
      },
    ];
  });
  const order = pieces.toSorted(
    (a, b) =>
      Number(a.turned) - Number(b.turned) ||
      (a.turned ? a.at - b.at || b.box.y1 - a.box.y1 : a.at - b.at || a.box.x0 - b.box.x0),
  );
  const lines: (Line & { at: number })[] = [];
  for (const piece of order) {
    const before = lines.find((l) => {
      if (l.turned !== piece.turned || Math.abs(l.at - piece.at) > 0.1) return false;
      const gap = piece.turned ? l.box.y0 - piece.box.y1 : piece.box.x0 - l.box.x1;
      return gap > -0.2 && gap < SIGNS;
    });
    if (!before) {
      lines.push(piece);
      continue;
    }
    const space = (piece.turned ? before.box.y0 - piece.box.y1 : piece.box.x0 - before.box.x1) > 0.35 ? ' ' : '';
    const box = {
      x0: Math.min(before.box.x0, piece.box.x0),
      y0: Math.min(before.box.y0, piece.box.y0),
      x1: Math.max(before.box.x1, piece.box.x1),
      y1: Math.max(before.box.y1, piece.box.y1),
    };
    lines[lines.indexOf(before)] = { ...before, text: before.text + space + piece.text, box };
  }
  return lines;
}

/** Signs stand on the line of their letters: how far below it they go is a share of their height. */
function foot(m: Extract<Mark, { type: 'sign' }>, { y0, y1 }: Box): number {
  const below: Readonly<Record<string, readonly [below: number, above: number]>> = {
    '⌀': [0.05, 0.05],
    '⌖': [0.04, 0.04],
    'Ⓜ': [0.02, 0.02],
    '☐': [0.16, 0.16],
    '⎷': [0, 0.16],
    '⌞': [0.04, 0.14],
  };
  const [b, a] = below[m.name] ?? [0, 0];
  return y1 - ((y1 - y0) * b) / (1 + a + b);
}

/** Texts that begin with the same bold word and what stands below them, one line under the other. */
export function noteAt(lines: readonly Line[], letter: string): string | undefined {
  const first = lines.find(
    (l) =>
      l.bold && !l.turned && (l.text === letter || l.text.startsWith(`${letter} `)) && l.cap < 3 && !isLone(l, letter),
  );
  if (!first) return undefined;
  let [text, last] = [first.text, first];
  for (;;) {
    const next = lines.find(
      (l) =>
        !l.turned &&
        Math.abs(l.box.x0 - first.box.x0) < 0.6 &&
        l.box.y0 > last.box.y0 + 1 &&
        l.box.y0 < last.box.y0 + 5.5 &&
        !l.bold &&
        l !== last,
    );
    if (!next) return text;
    text += ` ${next.text}`;
    last = next;
  }
}

function isLone(l: Line, letter: string): boolean {
  return l.text === letter;
}
