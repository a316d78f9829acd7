/** Edits timed beside bare parses of the bench's 400-feature text, and their spread. */
import { parseDocument } from 'yaml';
import { plate } from './parts';

/** Of edits, ms. */
interface Spread {
  readonly p50: number;
  readonly p95: number;
  readonly p99: number;
  readonly most: number;
}

export interface Keystrokes extends Spread {
  readonly parts: number;
  readonly edits: number;
  /** The same of each part by its name. */
  readonly byPart: Readonly<Record<string, Spread>>;
  /** Which edit took longest. */
  readonly slowest: string;
  /** Taking a change back, ms. */
  readonly back: number;
  /** One bare parse of the 400-feature text meanwhile, ms. */
  readonly parse: number;
}

interface Timed {
  readonly ms: number;
  readonly part: string;
  readonly what: string;
}

export class EditClock {
  readonly #text = plate(400);
  readonly #parses: number[] = [];
  readonly #edits: Timed[] = [];
  readonly #backs: number[] = [];

  /** `now` tells the time of whoever answers, `here` that of this process, which parses. */
  constructor(
    private readonly now: () => number,
    private readonly here = now,
  ) {
    for (let i = 0; i < 20; i++) parseDocument(this.#text);
  }

  /** Between the edits, so that a busy machine is as busy for it. */
  parse(): void {
    const begun = this.here();
    parseDocument(this.#text);
    this.#parses.push(this.here() - begun);
  }

  async edit(part: string, what: string, work: () => unknown, back: () => unknown): Promise<void> {
    const begun = this.now();
    await work();
    const done = this.now();
    this.#edits.push({ ms: done - begun, part, what });
    await back();
    this.#backs.push(this.now() - done);
  }

  result(parts: number): Keystrokes {
    const sorted = this.#edits.sort((a, b) => a.ms - b.ms);
    const parses = this.#parses.sort((a, b) => a - b);
    const names = [...new Set(sorted.map((e) => e.part))];
    return {
      parts,
      edits: sorted.length,
      ...spreadOf(sorted),
      slowest: sorted[sorted.length - 1]?.what ?? '',
      byPart: Object.fromEntries(names.map((name) => [name, spreadOf(sorted.filter((e) => e.part === name))])),
      back: this.#backs.sort((a, b) => a - b)[Math.floor(0.99 * this.#backs.length)]!,
      parse: parses[parses.length >> 1]!,
    };
  }
}

function spreadOf(sorted: readonly Timed[]): Spread {
  const at = (q: number) => sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))]!.ms;
  return { p50: at(0.5), p95: at(0.95), p99: at(0.99), most: at(1) };
}

/** Processor time of this process, ms. */
export function spentHere(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}
