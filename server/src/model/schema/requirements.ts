/** What is asked of the whole part besides its sizes, as it stands in a drawing's notes. */
import { length, list, map, name, optional, text, words } from './common';

export const COATINGS = {
  anodised: 'anodised: grows out by half its thickness, and in by the other half',
  'hard-anodised': 'hard anodised: grows out by half its thickness, and in by the other half',
  'electroless-nickel': 'nickel without current: grows out by its thickness',
  zinc: 'zinc: grows out by its thickness',
  chrome: 'hard chrome: grows out by its thickness',
  paint: 'paint or powder: grows out by its thickness',
  'black-oxide': 'black oxide: adds next to nothing',
  chromate: 'chromate conversion: adds next to nothing',
} as const;

const coating = map(
  {
    kind: words(COATINGS, 'What it is coated with.'),
    thickness: optional(
      length('Thickness of the coat, with its tolerance where it has one.', {
        example: '0.015 ±0.005',
        fallback: '0 for what adds next to nothing; else it is needed',
      }),
    ),
    masked: optional(
      list(name('cut', 'A feature or face.'), 'Features and faces that are kept free of it.', {
        example: '[mount, top]',
      }),
    ),
  },
  'Its coat. Sizes and threads in the text are those of the coated part.',
  { example: '{ kind: anodised, thickness: 0.015, masked: [mount] }' },
);

export const requirements = {
  treatment: optional(
    text('Heat treatment, as it is to be written on the drawing.', { example: 'hardened and tempered, 58 to 62 HRC' }),
  ),
  coating: optional(coating),
  deburr: optional(
    map(
      {
        outside: optional(length('Outside edges without a size: how much may be missing.', { example: '0.3' })),
        inside: optional(length('Inside edges without a size: how much may be left.', { example: '0.2' })),
      },
      'Edges without a size of their own (ISO 13715).',
      { some: [['outside', 'inside']], example: '{ outside: 0.3, inside: 0.2 }', fallback: 'no burrs' },
    ),
  ),
  notes: optional(
    list(text('One note.'), 'Notes for the drawing and the set-up sheet.', { example: '[mark with the number]' }),
  ),
};
