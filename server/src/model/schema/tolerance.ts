/** A geometric tolerance or a toleranced distance, as written. */
import * as z from 'zod/mini';
import { axis, length, list, map, name, noted, optional, text, words } from './common';

const CHARACTERISTICS = {
  position: 'centre or axis within a zone about its true place',
  straightness: 'a line between two parallel lines, or an axis within a zone',
  flatness: 'a face between two parallel planes',
  circularity: 'each cross-section between two circles about one centre',
  cylindricity: 'a round surface between two cylinders about one axis',
  parallelism: 'parallel to the datum within a zone',
  perpendicularity: 'square to the datum within a zone',
  angularity: 'at its angle to the datum within a zone',
  concentricity: 'centre on the datum’s axis within a zone',
  symmetry: 'centre plane on the datum’s within a zone',
  profile: 'outline within a band about the true one',
  runout: 'swing against an indicator when turned about the datum',
  'total-runout': 'swing of the whole surface, the indicator led along it',
} as const;
const DISTANCE = 'A toleranced distance between two features or faces: `of: [a, b]`, `axis: x`.';

const zones = Object.fromEntries(
  Object.entries(CHARACTERISTICS).map(([word, meaning]) => [
    word,
    optional(length(`Width of the zone: ${meaning}.`, { example: '0.1' })),
  ]),
) as Record<keyof typeof CHARACTERISTICS, z.ZodMiniOptional<ReturnType<typeof length>>>;
export const CHARACTERISTIC_WORDS = [...Object.keys(CHARACTERISTICS), 'distance'];

export const tolerance = map(
  {
    ...zones,
    distance: optional(length(DISTANCE, { example: '36 ±0.02' })),
    of: noted(
      z.union([
        name('cut', 'A feature or face.', { example: 'mount' }),
        list(name('cut', 'A feature or face.'), 'Several features or faces; for `distance`, the two.'),
      ]),
      { description: 'The feature or face it is about; two for `distance`.', names: 'cut', example: 'mount' },
    ),
    datums: optional(
      list(name('datum', 'A datum letter.', { example: 'A' }), 'Datum letters, in order.', {
        example: '[A, B, C]',
      }),
    ),
    'material-condition': optional(
      words(
        { 'maximum-material': 'the zone grows as the feature leaves its maximum material size' },
        'Material condition, where one applies.',
      ),
    ),
    projected: optional(
      length(
        'Projected zone: it stands so far out of the part, where the screw or pin is. Of `position` and `perpendicularity`.',
        {
          example: '12',
        },
      ),
    ),
    zone: optional(
      words({ common: 'one zone for all that it is of together' }, 'Common zone.', {
        fallback: 'each has a zone of its own',
      }),
    ),
    between: optional(
      list(name('cut', 'A face or feature.'), 'Of a `profile`: only between these two.', { example: '[left, right]' }),
    ),
    axis: optional(
      axis('Along which part axis a distance counts.', { fallback: 'the one along which its two ends are apart' }),
    ),
    note: optional(text('A remark.')),
  },
  'One geometric tolerance (ISO 1101, ASME Y14.5), with the characteristic as key.',
  { one: [CHARACTERISTIC_WORDS], example: '{ position: 0.1, of: mount, datums: [A, B, C] }' },
);
