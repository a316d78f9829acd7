/**
 * A zod schema seen as what a document may hold at a place: a map of known keys, a map of the author's names, a list, a
 * scalar, or a choice of these. Judging a text, completion, hover and the format page all walk this form, each schema
 * being looked into once.
 */

import type * as z from 'zod/mini';
import { memo } from '../../memo';
import { type FieldMeta, NOTES } from './common';

/** As zod hands it back: any of it may be left out, or be there as nothing. */
type ShapeMeta = { readonly [K in keyof FieldMeta]?: FieldMeta[K] | undefined };
export interface KeyShape {
  readonly shape: Shape;
  readonly required: boolean;
}
interface ShapeBase {
  /** Says of a value whether it is one. */
  readonly schema: z.core.$ZodType;
  readonly meta: ShapeMeta;
}
interface ScalarShape extends ShapeBase {
  readonly type: 'scalar';
  /** Only these words. */
  readonly words?: readonly string[];
  readonly string: boolean;
  readonly number: boolean;
  readonly boolean: boolean;
}
export interface MapShape extends ShapeBase {
  readonly type: 'map';
  readonly keys: ReadonlyMap<string, KeyShape>;
}
export type Shape =
  | ScalarShape
  | MapShape
  | (ShapeBase & { readonly type: 'record'; readonly value: Shape })
  | (ShapeBase & { readonly type: 'list'; readonly item: Shape })
  | (ShapeBase & { readonly type: 'choice'; readonly options: readonly Shape[]; readonly by?: string });

/** The builders that the bricks are made with (`common.ts`). */
type Brick =
  | z.core.$ZodString
  | z.core.$ZodNumber
  | z.core.$ZodBoolean
  | z.core.$ZodLiteral
  | z.core.$ZodEnum
  | z.core.$ZodUnion
  | z.core.$ZodDiscriminatedUnion
  | z.core.$ZodArray
  | z.core.$ZodRecord
  | z.core.$ZodObject
  | z.core.$ZodOptional;

export const shapeOf = memo(make);

function make(schema: z.core.$ZodType): Shape {
  const { def } = (schema as Brick)._zod;
  const meta: ShapeMeta = NOTES.get(schema) ?? {};
  switch (def.type) {
    case 'optional':
      return shapeOf(def.innerType);
    case 'object': {
      const keys = new Map<string, KeyShape>();
      for (const [key, field] of Object.entries(def.shape)) {
        keys.set(key, { shape: shapeOf(field), required: field._zod.def.type !== 'optional' });
      }
      return { type: 'map', schema, meta, keys };
    }
    case 'record':
      return { type: 'record', schema, meta, value: shapeOf(def.valueType) };
    case 'array':
      return { type: 'list', schema, meta, item: shapeOf(def.element) };
    case 'enum':
      return scalar(schema, ['string'], Object.keys(def.entries));
    case 'literal':
      return scalar(schema, ['string'], def.values.map(String));
    case 'union': {
      const options = def.options.map(shapeOf);
      const scalars = options.filter((o) => o.type === 'scalar');
      if (scalars.length === options.length && !scalars.some((o) => o.words)) {
        return scalar(
          schema,
          def.options.map((o) => o._zod.def.type),
        );
      }
      const by = 'discriminator' in def ? { by: String(def.discriminator) } : {};
      return { type: 'choice', schema, meta, options, ...by };
    }
    case 'string':
    case 'number':
    case 'boolean':
      return scalar(schema, [def.type]);
    default:
      throw new Error(`A schema of type ${(def satisfies never as z.core.$ZodTypeDef).type} has no shape`);
  }
}

function scalar(schema: z.core.$ZodType, types: readonly string[], words?: readonly string[]): Shape {
  const has = (type: string) => types.includes(type);
  const kinds = { string: has('string'), number: has('number'), boolean: has('boolean') };
  return { type: 'scalar', schema, meta: NOTES.get(schema) ?? {}, ...(words && { words }), ...kinds };
}
