/**
 * A zod schema seen as what a document may hold at a place: a map of known keys, a map of the author's names, a list, a
 * scalar, or a choice of these. Judging a text, completion, hover and the format page all walk this form, each schema
 * being looked into once.
 */

import type { z } from 'zod';
import { memo } from '../../memo';
import type { FieldMeta } from './common';

/** As zod hands it back: any of it may be left out, or be there as nothing. */
type ShapeMeta = { readonly [K in keyof FieldMeta]?: FieldMeta[K] | undefined };
export interface KeyShape {
  readonly shape: Shape;
  readonly required: boolean;
}
export type Shape =
  | {
      readonly type: 'scalar';
      readonly meta: ShapeMeta;
      /** Only these words. */
      readonly words?: readonly string[];
      readonly string: boolean;
      readonly number: boolean;
      readonly boolean: boolean;
    }
  | { readonly type: 'map'; readonly meta: ShapeMeta; readonly keys: ReadonlyMap<string, KeyShape> }
  | { readonly type: 'record'; readonly meta: ShapeMeta; readonly value: Shape }
  | { readonly type: 'list'; readonly meta: ShapeMeta; readonly item: Shape }
  | { readonly type: 'choice'; readonly meta: ShapeMeta; readonly options: readonly Shape[]; readonly by?: string };

// zod's public types say little about a schema's insides; this is the part of them that is read here.
interface Def {
  readonly type: string;
  readonly shape?: Record<string, z.ZodType>;
  readonly innerType?: z.ZodType;
  readonly element?: z.ZodType;
  readonly valueType?: z.ZodType;
  readonly options?: readonly z.ZodType[];
  readonly discriminator?: string;
  readonly entries?: Record<string, string>;
  readonly values?: readonly unknown[];
}

export const shapeOf = memo(make);

function make(schema: z.ZodType): Shape {
  const def = schema.def as unknown as Def;
  const meta: ShapeMeta = schema.meta() ?? {};
  switch (def.type) {
    case 'optional':
      return shapeOf(def.innerType!);
    case 'object': {
      const keys = new Map<string, KeyShape>();
      for (const [key, field] of Object.entries(def.shape!)) {
        keys.set(key, { shape: shapeOf(field), required: (field.def as unknown as Def).type !== 'optional' });
      }
      return { type: 'map', meta, keys };
    }
    case 'record':
      return { type: 'record', meta, value: shapeOf(def.valueType!) };
    case 'array':
      return { type: 'list', meta, item: shapeOf(def.element!) };
    case 'enum':
      return scalar(meta, ['string'], Object.keys(def.entries!));
    case 'literal':
      return scalar(meta, ['string'], def.values!.map(String));
    case 'union': {
      const options = def.options!.map(shapeOf);
      const scalars = options.filter((o) => o.type === 'scalar');
      if (scalars.length === options.length && !scalars.some((o) => o.words)) {
        return scalar(
          meta,
          def.options!.map((o) => (o.def as unknown as Def).type),
        );
      }
      return { type: 'choice', meta, options, ...(def.discriminator && { by: def.discriminator }) };
    }
    case 'string':
    case 'number':
    case 'boolean':
      return scalar(meta, [def.type]);
    default:
      throw new Error(`A schema of type ${def.type} has no shape`);
  }
}

function scalar(meta: ShapeMeta, types: readonly string[], words?: readonly string[]): Shape {
  const has = (type: string) => types.includes(type);
  const kinds = { string: has('string'), number: has('number'), boolean: has('boolean') };
  return { type: 'scalar', meta, ...(words && { words }), ...kinds };
}
