/** Cutters from a table as spreadsheets write it (RFC 4180, with whichever sign parts its cells): one row each, below a line of headings. */
import { readMeasured, unitOf, valueIn } from './numbers';
import { type Code, codeOfWords, quantityOf } from './properties';
import { cited, type Listing, type Row, type Unit, type Value } from './row';

/** More than any workshop has. */
const MOST_ROWS = 20_000;
const MOST_CELLS = 300;
/** Lines that are searched for the headings. */
const HEAD_LINES = 20;

interface Line {
  readonly cells: readonly string[];
  /** From 1. */
  readonly line: number;
}

type Meaning = Code | 'id' | 'words' | 'unit';

interface Column {
  readonly means: Meaning;
  readonly at: number;
  readonly heading: string;
  /** As its heading says: `diameter [mm]`. */
  readonly unit?: Unit;
}

const ID =
  /^(?:id|name|order (?:number|no|code)|part (?:number|no)|article(?: number| no)?|item|artikel(?:nummer)?|bestellnummer|nr|no)$/;
const WORDS =
  /^(?:kind|type|tool|tool type|description|title|designation|class|art|typ|bezeichnung|beschreibung|werkzeug)$/;
const KIND = /^(?:kind|type|tool type|art|typ)$/i;
const UNIT = /^(?:units?|einheit(?:en)?)$/;

export function rowsOfCsv(text: string): Listing {
  const plain = text.replace(/^\ufeff/, '').replace(/^sep=(.)\r?\n/i, '\n');
  const sign = /^\ufeff?sep=([,;\t|])\r?\n/i.exec(text)?.[1] ?? signOf(plain);
  const lines = linesIn(plain, sign);
  const head = headOf(lines.slice(0, HEAD_LINES));
  if (!head)
    return {
      rows: [],
      told: [
        'No line of headings was found. Head the columns with codes of ISO 13399, like DC and APMX, or with words, like diameter and flutes.',
      ],
    };
  const { columns, unread } = head;
  const told =
    unread.length > 0
      ? [
          `These columns say nothing of a cutter’s shape and were not read: ${unread.slice(0, 12).map(cited).join(', ')}.`,
        ]
      : [];
  const body = lines.slice(head.after).filter(({ cells }) => cells.some((cell) => cell.trim() !== ''));
  if (body.length > MOST_ROWS) told.push(`It has ${body.length} rows: only the first ${MOST_ROWS} were read.`);
  return { rows: body.slice(0, MOST_ROWS).map((line) => rowOf(line, columns, sign !== ',')), told };
}

/** The sign by which the first lines have the most headings that mean something. */
function signOf(text: string): string {
  const start = text.slice(0, 64_000);
  const meant = (sign: string) => headOf(linesIn(start, sign).slice(0, HEAD_LINES))?.columns.length ?? 0;
  return [',', ';', '\t', '|'].reduce((best, sign) => (meant(sign) > meant(best) ? sign : best));
}

function linesIn(text: string, sign: string): readonly Line[] {
  const lines: Line[] = [];
  let cells: string[] = [];
  let [at, line, first] = [0, 1, 1];
  const end = () => {
    lines.push({ cells, line: first });
    cells = [];
  };
  const bare = new RegExp(`[^${sign}\\r\\n]*`, 'y');
  while (at <= text.length && lines.length <= MOST_ROWS + HEAD_LINES) {
    let cell: string;
    const quoted = /^[ \t]*"/.exec(text.slice(at, at + 20));
    if (quoted && !(sign === '\t' && quoted[0].includes('\t'))) {
      const from = at + quoted[0].length;
      const close = closing(text, from);
      cell = text.slice(from, close).replaceAll('""', '"');
      line += cell.split('\n').length - 1;
      at = Math.min(text.length, close + 1);
      bare.lastIndex = at;
      at += bare.exec(text)![0].length;
    } else {
      bare.lastIndex = at;
      cell = bare.exec(text)![0];
      at += cell.length;
    }
    if (cells.length < MOST_CELLS) cells.push(cell.trim());
    if (text[at] === sign) {
      at++;
      continue;
    }
    end();
    if (at >= text.length) break;
    at += text.startsWith('\r\n', at) ? 2 : 1;
    line++;
    first = line;
  }
  return lines;
}

/** Of the quote that ends a cell; two together are one inside it. */
function closing(text: string, from: number): number {
  for (let at = text.indexOf('"', from); at >= 0; at = text.indexOf('"', at + 2)) if (text[at + 1] !== '"') return at;
  return text.length;
}

function headOf(lines: readonly Line[]) {
  const read = lines.map(({ cells }) => columnsOf(cells));
  const best = read.reduce((a, b, i) => (b.columns.length > (read[a]?.columns.length ?? 0) ? i : a), -1);
  const found = read[best];
  return found?.columns.some(({ means }) => means === 'DC' || means === 'DCX' || means === 'DCN' || means === 'TDZ')
    ? { ...found, after: best + 1 }
    : undefined;
}

function columnsOf(cells: readonly string[]): {
  readonly columns: readonly Column[];
  readonly unread: readonly string[];
} {
  const columns: Column[] = [];
  const unread: string[] = [];
  for (const [at, heading] of cells.entries()) {
    const [, bracketed] = /[[(]\s*([^\])]*?)\s*[\])]\s*$/.exec(heading) ?? [];
    const unit = bracketed === undefined ? undefined : unitOf(bracketed)?.[0];
    const name = heading.replace(/\s*[[(][^\])]*[\])]\s*$/, '').trim();
    const means = meaningOf(name) ?? (bracketed === undefined ? undefined : meaningOf(bracketed));
    if (means && !columns.some((c) => c.means === means && means !== 'words'))
      columns.push({ means, at, heading: name, ...(unit && { unit }) });
    else if (heading !== '') unread.push(heading);
  }
  return { columns, unread };
}

function meaningOf(name: string): Meaning | undefined {
  const plain = name
    .toLowerCase()
    .replace(/[._-]+/g, ' ')
    .trim();
  if (ID.test(plain)) return 'id';
  if (WORDS.test(plain)) return 'words';
  return UNIT.test(plain) ? 'unit' : codeOfWords(name);
}

function rowOf({ cells, line }: Line, columns: readonly Column[], commas: boolean): Row {
  const values = new Map<Code, Value>();
  const odd: string[] = [];
  const cellsOf = (means: Meaning) =>
    columns
      .filter((c) => c.means === means)
      .sort((a, b) => Number(KIND.test(b.heading)) - Number(KIND.test(a.heading)))
      .flatMap(({ at }) => cells[at]?.trim() || []);
  const said = cellsOf('unit')[0];
  const unitOfRow = said === undefined ? undefined : unitOf(said)?.[0];
  if (said !== undefined && !unitOfRow) odd.push(`its unit ${cited(said)} is not known`);
  for (const { means, at, heading, unit } of columns) {
    const cell = cells[at]?.trim() ?? '';
    if (means === 'id' || means === 'words' || means === 'unit' || /^(?:|-|–|—|n\/?a)$/i.test(cell)) continue;
    const value = cellValue(means, cell, commas, unit ?? unitOfRow);
    if (typeof value === 'string') odd.push(`${heading} ${cited(cell)} ${value}`);
    else values.set(means, value);
  }
  const id = cellsOf('id')[0];
  return { line, ...(id !== undefined && { id }), words: [...cellsOf('words'), ...cellsOf('id')], values, odd };
}

function cellValue(code: Code, cell: string, commas: boolean, unit: Unit | undefined): Value | string {
  const is = quantityOf(code);
  if (is === 'words') return { text: cell };
  const read = readMeasured(cell, commas);
  if (typeof read === 'string') return read;
  return valueIn(code, read.n, read.unit ?? (is === 'length' && unit !== '°' ? unit : undefined));
}
