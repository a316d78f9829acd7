/** Edits timed beside bare parses of the bench's 400-feature text, and their spread. */
import { parseDocument } from 'yaml';
import { plate } from './parts';

export interface Keystrokes {
  readonly parts: number;
  readonly edits: number;
  /** Of all edits, ms. */
  readonly p50: number;
  readonly p95: number;
  readonly p99: number;
  readonly most: number;
  /** Which edit took longest. */
  readonly slowest: string;
  /** Taking a change back, ms. */
  readonly back: number;
  /** One bare parse of the 400-feature text meanwhile, ms. */
  readonly parse: number;
}

interface Timed {
  readonly ms: number;
  readonly what: string;
}

export class EditClock {
  readonly #text = plate(400);
  readonly #parses: number[] = [];
  readonly #edits: Timed[] = [];
  readonly #backs: number[] = [];

  constructor(private readonly now: () => number) {
    for (let i = 0; i < 20; i++) parseDocument(this.#text);
  }

  /** Between the edits, so that a busy machine is as busy for it. */
  parse(): void {
    const begun = this.now();
    parseDocument(this.#text);
    this.#parses.push(this.now() - begun);
  }

  async edit(what: string, work: () => unknown, back: () => unknown): Promise<void> {
    const begun = this.now();
    await work();
    const done = this.now();
    this.#edits.push({ ms: done - begun, what });
    await back();
    this.#backs.push(this.now() - done);
  }

  result(parts: number): Keystrokes {
    const sorted = this.#edits.sort((a, b) => a.ms - b.ms);
    const at = (q: number) => sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))]!;
    const { ms: most, what: slowest } = at(1);
    const parses = this.#parses.sort((a, b) => a - b);
    const [p50, p95, p99] = [at(0.5).ms, at(0.95).ms, at(0.99).ms];
    const back = this.#backs.sort((a, b) => a - b)[Math.floor(0.99 * this.#backs.length)]!;
    return { parts, edits: sorted.length, p50, p95, p99, most, slowest, back, parse: parses[parses.length >> 1]! };
  }
}
