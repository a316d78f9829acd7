/** Clearance holes for screws as published rows. Data only; `clearance.ts` reads it. */

const ISO_273 = 'ISO 273:1979, from public tables (M1.6 to M16); medium column also in DIN 74-1';
const ISO_273_LARGE = 'ISO 273:1979, fine and coarse from memory; medium: DIN 74-1';

/** [screw, fine (H12), medium (H13), coarse (H14), source], mm. */
export const ISO_273_ROWS: readonly (readonly [string, number, number, number, string])[] = [
  ['M1.6', 1.7, 1.8, 2, ISO_273],
  ['M2', 2.2, 2.4, 2.6, ISO_273],
  ['M2.5', 2.7, 2.9, 3.1, ISO_273],
  ['M3', 3.2, 3.4, 3.6, ISO_273],
  ['M3.5', 3.7, 3.9, 4.2, ISO_273],
  ['M4', 4.3, 4.5, 4.8, ISO_273],
  ['M5', 5.3, 5.5, 5.8, ISO_273],
  ['M6', 6.4, 6.6, 7, ISO_273],
  ['M7', 7.4, 7.6, 8, ISO_273],
  ['M8', 8.4, 9, 10, ISO_273],
  ['M10', 10.5, 11, 12, ISO_273],
  ['M12', 13, 13.5, 14.5, ISO_273],
  ['M14', 15, 15.5, 16.5, ISO_273],
  ['M16', 17, 17.5, 18.5, ISO_273],
  ['M18', 19, 20, 21, ISO_273_LARGE],
  ['M20', 21, 22, 24, ISO_273_LARGE],
  ['M22', 23, 24, 26, ISO_273_LARGE],
  ['M24', 25, 26, 28, ISO_273_LARGE],
];

export const ASME_B18_2_8 =
  "ASME B18.2.8; loose fits match Machinery's Handbook 31 pp. 1741 and 1743, close and normal drills from memory";

/** [screw, close drill, in, normal drill, in, loose drill, in]. */
export const B18_2_8_ROWS: readonly (readonly [string, string, number, string, number, string, number])[] = [
  ['#0', '#51', 0.067, '#48', 0.076, '3/32', 0.094],
  ['#1', '#46', 0.081, '#43', 0.089, '#37', 0.104],
  ['#2', '3/32', 0.09375, '#38', 0.1015, '#32', 0.116],
  ['#3', '#36', 0.1065, '#32', 0.116, '#30', 0.1285],
  ['#4', '#31', 0.12, '#30', 0.1285, '#27', 0.144],
  ['#5', '9/64', 0.140625, '5/32', 0.15625, '11/64', 0.171875],
  ['#6', '#23', 0.154, '#18', 0.1695, '#13', 0.185],
  ['#8', '#15', 0.18, '#9', 0.196, '#3', 0.213],
  ['#10', '#5', 0.2055, '#2', 0.221, 'B', 0.238],
  ['1/4', '17/64', 0.265625, '9/32', 0.28125, '19/64', 0.296875],
  ['5/16', '21/64', 0.328125, '11/32', 0.34375, '23/64', 0.359375],
  ['3/8', '25/64', 0.390625, '13/32', 0.40625, '27/64', 0.421875],
  ['7/16', '29/64', 0.453125, '15/32', 0.46875, '31/64', 0.484375],
  ['1/2', '17/32', 0.53125, '9/16', 0.5625, '39/64', 0.609375],
];
