/**
 * The bricks all three document schemas are laid from. A field is a zod type, with notes of what a machinist wants to
 * know of it (`description`, `unit`, what it `names`, `fallback`, an `example`): hover, completion, the JSON Schemas and
 * the format page are all read from here, so nothing about the format is written twice.
 *
 * The schemas describe documents as written: a dimension is still its text (`22 H7`, `pitch / 2`), a number only where
 * YAML makes it one. Meaning (millimetres, names looked up) is given in `part.ts` and `shop.ts`.
 */
import * as z from 'zod/mini';

/** What a scalar may name; decides completion, go to definition and rename. */
export type NameKind =
  | 'feature'
  | 'parameter'
  | 'tool'
  | 'holder'
  | 'vise'
  | 'v-block'
  | 'angle-plate'
  | 'machine'
  | 'drill-press'
  | 'datum'
  | 'material'
  | 'thread'
  | 'clearance'
  | 'cap-screw'
  | 'flat-screw'
  | 'face'
  | 'cut'
  | 'zero'
  | 'rule'
  | 'screw'
  | 'pin'
  | 'bearing'
  | 'meeting'
  | 'height'
  | 'joint'
  | 'piece'
  | 'variant'
  | 'file';

/** `length` and `angle` scalars are dimensions, with units, arithmetic and tolerance; `number` is arithmetic without unit. */
export type UnitKind = 'length' | 'angle' | 'number';

export interface FieldMeta {
  readonly description: string;
  readonly unit?: UnitKind;
  readonly names?: NameKind;
  /** Of a map of names: what its keys name, and whether they stand there for the first time. */
  readonly keyNames?: NameKind;
  readonly defines?: boolean;
  /** A value as one would write it. */
  readonly example?: string;
  /** What holds when the field is left out. */
  readonly fallback?: string;
  /** Enum value → what it means. */
  readonly values?: Readonly<Record<string, string>>;
  /** Of a map: exactly one of each of these groups of keys is given. */
  readonly one?: readonly (readonly string[])[];
  /** Of a map: at least one of each of these groups of keys is given. */
  readonly some?: readonly (readonly string[])[];
  /** Name by which the format page calls it. */
  readonly title?: string;
}

/** What is noted of a schema beside what it takes. */
export const NOTES = z.registry<FieldMeta>();

export function noted<T extends z.core.$ZodType>(schema: T, notes: FieldMeta): T {
  NOTES.add(schema, notes as never);
  return schema;
}
export const optional = <T extends z.core.$ZodType>(schema: T) => z.optional(schema);

type More = Omit<FieldMeta, 'description'>;

/** How names of features, parameters, setups and tools are written. */
export const NAME = /^[a-z][a-z0-9-]*$/;

// No code is made at run time: it costs more than it saves for what is read once, and a page may forbid it.
z.config({ jitless: true });
// What is not noted is made once: each field makes but a choice of its own, which starts sooner.
const [STRING, NUMBER, BOOLEAN] = [z.string(), z.number(), z.boolean()];
const scalar = () => z.union([STRING, NUMBER]);

/** A length in the document's units, or with its own unit; arithmetic, parameters and a tolerance suffix are understood. */
export const length = (description: string, more: More = {}) =>
  noted(scalar(), { description, unit: 'length', ...more });
/** Degrees, bare or with `deg`. */
export const angle = (description: string, more: More = {}) => noted(scalar(), { description, unit: 'angle', ...more });
/** A number without unit; arithmetic and parameters are understood. */
export const number = (description: string, more: More = {}) =>
  noted(scalar(), { description, unit: 'number', ...more });
/** A quantity in a unit of its own that the dimension grammar does not cover: `1.1 kW`, `900 g`. */
export const quantity = (description: string, more: More = {}) => noted(scalar(), { description, ...more });
/** Free text; a number is taken as its text. */
export const text = (description: string, more: More = {}) =>
  noted(z.union([STRING, NUMBER, BOOLEAN]), { description, ...more });
/** Mentions something that is defined elsewhere. */
export const name = (names: NameKind, description: string, more: More = {}) =>
  noted(scalar(), { description, names, ...more });
/** One of a few words, each with its meaning. */
export const words = <const V extends Readonly<Record<string, string>>>(
  values: V,
  description: string,
  more: More = {},
) =>
  noted(z.enum(Object.keys(values) as [keyof V & string, ...(keyof V & string)[]]), { description, values, ...more });
/** A map with exactly these keys; any other is an error. */
export const map = <S extends z.core.$ZodLooseShape>(shape: S, description: string, more: More = {}) => {
  const groups = [...(more.one ?? []).map((g) => given(g, true)), ...(more.some ?? []).map((g) => given(g, false))];
  const made = z.strictObject(shape);
  return noted(groups.length > 0 ? made.check(...groups) : made, { description, ...more });
};
/** One of a group of keys is given, and no second where only one may be; asked whatever else is wrong with the map. */
const given = (group: readonly string[], only: boolean) =>
  z.refine<object>(
    (value) => {
      const count = group.filter((key) => key in value).length;
      return count === 1 || (count > 1 && !only);
    },
    { when: ({ value }) => typeof value === 'object' && value !== null },
  );
/** A map from names of the author's choice. */
export const named = <T extends z.core.$ZodType>(value: T, description: string, more: More = {}) =>
  noted(z.record(STRING, value), { description, ...more });
export const list = <T extends z.core.$ZodType>(item: T, description: string, more: More = {}) =>
  noted(z.array(item), { description, ...more });

const AXES = { x: 'to the right', y: 'to the back', z: 'up' } as const;
export const axis = (description: string, more: More = {}) => words(AXES, description, more);

export const FACE_WORDS = {
  left: 'x = 0',
  right: 'x = the body’s x',
  front: 'y = 0',
  back: 'y = the body’s y',
  bottom: 'z = 0',
  top: 'z = the body’s z',
} as const;
export const face = (description: string, more: More = {}) =>
  words(FACE_WORDS, description, { names: 'face', ...more });

const UNITS = { mm: 'millimetres', in: 'inches' } as const;
export const units = () =>
  words(UNITS, 'The unit of every bare length in this document.', { fallback: 'mm', example: 'mm' });

const STOCK_FORMS = {
  'flat-bar': 'rectangular bar, as drawn or extruded on its long faces',
  'square-bar': 'square bar',
  'round-bar': 'round bar',
  plate: 'cut from plate: the two large faces are as rolled',
  block: 'a block milled or sawn on all sides',
  tube: 'hollow bar: round with a `diameter`, else rectangular with its outside from the body',
  angle: 'bar of L section: two legs, as long as the body and `extra` say',
  channel: 'bar of U section: a web and two flanges, open on one side',
  tee: 'bar of T section: a flange, and a web in its middle',
} as const;
/** What lies on a rack. */
export const rackForm = (description: string, more: More = {}) => words(STOCK_FORMS, description, more);
export const stockForm = (description: string, more: More = {}) =>
  words(
    {
      ...STOCK_FORMS,
      blank: 'the finished body of another part, named by `from`',
      casting: 'cast to the body’s outline, with `allowance` outside each face',
    },
    description,
    more,
  );
