/** Places beside the mill where holes are made: drill presses, and the bench with its hand tools, as written. */
import { angle, length, list, map, number, optional, quantity, text } from './common';

/** What is usual where nothing is said. Common practice, no source: marked out with a height gauge, punched, drilled in a vise. */
export const USUAL_PRESS = { placeMm: 0.3, leanDeg: 0.3, powerW: 500 } as const;
/** A tap or hand reamer started by eye, looked at along a square. Common practice, no source. */
export const USUAL_BENCH = { leanDeg: 1 } as const;

export const drillPress = map(
  {
    largest: length('Largest drill that its chuck takes.', { example: '13' }),
    throat: length('From the middle of the spindle to the column.', { example: '150' }),
    opening: length('From the chuck down to the table, at its lowest.', { example: '350' }),
    stroke: length('How far the spindle goes down.', { example: '80' }),
    rpm: list(number('Speed of the spindle, in rpm.'), 'The speeds it has.', {
      example: '[500, 850, 1400, 2000, 2600]',
    }),
    power: optional(quantity('Power at the spindle, in kW, W, hp or PS.', { example: '0.5 kW', fallback: '0.5 kW' })),
    'place-error': optional(
      length('± by which a hole that was marked out and punched is beside its place.', {
        example: '0.3',
        fallback: `rule of thumb: ${USUAL_PRESS.placeMm} mm`,
      }),
    ),
    lean: optional(
      angle('By how much a hole is out of square.', {
        example: '0.3',
        fallback: `rule of thumb: ${USUAL_PRESS.leanDeg}°`,
      }),
    ),
    note: optional(text('A remark.')),
  },
  'A drill press: it drills, reams, countersinks and counterbores, and starts taps square.',
  { example: '{ largest: 13, throat: 150, opening: 350, stroke: 80, rpm: [500, 850, 1400, 2000, 2600] }' },
);

export const bench = map(
  {
    'largest-tap': optional(
      length('Largest thread that is tapped by hand, by its diameter.', { example: '12', fallback: 'any' }),
    ),
    'largest-reamer': optional(
      length('Largest hole that is reamed by hand.', { example: '12', fallback: 'no hand reamers are there' }),
    ),
    lean: optional(
      angle('By how much a tap or reamer that is started by hand is out of square.', {
        example: '1',
        fallback: `rule of thumb: ${USUAL_BENCH.leanDeg}°`,
      }),
    ),
    note: optional(text('A remark.')),
  },
  'The bench: a vise, tap wrenches and hand reamers.',
  { example: '{ largest-tap: 12, largest-reamer: 10 }' },
);
