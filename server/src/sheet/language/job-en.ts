/** The words of a job's cover in English. */
import type { Change } from '../../planning/day-plan/types';

export const JOB_EN = {
  job: 'JOB',
  sums: (pieces: number, parts: number) =>
    `${pieces} ${pieces === 1 ? 'piece' : 'pieces'} of ${parts} ${parts === 1 ? 'part' : 'parts'}`,
  mass: (grams: string, limit?: string) => `${grams} g${limit === undefined ? '' : ` of ${limit}`}`,
  spare: (grams: string) => `${grams} g to spare`,
  over: (grams: string) => `${grams} g TOO MUCH`,
  hours: (range: string, limit?: string) =>
    `${range} h at the machine${limit === undefined ? '' : `, ${limit} h there are`}`,
  unread: (names: string) => `Without ${names}: could not be read.`,
  takes: 'WHAT EACH PART TAKES',
  columns: { part: 'part', pieces: 'n', one: 'one', all: 'all', setups: 'set-ups', machine: 'at the machine' },
  planned: 'planned',
  rough: 'in a rough order',
  savings: 'WHERE MOST CAN BE SAVED',
  saw: 'SAW',
  kerf: (mm: string) => `kerf ${mm} mm`,
  clamp: (mm: string) => `the saw holds ${mm} mm`,
  trim: (mm: string) => `${mm} mm off the first end`,
  from: (pieces: number, what: string) => `${pieces} ${pieces === 1 ? 'piece' : 'pieces'} from ${what}`,
  bring: 'BRING FOR ALL OF IT',
  buy: (what: string) => `buy: ${what}`,
  order: 'IN THIS ORDER',
  orderNote:
    'All pieces of a set-up before the next. What is not named stays as it is; a zero that stays is not touched again, only its number is entered.',
  evening: (n: number) => `EVENING ${n}`,
  steps: { part: 'part', setup: 'set-up', pieces: 'n', before: 'change before it', minutes: 'min' },
  bare: 'from a bare table',
  otherMachine: 'another machine',
  nothing: 'nothing',
  changes: {
    machine: 'machine',
    vise: 'vise',
    parallels: 'parallels',
    stop: 'stop',
    'zero x': 'zero X',
    'zero y': 'zero Y',
    'zero z': 'zero Z',
    tool: 'tool',
  } as Readonly<Record<Change, string>>,
};

export type JobWords = typeof JOB_EN;
