/** A material of a shop's own, as written. */
import { list, map, name, number, optional, text } from './common';

const speed = (what: string) =>
  optional(list(number('Surface speed, m/min.'), what, { example: '[150, 300]', fallback: 'as `like`' }));
const as = { fallback: 'as `like`' };

export const ownMaterial = map(
  {
    like: name('material', 'A material of the tables that it is cut like. What is left out here is that one’s.', {
      example: 'aluminium-7075-t6',
    }),
    title: optional(text('What it is called on papers.', { example: 'EN AW-7022 T651', fallback: 'its name' })),
    density: optional(number('Density, g/cm³.', { example: '2.76', ...as })),
    stiffness: optional(number('Young’s modulus, GPa.', { example: '71', ...as })),
    yield: optional(number('Yield strength or 0.2 % proof stress, N/mm².', { example: '460', ...as })),
    strength: optional(number('Tensile strength, N/mm².', { example: '540', ...as })),
    'kc1.1': optional(
      number('Specific cutting force of a chip of 1 by 1 mm, N/mm²: kc = kc1.1 · h^-mc.', { example: '800', ...as }),
    ),
    mc: optional(number('How the specific cutting force falls with the chip’s thickness.', { example: '0.25', ...as })),
    'speed-hss': speed('Slow and fast surface speed of mills in high-speed steel, m/min. Drills go by `like`.'),
    'speed-carbide': speed('Slow and fast surface speed of mills in carbide, m/min.'),
    caution: optional(text('What can hurt, for whoever cuts it.', as)),
    source: optional(text('Where the values are from.', { example: 'certificate of the bar' })),
    note: optional(text('A remark.')),
  },
  'A material that the tables do not have, or have otherwise.',
  { example: '{ like: aluminium-7075-t6, density: 2.76, yield: 460, strength: 540 }' },
);
