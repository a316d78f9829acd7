/** Fields that tools of several kinds have in common, as written. Words are ISO 13399's or a machinist's. */
import { z } from 'zod';
import { length, name, number, text, words } from '../schema/common';

const TOOL_MATERIALS = {
  hss: 'high-speed steel',
  cobalt: 'high-speed steel with cobalt',
  carbide: 'solid carbide, or carbide inserts',
} as const;

export const kind = <K extends string>(word: K, description: string) =>
  z.literal(word).meta({ description, values: { [word]: description } });
export const diameter = (description: string, example: string) => length(description, { example });
export const flutes = (fallback: string) =>
  number('Number of cutting edges.', { example: fallback, fallback }).optional();
export const fluteLength = (fallback: string) =>
  length('Length of the cutting edges, from the tip.', { example: '16', fallback }).optional();
export const reach = (fallback: string) =>
  length('From the tip to where something wider than the cut begins: shank, neck or collet.', {
    example: '18',
    fallback,
  }).optional();
export const shank = (fallback: string) => length('Diameter of the shank.', { example: '6', fallback }).optional();
export const neck = length('Diameter of the neck above the cutting head.', { example: '8' });

export const gripped = (fallback: 'hss' | 'carbide') => ({
  material: words(TOOL_MATERIALS, 'What its edges are made of.', { fallback }).optional(),
  holder: name('holder', 'The holder it sits in.', {
    example: 'er20-short',
    fallback: 'none: access to it is not judged',
  }).optional(),
  stickout: length('How far it stands out of the holder.', {
    example: '24',
    fallback: 'what the cut needs',
  }).optional(),
  'largest-speed': number('Turns a minute that it bears, as its maker marks it.', {
    example: '1000',
    fallback: 'what the spindle turns; 1000 for a boring head (common practice, no source)',
  }).optional(),
  note: text('A remark: where it lies, what it is kept for.').optional(),
});

/** Of what cuts with teeth on its way along. */
export const toothed = {
  'feed-per-tooth': length(
    'Feed that one tooth takes, by its maker or this shop; fed no more than that in any material.',
    { example: '0.03', fallback: 'by material, size and kind of edge, from the tables' },
  ).optional(),
};
