/** The words of a job's cover in German. */
import type { JobWords } from './job-en';

const pieces = (n: number) => `${n} Stück`;

export const JOB_DE: JobWords = {
  job: 'AUFTRAG',
  sums: (n, parts) => `${pieces(n)} von ${parts} ${parts === 1 ? 'Teil' : 'Teilen'}`,
  mass: (grams, limit) => `${grams} g${limit === undefined ? '' : ` von ${limit}`}`,
  spare: (grams) => `${grams} g übrig`,
  over: (grams) => `${grams} g ZU VIEL`,
  hours: (range, limit) => `${range} h an der Maschine${limit === undefined ? '' : `, ${limit} h sind da`}`,
  unread: (names) => `Ohne ${names}: nicht zu lesen.`,
  takes: 'WAS JEDES TEIL BRAUCHT',
  columns: { part: 'Teil', pieces: 'n', one: 'eins', all: 'alle', setups: 'Spannungen', machine: 'an der Maschine' },
  planned: 'geplant',
  rough: 'in grober Folge',
  savings: 'WO AM MEISTEN ZU SPAREN IST',
  saw: 'SÄGEN',
  kerf: (mm) => `Schnitt ${mm} mm`,
  clamp: (mm) => `die Säge hält ${mm} mm`,
  trim: (mm) => `${mm} mm vom ersten Ende`,
  from: (n, what) => `${pieces(n)} aus ${what}`,
  bring: 'FÜR ALLES MITBRINGEN',
  buy: (what) => `kaufen: ${what}`,
  order: 'IN DIESER FOLGE',
  orderNote:
    'Alle Stücke einer Spannung vor der nächsten. Was nicht genannt ist, bleibt; eine Null, die bleibt, wird nicht neu angetastet, nur ihre Zahl eingegeben.',
  evening: (n) => `ABEND ${n}`,
  steps: { part: 'Teil', setup: 'Spannung', pieces: 'n', before: 'vorher ändern', minutes: 'min' },
  bare: 'vom leeren Tisch',
  otherMachine: 'andere Maschine',
  nothing: 'nichts',
  changes: {
    machine: 'Maschine',
    vise: 'Schraubstock',
    parallels: 'Parallelen',
    stop: 'Anschlag',
    'zero x': 'Null X',
    'zero y': 'Null Y',
    'zero z': 'Null Z',
    tool: 'Werkzeug',
  },
};
