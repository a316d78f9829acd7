/** A job document as written: what is to be made, and within what. */
import { length, map, name, named, number, optional, quantity, text, units } from './common';
import { joints } from './joints';

export const jobPart = map(
  {
    spec: name('file', 'The part file, from this file’s folder.', { example: 'parts/yoke.part.yaml' }),
    variant: optional(
      name('variant', 'Which row of that part’s table of variants it is.', {
        example: 'short',
        fallback: 'the part as its parameters say',
      }),
    ),
    quantity: optional(number('How many of it.', { example: '2', fallback: 'the part’s own quantity, or 1' })),
    note: optional(text('A remark.')),
  },
  'One part of the job.',
  { example: '{ spec: parts/yoke.part.yaml, quantity: 2 }' },
);

export const jobSchema = map(
  {
    job: text('Name of the job.', { example: 'gimbal flight set' }),
    units: optional(units()),
    shop: optional(
      name('file', 'The shop file, from this file’s folder.', {
        example: 'campus.shop.yaml',
        fallback: 'each part’s own shop',
      }),
    ),
    parts: named(jobPart, 'What is to be made, by name.', {
      example: '{ yoke: { spec: parts/yoke.part.yaml, quantity: 2 } }',
      keyNames: 'piece',
      defines: true,
    }),
    parameters: optional(
      named(
        quantity('A length, an angle or a number; may use others of this job.', { example: '36 mm', unit: 'length' }),
        'Values that parts of this job share: each part with a parameter of this name has this value.',
        { keyNames: 'parameter', defines: true, example: '{ bolt-circle: 30 mm }' },
      ),
    ),
    joints: optional(joints),
    'mass-limit': optional(
      quantity('What all of it together may weigh: in g, kg, oz or lb.', {
        example: '900 g',
        fallback: 'none',
      }),
    ),
    hours: optional(quantity('Machine hours there are.', { example: '12', fallback: 'no limit' })),
    evening: optional(
      quantity('Machine time of one evening. The set-ups are put in an order that needs the fewest evenings.', {
        example: '3 h',
        fallback: 'no limit',
      }),
    ),
    'saw-kerf': optional(length('Width that the saw cuts away at each cut.', { example: '2', fallback: '2 mm' })),
    'saw-clamp': optional(
      length('The end of a bar that the saw holds: no piece comes out of it.', {
        example: '40',
        fallback: '0: the rest is turned round, or held by the last piece',
      }),
    ),
    'saw-trim': optional(
      length('What is sawn off the first end of each bar, the kerf included.', {
        example: '5',
        fallback: '0: the end is used as bought',
      }),
    ),
    note: optional(text('A remark.')),
  },
  'A job: parts and quantities, a mass limit, the hours there are.',
  { title: 'Job' },
);
