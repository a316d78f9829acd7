/** A job document as written: what is to be made, and within what. */
import { length, map, name, named, number, quantity, text, units } from './common';

export const jobPart = map(
  {
    spec: name('file', 'The part file, from this file’s folder.', { example: 'parts/yoke.part.yaml' }),
    quantity: number('How many of it.', { example: '2', fallback: 'the part’s own quantity, or 1' }).optional(),
    note: text('A remark.').optional(),
  },
  'One part of the job.',
  { example: '{ spec: parts/yoke.part.yaml, quantity: 2 }' },
);

export const jobSchema = map(
  {
    job: text('Name of the job.', { example: 'gimbal flight set' }),
    units: units().optional(),
    shop: name('file', 'The shop file, from this file’s folder.', {
      example: 'campus.shop.yaml',
      fallback: 'each part’s own shop',
    }).optional(),
    parts: named(jobPart, 'What is to be made, by name.', {
      example: '{ yoke: { spec: parts/yoke.part.yaml, quantity: 2 } }',
    }),
    'mass-limit': quantity('What all of it together may weigh: in g, kg, oz or lb.', {
      example: '900 g',
      fallback: 'none',
    }).optional(),
    hours: quantity('Machine hours there are.', { example: '12', fallback: 'no limit' }).optional(),
    evening: quantity('Machine time of one evening: its set-ups are put in an order in which the fewest evenings do.', {
      example: '3 h',
      fallback: 'no limit',
    }).optional(),
    'saw-kerf': length('What the saw turns into chips at each cut.', { example: '2', fallback: '2 mm' }).optional(),
    'saw-clamp': length('The end of a bar that the saw holds: no piece comes out of it.', {
      example: '40',
      fallback: '0: the rest is turned round, or held by the last piece',
    }).optional(),
    'saw-trim': length('What is sawn off the first end of each bar, the kerf included.', {
      example: '5',
      fallback: '0: the end will do as it was bought',
    }).optional(),
    note: text('A remark.').optional(),
  },
  'A job: parts and quantities, a mass limit, the hours there are.',
  { title: 'Job' },
);
