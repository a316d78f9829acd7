/** Where a row of a table is from: a page that was read, the memory of those who wrote it, or the practice of the trade. */

type Basis = 'published' | 'memory' | 'practice';

/** One row: its columns, and where it is from. */
export interface TableRow {
  readonly [column: string]: number | string | boolean | null | readonly (number | string | null)[];
  readonly source: string;
}

export interface PublishedTable {
  readonly name: string;
  readonly what: string;
  /** Of bare numbers, where the columns do not name their own. */
  readonly unit?: string;
  readonly rows: readonly TableRow[];
}

/** Rows that something else, which did not take part in writing them, has too: where, and how many. Tests compare each. */
export interface SecondSource {
  readonly source: string;
  readonly rows: number;
}

/** Every page behind the tables was read in this month, but for what says another date itself: `(read in 2027-03)`. */
const READ = '2026-11';

/** A row that is from memory in any part is from memory: the better source of another column does not carry it. */
export function basisOf(source: string): Basis {
  if (/memory/i.test(source)) return 'memory';
  return /common practice|no source|rule of thumb/i.test(source) ? 'practice' : 'published';
}

/** When its page was read; nothing where there is none. */
export function checkedOf(source: string): string | undefined {
  if (basisOf(source) !== 'published') return undefined;
  return /\bread (?:in )?(\d{4}-\d{2})/.exec(source)?.[1] ?? READ;
}

export type Counts = Readonly<Record<Basis, number>>;

export function countsOf(rows: readonly { readonly source: string }[]): Counts {
  const counts = { published: 0, memory: 0, practice: 0 };
  for (const { source } of rows) counts[basisOf(source)]++;
  return counts;
}
