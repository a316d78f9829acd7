/** A record as written: what was measured and what it took, beside the part it belongs to. */
import { USUAL_TIMES } from '../shop-times';
import { length, list, map, name, number, optional, quantity, text, units, words } from './common';

export const measured = map(
  {
    piece: optional(number('Which piece of the batch.', { example: '1' })),
    of: optional(name('feature', 'The feature; left out for a size of the body.', { example: 'bearing-seat' })),
    size: text('Which of its sizes: as its tolerance is written, `diameter`, `width`, `depth`, `x`.', {
      example: 'diameter',
    }),
    value: length('The size as measured.', { example: '22.012' }),
    tool: optional(name('tool', 'What cut it to size, by its name in the shop.', { example: 'bore' })),
    speed: optional(number('Speed of the spindle, in rpm.', { example: '900' })),
    mark: optional(text('The mark at the foot of the sheet that it was made by.', { example: '570a9bea' })),
    note: optional(text('A remark.')),
  },
  'One size of one piece.',
  { example: '{ piece: 1, of: bearing-seat, size: diameter, value: 22.012, tool: bore }' },
);

const TIMES = Object.fromEntries(Object.entries(USUAL_TIMES).map(([name, { what }]) => [name, what])) as Readonly<
  Record<keyof typeof USUAL_TIMES, string>
>;

export const spent = map(
  {
    what: words(TIMES, 'What the time went into, as under `times:` of a shop.'),
    took: quantity('How long it took: in min, s or h; a bare number is minutes.', { example: '12 min' }),
    note: optional(text('A remark.')),
  },
  'What something took by hand.',
  { example: '{ what: load, took: 2.5 min }' },
);

export const recordSchema = map(
  {
    record: name('file', 'The part file, from this file’s folder.', { example: 'bearing-block.part.yaml' }),
    units: optional(units()),
    measured: optional(list(measured, 'Sizes as they came out.')),
    times: optional(list(spent, 'Minutes as they were.')),
    changed: optional(list(text('In a sentence.'), 'What was changed at the machine.')),
    note: optional(text('A remark.')),
  },
  'A record: what a part’s pieces measured, and what they took.',
  { title: 'Record' },
);
