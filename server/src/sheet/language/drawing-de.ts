/** The words of a drawing in German. */
import type { DrawingWords } from './drawing-en';

export const DRAWING_DE: DrawingWords = {
  alsoOf: (names) => `auch von ${names}`,
  onCircle: (mm) => `auf Kreis ⌀${mm}`,
  startsAt: (deg) => `erstes bei ${deg}°`,
  pitched: (axis, n, mm) => `längs ${axis} ${n} × ${mm}`,
  root: (r) => `R${r} an Wänden`,
  island: (size, where, high) => `bleibt stehen: ${size === '' ? '' : `${size} `}bei ${where}, ${high} hoch`,
  arcThrough: (where) => `Bogen durch ${where}`,
  corner: 'Ecke',
  tableSize: 'Maß, Tiefe',
  same: (name) => `wie ${name}`,
  owner: 'Eigentümer',
  material: 'Werkstoff',
  mass: 'Masse',
  general: 'Allgemeintoleranz',
  noGeneral: 'keine angegeben',
  edges: 'Kanten ohne Angabe',
  burrs: 'gratfrei',
  scale: 'Maßstab',
  projection: { first: 'Projektionsmethode 1', third: 'Projektionsmethode 3' },
  lengths: { mm: 'Längen in mm', in: 'Längen in Zoll' },
  made: 'gezeichnet',
  approved: 'freigegeben',
  date: 'Ausgabedatum',
  type: 'Dokument',
  partDrawing: 'Einzelteilzeichnung',
  title: 'Benennung',
  number: 'Nummer',
  revision: 'Rev.',
  sheet: 'Blatt',
  quantity: 'Stückzahl',
  counts: 'Maße zählen von der umringten Ecke',
  countsAxis: 'Maße zählen von der umringten Mitte',
  detail: (letter, scale) => `${letter} (${scale})`,
  errors: (n) =>
    n === 1
      ? 'Die Prüfung findet einen Fehler: so geschrieben kann diese Werkstatt es nicht machen.'
      : `Die Prüfung findet ${n} Fehler: so geschrieben kann diese Werkstatt es nicht machen.`,
};
