/** The table of passes: a row each, rows that stop the hand between them; passes at one place share its cell. */
import type { MeasureRow, PassRow, Row } from '../../process/passes';
import { type Figure, HEAVY, type Mark, moved, NARROW } from '../draw/marks';
import { block, frame, polyline } from '../draw/shapes';
import { column } from '../draw/stack';
import { bold, type Inline, NUMBER, textFigure } from '../draw/text';
import { measuredLimits, measuredName } from './measured';
import { depthCell, feedCell, lookCell, speedCell, toolCell } from './pass-cells';
import { Places } from './places';
import { type Saying, shown, size, stationText } from './saying';
import { touched } from './zero-box';

/** Box and number, tool, rpm, feed, go to, depth, look. */
const WIDTHS = [11, 44, 14, 17, 42, 30, 22] as const;
const TABLE_W = WIDTHS.reduce((a, b) => a + b, 0);
const PAD = 0.9;
const X = WIDTHS.map((_, i) => WIDTHS.slice(0, i).reduce((a, b) => a + b, 0));
const GO_TO = 4;

/** One row with what it takes; those of a group are not parted. */
export interface TableRow {
  readonly h: number;
  readonly cells: readonly Mark[];
  /** Drawn for the first of a group. */
  readonly goTo?: Figure;
  /** Stands at the same place as the row above it. */
  readonly same: boolean;
  readonly wide: 'no' | 'plain' | 'stop';
  /** White on black where it is the page's first stop. */
  readonly drawn?: (black: boolean) => readonly Mark[];
  readonly number?: number;
}

interface PassTable {
  readonly rows: readonly TableRow[];
  readonly places: readonly Figure[];
}

export function passTable(s: Saying): PassTable {
  const places = new Places(s);
  const rows: TableRow[] = [];
  let touchZ: number | undefined;
  for (const [i, row] of s.passes.rows.entries()) {
    const after = s.passes.rows[i + 1];
    const stops = after?.kind === 'measure' && after.stops;
    if (row.kind === 'touch z') {
      touchZ = row.touch.showsMm;
      continue;
    }
    if (row.kind === 'pass') {
      rows.push(passRow(row, s, places, { touchZ, stops }));
      touchZ = undefined;
      continue;
    }
    const wide = wideRow(row, s);
    if (wide) rows.push(wide);
  }
  return { rows, places: places.figures(TABLE_W) };
}

interface Beside {
  readonly touchZ: number | undefined;
  /** The row below stops the hand. */
  readonly stops: boolean;
}

function passRow(p: PassRow, s: Saying, places: Places, { touchZ, stops }: Beside): TableRow {
  const inner = (i: number) => WIDTHS[i]! - 2 * PAD;
  const other = otherZ(touchZ, s);
  const cells: (Figure | undefined)[] = [
    numberCell(p, touchZ !== undefined && other === undefined, inner(0)),
    column([toolCell(p, s, inner(1)), ...(other ? [textFigure(['☐ Z ', bold(other)], { width: inner(1) })] : [])]),
    speedCell(p.speed, s, inner(2)),
    feedCell(p, s, inner(3)),
    undefined,
    depthCell(p, s, inner(5), stops),
    lookCell(p, s, inner(6)),
  ];
  const goTo = places.cell(p, inner(GO_TO));
  return {
    h: Math.max(...cells.map((c) => c?.h ?? 0)) + 2 * PAD,
    cells: cells.flatMap((c, i) => (c ? moved(c.marks, X[i]! + PAD, PAD) : [])),
    goTo,
    same: p.samePlace,
    wide: 'no',
    number: p.number,
  };
}

/** A box for the pass; and one for Z, where a tool is put in whose height is touched first. */
function numberCell(p: PassRow, touchesZ: boolean, width: number): Figure {
  const z = touchesZ ? [textFigure('☐ Z', { width })] : [];
  return column([textFigure(['☐ ', bold(String(p.number))], { width, cap: NUMBER * 0.9 }), ...z]);
}

/** What Z shows at touch where that is not what stands among the zeros: told with the tool. */
function otherZ(touchZ: number | undefined, { passes, units }: Saying): string | undefined {
  const common = passes.zeros.find((z) => z.axis === 'Z')?.showsMm;
  return touchZ === undefined || touchZ === common ? undefined : shown(touchZ, units);
}

function wideRow(row: Exclude<Row, PassRow | { kind: 'touch z' }>, s: Saying): TableRow | undefined {
  const { said, words, units, called } = s;
  switch (row.kind) {
    case 'touch': {
      const { touch } = row;
      if (touch.afterPass === 0) return undefined;
      const text = [
        '☐ ',
        bold(said.touchNow(touch.axis, touched(touch, s))),
        ' ',
        bold(`${touch.axis} ${shown(touch.showsMm, units)}`, NUMBER),
      ];
      return wide('plain', () => text);
    }
    case 'measure':
      return row.stops
        ? wide('stop', (white) => stopText(row, s, white))
        : wide('plain', () => [`☐ ${measureText(row, s)} `, said.gauges[row.with]]);
    case 'indicate':
      return wide('stop', (white) => [
        {
          text: `${said.stopAndMeasure} · ${said.sweep(called(row.of), size(row.totalMm, units))} ${stationText(row.at, units)}`,
          bold: true,
          cap: NUMBER,
          ...(white && { white }),
        },
      ]);
    case 'file':
      return wide('plain', () => [
        `☐ ${called(row.of)}: ${said.fileEdge(size(row.sizeMm, units), row.edges.map((e) => e.map((f) => words.faces[f]).join('/')).join(', '), row.afterSetup)}`,
      ]);
    case 'saw':
      return wide('plain', () => [
        '☐ ',
        bold(said.sawOff(words.faces[row.of], size(row.lengthMm, units))),
        ` ${row.leavesMm > 0 ? said.sawLeaves(size(row.leavesMm, units)) : said.staysSawn}`,
      ]);
    case 'missing':
      return wide('plain', () => [bold(said.missing(called(row.of), row.wanted))]);
    default:
      return row satisfies never;
  }
}

function stopText(row: MeasureRow, s: Saying, white: true | undefined): readonly Inline[] {
  const colour = white && { white };
  const { said } = s;
  return [
    { text: `${said.stopAndMeasure} · ${measureText(row, s)}`, bold: true, cap: NUMBER, ...colour },
    { text: ` ${said.gauges[row.with]}: ${said.halfOfRest}`, bold: true, ...colour },
  ];
}

function measureText(row: MeasureRow, s: Saying): string {
  return [measuredName(row, s), measuredLimits(row, s)].filter((t) => t !== '').join(' ');
}

function wide(kind: 'plain' | 'stop', text: (white: true | undefined) => readonly Inline[]): TableRow {
  const made = (white: true | undefined) => textFigure(text(white), { width: TABLE_W - WIDTHS[0] - 2 });
  const { h } = made(undefined);
  const high = h + 2 * PAD;
  return {
    h: high,
    cells: [],
    same: false,
    wide: kind,
    drawn: (black) => {
      const box = { x0: 0, y0: 0, x1: TABLE_W, y1: high };
      const back = kind === 'stop' ? [black ? block(box) : frame(box, HEAVY)] : [];
      return [...back, ...moved(made(black ? true : undefined).marks, WIDTHS[0] + PAD, PAD)];
    },
  };
}

/** The head and these rows, drawn. */
export function drawTable(rows: readonly TableRow[], { said, units, passes }: Saying): Figure {
  const programmed = passes.machine?.control === 'program';
  const byProgram = rows.length > 0 && programmed;
  const names = [
    '',
    said.tool,
    said.rpm,
    byProgram ? said.feedPerMinute(units) : said.feed,
    said.goTo,
    said.depth,
    said.look,
  ];
  const head = names.map((n, i) => textFigure(bold(n), { width: WIDTHS[i]! - 2 * PAD }));
  const headH = Math.max(...head.map((f) => f.h)) + 2 * PAD;
  const marks: Mark[] = head.flatMap((f, i) => moved(f.marks, X[i]! + PAD, PAD));
  const groups = grouped(rows);
  let y = headH;
  let black = false;
  marks.push(...columnLines(0, headH));
  for (const group of groups) {
    const goTo = group[0]!.goTo;
    const lock = group.length > 1 ? lockFigure(group, said) : undefined;
    const wanted = goTo ? goTo.h + (lock?.h ?? 0) + 2 * PAD : 0;
    const own = group.reduce((sum, r) => sum + r.h, 0);
    const more = Math.max(0, wanted - own) / group.length;
    if (goTo) marks.push(...moved([...goTo.marks, ...moved(lock?.marks ?? [], 0, goTo.h)], X[GO_TO]! + PAD, y + PAD));
    for (const [i, row] of group.entries()) {
      const h = row.h + more;
      const isWide = row.wide !== 'no';
      const white: boolean = row.wide === 'stop' && !black;
      black ||= white;
      if (row.drawn) marks.push(...moved(row.drawn(white), 0, y));
      else marks.push(...moved(row.cells, 0, y));
      if (!isWide) marks.push(...columnLines(y, y + h));
      y += h;
      marks.push(...rowLine(y, i + 1 < group.length));
    }
  }
  marks.push(frame({ x0: 0, y0: 0, x1: TABLE_W, y1: y }, NARROW), ...rowLine(headH, false));
  return { marks, w: TABLE_W, h: y };
}

function lockFigure(group: readonly TableRow[], said: Saying['said']): Figure {
  return textFigure(said.lockBoth(group[0]!.number!, group.at(-1)!.number!), { width: WIDTHS[GO_TO] - 2 * PAD });
}

/** Rows at one place together. */
export function grouped(rows: readonly TableRow[]): readonly (readonly TableRow[])[] {
  const groups: TableRow[][] = [];
  for (const row of rows) {
    if (row.same && groups.length > 0 && groups.at(-1)!.at(-1)!.wide === 'no') groups.at(-1)!.push(row);
    else groups.push([row]);
  }
  return groups;
}

function columnLines(y0: number, y1: number): Mark[] {
  return X.slice(1).map((x) =>
    polyline([
      [x, y0],
      [x, y1],
    ]),
  );
}

/** Within a group the cell of the place is not parted. */
function rowLine(y: number, within: boolean): Mark[] {
  const line = (a: number, b: number) =>
    polyline([
      [a, y],
      [b, y],
    ]);
  if (!within) return [line(0, TABLE_W)];
  return [line(0, X[GO_TO]!), line(X[GO_TO]! + WIDTHS[GO_TO], TABLE_W)];
}
