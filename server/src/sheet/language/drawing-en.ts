/** The words of a drawing in English. */
import type { Axis } from '../../model/faces';

export const DRAWING_EN = {
  alsoOf: (names: string) => `of ${names} too`,
  onCircle: (mm: string) => `on a circle ⌀${mm}`,
  startsAt: (deg: string) => `first at ${deg}°`,
  pitched: (axis: Axis, n: number, mm: string) => `along ${axis} ${n} × ${mm}`,
  root: (r: string) => `R${r} at walls`,
  island: (size: string, where: string, high: string) =>
    `stays: ${size === '' ? '' : `${size} `}at ${where}, ${high} high`,
  arcThrough: (where: string) => `arc through ${where}`,
  corner: 'corner',
  tableSize: 'size, depth',
  same: (name: string) => `as ${name}`,
  owner: 'owner',
  material: 'material',
  mass: 'mass',
  general: 'general tolerance',
  noGeneral: 'none given',
  edges: 'edges not marked',
  burrs: 'no burrs',
  scale: 'scale',
  projection: { first: 'first angle', third: 'third angle' },
  lengths: { mm: 'lengths in mm', in: 'lengths in inches' },
  made: 'drawn by',
  approved: 'approved by',
  date: 'date of issue',
  type: 'document',
  partDrawing: 'part drawing',
  title: 'title',
  number: 'number',
  revision: 'rev.',
  sheet: 'sheet',
  quantity: 'quantity',
  counts: 'numbers count from the ringed corner',
  countsAxis: 'numbers count from the ringed centre',
  detail: (letter: string, scale: string) => `${letter} (${scale})`,
  errors: (n: number) =>
    n === 1
      ? 'The check finds an error: as written, this shop cannot make it.'
      : `The check finds ${n} errors: as written, this shop cannot make it.`,
};

export type DrawingWords = typeof DRAWING_EN;
