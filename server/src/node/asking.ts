/** Lines that somebody types at a terminal, one a question. Asked on standard error, so that the answer alone goes to standard output. */
import { createInterface, type Interface } from 'node:readline';

/** One reader for all questions: a second would lose what was typed ahead. */
export class Asking {
  /** Opened at the first question, for no other command reads it. */
  readonly #from: () => NodeJS.ReadableStream;
  readonly #to: NodeJS.WritableStream;
  #lines: Interface | undefined;
  #isOver = false;
  readonly #typed: string[] = [];
  #waiting: ((line: string | undefined) => void) | undefined;

  constructor(from: () => NodeJS.ReadableStream, to: NodeJS.WritableStream) {
    this.#from = from;
    this.#to = to;
  }

  /** Undefined where nothing more comes. */
  readonly ask = (question: string): Promise<string | undefined> => {
    this.#lines ??= this.#open();
    this.#to.write(question);
    const ahead = this.#typed.shift();
    if (ahead !== undefined || this.#isOver) return Promise.resolve(ahead);
    return new Promise((resolve) => {
      this.#waiting = resolve;
    });
  };

  /** Standard input is let go of, so that the program can end. */
  end(): void {
    this.#lines?.close();
  }

  #open(): Interface {
    const lines = createInterface({ input: this.#from(), output: this.#to });
    const told = (line: string | undefined) => {
      const waiting = this.#waiting;
      this.#waiting = undefined;
      waiting?.(line);
    };
    lines.on('line', (line) => (this.#waiting ? told(line) : void this.#typed.push(line)));
    lines.on('close', () => {
      this.#isOver = true;
      told(undefined);
    });
    return lines;
  }
}
