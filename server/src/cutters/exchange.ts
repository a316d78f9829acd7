/**
 * Clear text of an exchange file (ISO 10303-21): instances with their parameters, whatever schema they are of. What cannot be
 * read is told and left, up to the next semicolon; the rest is read. Nothing is looked up, and nothing in it is trusted.
 */
import { linesOf } from '../text/lines';
import { stringOf } from './exchange-strings';

/** `#12` */
interface Ref {
  readonly ref: number;
}
/** `LENGTH_MEASURE(10.)` */
interface Typed {
  readonly type: string;
  readonly params: readonly Param[];
}
/** `real`: written with a point, as measures are and counts are not. */
interface Numeral {
  readonly n: number;
  readonly real: boolean;
}
/** `.MILLI.` */
interface Enumeration {
  readonly word: string;
}
export type Param = string | null | Ref | Typed | Numeral | Enumeration | readonly Param[];

export interface Instance {
  readonly id: number;
  /** From 1. */
  readonly line: number;
  /** One, or several of a complex instance. */
  readonly parts: readonly Typed[];
}

interface Exchange {
  readonly instances: ReadonlyMap<number, Instance>;
  readonly told: readonly string[];
}

const MOST_INSTANCES = 200_000;
/** Lists in lists; deeper ones are no cutter’s. */
const MOST_DEPTH = 24;
/** So many places that cannot be read are told one by one. */
const MOST_TOLD = 5;

export function isExchange(text: string): boolean {
  return /^\ufeff?\s*(?:\/\*[\s\S]{0,4000}?\*\/\s*)*ISO-10303-21\s*;/.test(text);
}

export function readExchange(text: string): Exchange {
  const instances = new Map<number, Instance>();
  const told: string[] = [];
  const lines = linesOf(text);
  const at = new Cursor(text);
  const line = (offset: number) => lines.position(offset).line + 1;
  let wrong = 0;
  const tell = (offset: number, why: string) => {
    if (++wrong <= MOST_TOLD) told.push(`line ${line(offset)}: ${why}.`);
  };
  while (at.toNextInstance()) {
    if (instances.size >= MOST_INSTANCES) {
      told.push(`It has more than ${MOST_INSTANCES} instances: the rest was not read.`);
      break;
    }
    const start = at.offset;
    try {
      const { id, parts } = at.instance();
      if (instances.has(id)) tell(start, `#${id} stands there twice, and the first holds`);
      else instances.set(id, { id, line: line(start), parts });
    } catch (error) {
      if (!(error instanceof Unreadable)) throw error;
      tell(error.offset, error.message);
      at.past(start);
    }
  }
  if (wrong > MOST_TOLD) told.push(`${wrong - MOST_TOLD} more places could not be read.`);
  return { instances, told };
}

class Unreadable extends Error {
  constructor(
    message: string,
    readonly offset: number,
  ) {
    super(message);
  }
}

const SPACE = /\s*/y;
const NAME = /[A-Za-z_!][A-Za-z0-9_-]*/y;
const NUMBER = /[-+]?(?:\d+\.?\d*|\.\d+)(?:[Ee][-+]?\d+)?/y;
const STRING = /'(?:[^']|'')*'/y;
const WORD = /\.[A-Za-z_][A-Za-z0-9_]*\./y;
const BINARY = /"[0-9A-Fa-f]*"/y;
const REF = /#(\d{1,15})/y;
/** Of the standard’s third edition: values and constants by name, and addresses. */
const NAMED = /(?:[#@][A-Za-z0-9_]+|<[^<>\s]*>)/y;

class Cursor {
  offset = 0;

  constructor(private readonly text: string) {}

  /** To the next `#12=` that begins a line of the data; other words (sections, headers) are passed over up to their semicolon. */
  toNextInstance(): boolean {
    for (;;) {
      this.blank();
      if (this.offset >= this.text.length) return false;
      if (this.text[this.offset] === '#') return true;
      this.past(this.offset);
    }
  }

  /** Behind the next semicolon outside strings and comments. */
  past(from: number): void {
    this.offset = from;
    while (this.offset < this.text.length) {
      this.blank();
      const c = this.text[this.offset++];
      if (c === ';') return;
      if (c !== "'") continue;
      const end = this.text.indexOf("'", this.offset);
      // A string that never ends: from here on nothing can be told apart.
      this.offset = end < 0 ? this.text.length : end + 1;
    }
  }

  instance(): { readonly id: number; readonly parts: readonly Typed[] } {
    const id = Number(this.taken(REF, 'a number behind #')!.slice(1));
    this.expect('=');
    const parts: Typed[] = [];
    if (this.accepts('(')) {
      while (!this.accepts(')')) parts.push(this.typed(1));
    } else parts.push(this.typed(1));
    this.expect(';');
    return { id, parts };
  }

  private typed(depth: number): Typed {
    const type = this.taken(NAME, 'a name').toUpperCase();
    this.expect('(');
    return { type, params: this.list(depth) };
  }

  private list(depth: number): Param[] {
    if (depth > MOST_DEPTH) throw new Unreadable(`its lists are more than ${MOST_DEPTH} deep`, this.offset);
    const params: Param[] = [];
    if (this.accepts(')')) return params;
    do params.push(this.param(depth));
    while (this.accepts(','));
    this.expect(')');
    return params;
  }

  private param(depth: number): Param {
    this.blank();
    const c = this.text[this.offset] ?? '';
    if (c === '$' || c === '*') {
      this.offset++;
      return null;
    }
    if (c === '(') {
      this.offset++;
      return this.list(depth + 1);
    }
    if (c === "'") return stringOf(this.taken(STRING, 'the end of a string'));
    if (c === '"') return this.taken(BINARY, 'hexadecimal digits') && null;
    const ref = this.maybe(REF);
    if (ref) return { ref: Number(ref.slice(1)) };
    if (c === '#' || c === '@' || c === '<') return this.taken(NAMED, 'a name') && null;
    const word = this.maybe(WORD);
    if (word) return { word: word.slice(1, -1).toUpperCase() };
    const number = this.maybe(NUMBER);
    if (number) return { n: Number(number), real: number.includes('.') };
    return this.typed(depth + 1);
  }

  private blank(): void {
    for (;;) {
      SPACE.lastIndex = this.offset;
      this.offset += SPACE.exec(this.text)?.[0].length ?? 0;
      if (!this.text.startsWith('/*', this.offset)) return;
      const end = this.text.indexOf('*/', this.offset + 2);
      this.offset = end < 0 ? this.text.length : end + 2;
    }
  }

  private maybe(pattern: RegExp): string | undefined {
    pattern.lastIndex = this.offset;
    const found = pattern.exec(this.text)?.[0];
    if (found) this.offset += found.length;
    return found;
  }

  private taken(pattern: RegExp, what: string): string {
    this.blank();
    const found = this.maybe(pattern);
    if (found === undefined) throw new Unreadable(`${what} is missing`, this.offset);
    return found;
  }

  private accepts(sign: string): boolean {
    this.blank();
    if (this.text[this.offset] !== sign) return false;
    this.offset++;
    return true;
  }

  private expect(sign: string): void {
    if (!this.accepts(sign)) throw new Unreadable(`\`${sign}\` is missing`, this.offset);
  }
}
