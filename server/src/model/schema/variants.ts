/** The table of sizes that one part comes in. */
import { named, optional, quantity } from './common';

export const variants = optional(
  named(
    named(
      quantity('The value that this parameter has in it.', { example: '40', unit: 'length' }),
      'Parameters that have another value in it.',
      {
        keyNames: 'parameter',
        example: '{ length: 40 }',
      },
    ),
    'The part in more sizes, by name: each row is checked, printed and exported as a part of its own.',
    { example: '{ short: { length: 40 }, long: { length: 60 } }' },
  ),
);
