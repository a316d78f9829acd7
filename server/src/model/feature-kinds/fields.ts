/** Fields that features of several kinds have in common, as written. */
import { z } from 'zod';
import { angle, face, length, name, number, text } from '../schema/common';
import { position, size, tilt } from '../schema/places';

export const what = {
  note: text('A remark for whoever makes it; goes on the setup sheet.').optional(),
  finish: number('Surface finish wanted, Ra in µm.', { example: '1.6' }).optional(),
};
export const where = {
  face: face('The face it is cut from. Left out where `from` names a feature: then that feature’s face.').optional(),
  from: name('feature', 'Starts on the floor of this feature; depth counts from there.', {
    example: 'bearing-seat',
    fallback: 'the face itself',
  }).optional(),
  tilt: tilt.optional(),
};
export const kind = <K extends string>(word: K, description: string) =>
  z.literal(word).meta({ description, values: { [word]: description } });
export const at = (description: string) => position(description).optional();
export const CENTRE = 'Where its centre is, in part axes or by distance from faces.';
export const SHIFT = 'Shifts everything drawn for this feature; left out, the corners stand where they are given.';
export const floorRadius = length('Fillet between wall and floor: needs a bull-nose or ball cutter.', {
  example: '1',
  fallback: '0, a sharp floor',
}).optional();
const cornerRadius = length('Radius of the four corners; a round cutter leaves one.', {
  example: '3.5',
  fallback: '0, square corners',
}).optional();
const rotate = angle('Turned about its own centre, counter-clockwise as drawn in the two part axes.', {
  example: '30',
  fallback: '0',
}).optional();
export const circle = (what: string) => length(`Diameter of ${what}.`, { example: '20' }).optional();

export const outline = { size: size.optional(), 'corner-radius': cornerRadius, rotate };
