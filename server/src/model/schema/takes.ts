/** What a router or a small machine takes. */
import type { MaterialFamily } from '../../tables/materials.data';
import { list, optional, words } from './common';

/** Families of materials, as the tables group them. */
const TAKEN = {
  plastic: 'plastics',
  composite: 'boards of glass or carbon fibre',
  aluminium: 'aluminium alloys',
  magnesium: 'magnesium alloys',
  copper: 'copper, brass and bronze',
  'cast-iron': 'cast iron',
  steel: 'steels',
  stainless: 'stainless steels',
  titanium: 'titanium alloys',
} as const satisfies Record<MaterialFamily, string>;

export const takes = optional(
  list(words(TAKEN, 'A family of materials.'), 'The materials it takes, of a router or a small machine.', {
    example: '[plastic, aluminium]',
    fallback: 'every material',
  }),
);
