/** Fields that features of several kinds have in common, as written. */
import * as z from 'zod/mini';
import { angle, face, length, name, noted, number, optional, text } from '../schema/common';
import { position, size, tilt } from '../schema/places';

export const what = {
  note: optional(text('A remark for whoever makes it; printed on the set-up sheet.')),
  finish: optional(number('Surface finish wanted, Ra in µm.', { example: '1.6' })),
};
export const where = {
  face: optional(face('The face it is cut from. Left out where `from` names a feature: then that feature’s face.')),
  from: optional(
    name('feature', 'Starts on the floor of this feature; depth counts from there.', {
      example: 'bearing-seat',
      fallback: 'the face itself',
    }),
  ),
  tilt: optional(tilt),
};
export const kind = <K extends string>(word: K, description: string) =>
  noted(z.literal(word), { description, values: { [word]: description } });
export const at = (description: string) => optional(position(description));
export const CENTRE = 'Where its centre is, in part axes or by distance from faces.';
export const SHIFT = 'Shifts everything drawn for this feature. Left out: the corners are where they are given.';
export const floorRadius = optional(
  length('Fillet between wall and floor: needs a bull-nose or ball cutter.', {
    example: '1',
    fallback: '0, a sharp floor',
  }),
);
const cornerRadius = optional(
  length('Radius of the four corners; a round cutter leaves one.', {
    example: '3.5',
    fallback: '0, square corners',
  }),
);
const rotate = optional(
  angle('Turned about its own centre, counter-clockwise as drawn in the two part axes.', {
    example: '30',
    fallback: '0',
  }),
);
export const circle = (what: string) => optional(length(`Diameter of ${what}.`, { example: '20' }));

export const outline = { size: optional(size), 'corner-radius': cornerRadius, rotate };
