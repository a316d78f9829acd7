/** Lines for a terminal: plain words, some of them in a colour. What is done about hostile words is the terminal's affair. */
import type { Severity } from '../rules/kit/rule';
import { terminalLine } from '../text/shown';

interface Inked {
  readonly ink: Severity | 'faint' | 'strong';
  readonly words: string;
}

/** One line, without its end. */
export type Line = string | readonly (string | Inked)[];

const ESC = '\u001b[';
/** ECMA-48 select graphic rendition. */
const INK: Readonly<Record<Inked['ink'], string>> = {
  error: '1;31',
  warning: '1;33',
  hint: '1;36',
  faint: '2',
  strong: '1',
};

/** A line as the terminal gets it. One in which something hides is told without colours: then no escape in it is real. */
export function shownLine(line: Line, colours: boolean): string {
  if (typeof line === 'string') return terminalLine(line);
  const plain = line.map((piece) => (typeof piece === 'string' ? piece : piece.words)).join('');
  const shown = terminalLine(plain);
  if (!colours || shown !== plain) return shown;
  return line
    .map((piece) => (typeof piece === 'string' ? piece : `${ESC}${INK[piece.ink]}m${piece.words}${ESC}0m`))
    .join('');
}
