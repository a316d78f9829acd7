/** Fields that tools of several kinds have in common, as written. Words are ISO 13399's or a machinist's. */
import * as z from 'zod/mini';
import { length, name, noted, number, optional, text, words } from '../schema/common';

const TOOL_MATERIALS = {
  hss: 'high-speed steel',
  cobalt: 'high-speed steel with cobalt',
  carbide: 'solid carbide, or carbide inserts',
} as const;

export const kind = <K extends string>(word: K, description: string) =>
  noted(z.literal(word), { description, values: { [word]: description } });
export const diameter = (description: string, example: string) => length(description, { example });
export const flutes = (fallback: string) =>
  optional(number('Number of cutting edges.', { example: fallback, fallback }));
export const fluteLength = (fallback: string) =>
  optional(length('Length of the cutting edges, from the tip.', { example: '16', fallback }));
export const reach = (fallback: string) =>
  optional(
    length('From the tip to where something wider than the cut begins: shank, neck or collet.', {
      example: '18',
      fallback,
    }),
  );
export const shank = (fallback: string) => optional(length('Diameter of the shank.', { example: '6', fallback }));
export const neck = length('Diameter of the neck above the cutting head.', { example: '8' });

export const gripped = (fallback: 'hss' | 'carbide') => ({
  material: optional(words(TOOL_MATERIALS, 'What its edges are made of.', { fallback })),
  holder: optional(
    name('holder', 'The holder it sits in.', {
      example: 'er20-short',
      fallback: 'none: access to it is not checked',
    }),
  ),
  stickout: optional(
    length('Stick-out: its length out of the holder.', {
      example: '24',
      fallback: 'what the cut needs',
    }),
  ),
  'largest-speed': optional(
    number('Highest speed in rpm, as its maker marks it.', {
      example: '1000',
      fallback: 'what the spindle turns; 1000 for a boring head (rule of thumb)',
    }),
  ),
  note: optional(text('A remark: where it is, what it is kept for.')),
});

/** Of what cuts with teeth on its way along. */
export const toothed = {
  'feed-per-tooth': optional(
    length('Feed for each tooth, by its maker or this shop. It is the most in any material.', {
      example: '0.03',
      fallback: 'by material, size and kind of edge, from the tables',
    }),
  ),
};
