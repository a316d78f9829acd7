/** Heads of screws and the recesses they sit in, as published rows, mm. Data only; `heads.ts` reads it. */

/** [screw, cap head diameter, height (ISO 4762), counterbore diameter, depth (DIN 974-1 series 1)]. */
export const CAP_ROWS: readonly (readonly [string, number, number, number, number])[] = [
  ['M1.6', 3, 1.6, 3.5, 2],
  ['M2', 3.8, 2, 4.4, 2.4],
  ['M2.5', 4.5, 2.5, 5.5, 2.9],
  ['M3', 5.5, 3, 6.5, 3.4],
  ['M4', 7, 4, 8, 4.4],
  ['M5', 8.5, 5, 10, 5.4],
  ['M6', 10, 6, 11, 6.4],
  ['M8', 13, 8, 15, 8.6],
  ['M10', 16, 10, 18, 10.6],
  ['M12', 18, 12, 20, 12.6],
  ['M14', 21, 14, 24, 14.6],
  ['M16', 24, 16, 26, 16.6],
  ['M18', 27, 18, 30, 18.6],
  ['M20', 30, 20, 33, 20.6],
  ['M22', 33, 22, 36, 22.8],
  ['M24', 36, 24, 40, 24.8],
];

/** [screw, head diameter to the sharp edge, height (ISO 10642)]. */
export const FLAT_ROWS: readonly (readonly [string, number, number])[] = [
  ['M3', 6.72, 1.86],
  ['M4', 8.96, 2.48],
  ['M5', 11.2, 3.1],
  ['M6', 13.44, 3.72],
  ['M8', 17.92, 4.96],
  ['M10', 22.4, 6.2],
  ['M12', 26.88, 7.44],
  ['M14', 30.8, 8.4],
  ['M16', 33.6, 8.8],
  ['M20', 40.32, 10.16],
];

/** [screw, countersink diameter, depth (DIN 74-1 form B, for DIN 7991 heads)]. */
export const DIN_74_ROWS: readonly (readonly [string, number, number])[] = [
  ['M3', 6.6, 1.6],
  ['M4', 9, 2.3],
  ['M5', 11, 2.8],
  ['M6', 13, 3.2],
  ['M8', 17.2, 4.1],
  ['M10', 21.5, 5.3],
  ['M12', 25.5, 6],
  ['M14', 28.5, 6.5],
  ['M16', 31.5, 7],
  ['M18', 35, 7.5],
  ['M20', 38, 8],
];

/** [screw, countersink diameter (ISO 15065, for the smaller ISO 7721 heads)]: from memory. */
export const ISO_15065_ROWS: readonly (readonly [string, number])[] = [
  ['M1.6', 3.6],
  ['M2', 4.4],
  ['M2.5', 5.5],
  ['M3', 6.3],
  ['M3.5', 8.2],
  ['M4', 9.4],
  ['M5', 10.4],
  ['M6', 12.6],
  ['M8', 17.3],
  ['M10', 20],
];

/** Inch socket screws, inches, from memory of ASME B18.3: [screw, cap head diameter, height, counterbore diameter, flat head to the sharp edge]. */
export const INCH_ROWS: readonly (readonly [string, number, number, number, number])[] = [
  ['#2', 0.14, 0.086, 0.1875, 0.197],
  ['#4', 0.183, 0.112, 0.21875, 0.255],
  ['#5', 0.205, 0.125, 0.25, 0.281],
  ['#6', 0.226, 0.138, 0.28125, 0.307],
  ['#8', 0.27, 0.164, 0.3125, 0.359],
  ['#10', 0.312, 0.19, 0.375, 0.411],
  ['1/4', 0.375, 0.25, 0.4375, 0.531],
  ['5/16', 0.469, 0.3125, 0.53125, 0.656],
  ['3/8', 0.562, 0.375, 0.625, 0.781],
  ['7/16', 0.656, 0.4375, 0.71875, 0.844],
  ['1/2', 0.75, 0.5, 0.8125, 0.938],
];
