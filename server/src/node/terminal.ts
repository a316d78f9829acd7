/**
 * The terminal's door: the only way to standard output and standard error. It takes lines of words, and what in them would
 * speak to the terminal, or look like another line, is made to show; a message cannot pass without that.
 */
import { type Line, shownLine } from '../report/line';
import type { Disk } from './disk';

export interface Terminal {
  readonly cwd: string;
  readonly version: string;
  /** The program's own file, for further threads. */
  readonly script: string;
  /** Where files are written; Node's own unless a test hands in another. */
  readonly disk?: Disk;
  /** Lines of the answer, to standard output. */
  print(...lines: readonly Line[]): void;
  /** A whole text for a program to read, such as JSON, to standard output as it is. */
  data(text: string): void;
  /** A sentence beside the answer, to standard error, after the program's name. */
  say(sentence: string): void;
  /** Lines that belong to the sentence before. */
  aside(...lines: readonly string[]): void;
  /** A line that somebody types; undefined where it was left. Absent where nobody sits at a terminal. */
  readonly ask?: (question: string) => Promise<string | undefined>;
  /** The same terminal without colours. */
  plain(): Terminal;
}

export interface Streams {
  /** Whether standard output goes to a terminal that shows colours. */
  readonly colours: boolean;
  out(text: string): void;
  err(text: string): void;
}

export function terminal(
  of: Pick<Terminal, 'cwd' | 'version' | 'script' | 'disk' | 'ask'>,
  streams: Streams,
): Terminal {
  const { colours, out, err } = streams;
  return {
    ...of,
    print: (...lines) => out(lines.map((line) => `${shownLine(line, colours)}\n`).join('')),
    data: out,
    say: (sentence) => err(`${shownLine(`scribeline: ${sentence}`, false)}\n`),
    aside: (...lines) => err(lines.map((line) => `${shownLine(line, false)}\n`).join('')),
    plain: () => terminal(of, { ...streams, colours: false }),
  };
}
