/**
 * A small reader of ISO 10303-21 exchange files for the tests, written from the standard's grammar (ISO 10303-21:2016, clauses 6 to
 * 10) and sharing nothing with the writer: header and entities as plain values.
 */

/** An entity's name. */
export interface Ref {
  readonly ref: number;
}
/** `.TRUE.` → { enum: 'TRUE' } */
interface Enumeration {
  readonly enum: string;
}
/** `LENGTH_MEASURE(1.)` */
export interface Typed {
  readonly kind: string;
  readonly args: readonly Value[];
}
export type Value = number | string | null | '*' | Ref | Enumeration | Typed | readonly Value[];

export interface Entity {
  readonly id: number;
  /** One part for a simple entity, several for a complex one. */
  readonly parts: readonly Typed[];
}

export interface ExchangeFile {
  readonly header: ReadonlyMap<string, readonly Value[]>;
  readonly entities: ReadonlyMap<number, Entity>;
}

export function readExchangeFile(text: string): ExchangeFile {
  const at = new Cursor(text);
  at.expect('ISO-10303-21;');
  at.expect('HEADER;');
  const header = new Map<string, readonly Value[]>();
  while (!at.accepts('ENDSEC;')) {
    const { kind, args } = at.typed();
    header.set(kind, args);
    at.expect(';');
  }
  at.expect('DATA;');
  const entities = new Map<number, Entity>();
  while (!at.accepts('ENDSEC;')) {
    const id = at.reference();
    if (entities.has(id)) throw new Error(`#${id} stands twice`);
    at.expect('=');
    const parts: Typed[] = [];
    if (at.accepts('(')) {
      while (!at.accepts(')')) parts.push(at.typed());
    } else parts.push(at.typed());
    at.expect(';');
    entities.set(id, { id, parts });
  }
  at.expect('END-ISO-10303-21;');
  return { header, entities };
}

class Cursor {
  #at = 0;
  constructor(private readonly text: string) {}

  #skip(): void {
    const blank = /(?:\s|\/\*[\s\S]*?\*\/)*/y;
    blank.lastIndex = this.#at;
    this.#at += blank.exec(this.text)![0].length;
  }

  accepts(word: string): boolean {
    this.#skip();
    if (!this.text.startsWith(word, this.#at)) return false;
    this.#at += word.length;
    return true;
  }

  expect(word: string): void {
    if (!this.accepts(word))
      throw new Error(`${word} expected at …${this.text.slice(Math.max(0, this.#at - 40), this.#at + 40)}…`);
  }

  #token(pattern: RegExp): string {
    this.#skip();
    pattern.lastIndex = this.#at;
    const found = pattern.exec(this.text);
    if (!found) throw new Error(`unreadable at …${this.text.slice(this.#at, this.#at + 40)}…`);
    this.#at += found[0].length;
    return found[0];
  }

  reference(): number {
    return Number(this.#token(/#\d+/y).slice(1));
  }

  typed(): Typed {
    const kind = this.#token(/[A-Z_][A-Z0-9_]*/y);
    this.expect('(');
    return { kind, args: this.#list() };
  }

  /** After the opening bracket, up to and with the closing one. */
  #list(): Value[] {
    const values: Value[] = [];
    if (this.accepts(')')) return values;
    do values.push(this.#value());
    while (this.accepts(','));
    this.expect(')');
    return values;
  }

  #value(): Value {
    this.#skip();
    const next = this.text[this.#at]!;
    if (next === '$') return this.accepts('$') ? null : null;
    if (next === '*') return this.accepts('*') ? '*' : '*';
    if (next === '#') return { ref: this.reference() };
    if (next === "'") return decoded(this.#token(/'(?:[^']|'')*'/y));
    if (next === '.') return { enum: this.#token(/\.[A-Z0-9_]+\./y).slice(1, -1) };
    if (next === '(') return this.accepts('(') ? this.#list() : [];
    if (/[A-Z]/.test(next)) return this.typed();
    return Number(this.#token(/[-+]?\d+(?:\.\d*(?:E[-+]?\d+)?)?/y));
  }
}

function decoded(token: string): string {
  return token
    .slice(1, -1)
    .replaceAll('\n', '')
    .replaceAll("''", "'")
    .replaceAll(/\\X2\\([0-9A-F]*)\\X0\\/g, (_, hex: string) =>
      hex.replaceAll(/.{4}/g, (h) => String.fromCharCode(Number.parseInt(h, 16))),
    )
    .replaceAll(/\\X4\\([0-9A-F]*)\\X0\\/g, (_, hex: string) =>
      hex.replaceAll(/.{8}/g, (h) => String.fromCodePoint(Number.parseInt(h, 16))),
    )
    .replaceAll('\\\\', '\\');
}
