/**
 * What the bundles have in zod's place. The doors never let zod judge a value: they only look into its schemas
 * (`shape.ts`), and zod's own code is a quarter of a bundle and a good part of the time until it answers. Here are just
 * the builders that this folder uses, and of what they build just what `shape.ts` reads. Tests hold both to the same
 * shapes; the generator and the tests use zod itself.
 */

type Def = { readonly type: string } & Readonly<Record<string, unknown>>;
type Meta = Readonly<Record<string, unknown>>;

class Plain {
  readonly def: Def;
  readonly #meta: Meta | undefined;

  constructor(def: Def, meta?: Meta) {
    this.def = def;
    this.#meta = meta;
  }

  /** Without notes: those it has. With some: the same schema with them beside the ones it has. */
  meta(): Meta | undefined;
  meta(more: Meta): Plain;
  meta(more?: Meta): Plain | Meta | undefined {
    return more === undefined ? this.#meta : new Plain(this.def, { ...this.#meta, ...more });
  }

  optional(): Plain {
    return new Plain({ type: 'optional', innerType: this });
  }

  get shape(): unknown {
    return this.def.shape;
  }
}

export const z = {
  string: () => new Plain({ type: 'string' }),
  number: () => new Plain({ type: 'number' }),
  boolean: () => new Plain({ type: 'boolean' }),
  literal: (word: unknown) => new Plain({ type: 'literal', values: [word] }),
  enum: (words: readonly string[]) =>
    new Plain({ type: 'enum', entries: Object.fromEntries(words.map((word) => [word, word])) }),
  union: (options: readonly Plain[]) => new Plain({ type: 'union', options }),
  discriminatedUnion: (discriminator: string, options: readonly Plain[]) =>
    new Plain({ type: 'union', discriminator, options }),
  array: (element: Plain) => new Plain({ type: 'array', element }),
  record: (keyType: Plain, valueType: Plain) => new Plain({ type: 'record', keyType, valueType }),
  strictObject: (shape: Readonly<Record<string, Plain>>) => new Plain({ type: 'object', shape }),
};
