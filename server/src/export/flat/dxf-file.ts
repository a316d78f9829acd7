/**
 * The drawing exchange format as its openly published reference describes it (the form of the year 2000, text): pairs of
 * a group code and a value, a line each. Entities only of the plainest kinds, on layers of our own; lengths in mm.
 */

import { isFullCircle, lengthOf, sweepOf } from '../../geometry/2d/edge';
import type { Edge, Loop } from '../../geometry/types';
import { line } from '../../text/shown';
import { NEAR, ROUNDING } from '../../tolerance';

type Pair = readonly [code: number, value: string | number];

interface Block {
  readonly name: string;
  readonly record: string;
  readonly begin: string;
  readonly end: string;
  readonly entities: Pair[];
}

/** Dashes and gaps in turn. */
interface LineType {
  readonly name: string;
  readonly pattern: readonly number[];
}

interface Baseline {
  readonly from: Edge['a'];
  readonly to: Edge['a'];
  /** Of a capital. */
  readonly high: number;
}

/** $INSUNITS: millimetres. */
const MILLIMETRES = 4;
/** Digits after the point: a thousandth of what any cutter holds. */
const DIGITS = 6;

export class DxfFile {
  private readonly entities: Pair[] = [];
  private readonly blocks: Block[] = [];
  /** What is written now goes there: the drawing itself, or a block of it. */
  private into = this.entities;
  private owner = MODEL_RECORD;
  private used = 0x100;
  private readonly low = { x: Number.POSITIVE_INFINITY, y: Number.POSITIVE_INFINITY };
  private readonly high = { x: Number.NEGATIVE_INFINITY, y: Number.NEGATIVE_INFINITY };

  /** Of a layer: its name, and the name of its kind of line where that is no plain one. */
  constructor(
    private readonly layers: readonly (string | readonly [name: string, lines: string])[],
    private readonly lines: readonly LineType[] = [],
  ) {}

  /** A block of its own, drawn about its own origin, and put into the drawing at a place. */
  block(name: string, at: { readonly x: number; readonly y: number }, draw: () => void): void {
    const block: Block = { name, record: this.handle(), begin: this.handle(), end: this.handle(), entities: [] };
    this.blocks.push(block);
    [this.into, this.owner] = [block.entities, block.record];
    draw();
    [this.into, this.owner] = [this.entities, MODEL_RECORD];
    this.entity('INSERT', '0', 'AcDbBlockReference', [[2, name], ...place(10, at.x, at.y)]);
  }

  /** A line or an arc, so many hundredths of a millimetre wide. */
  edge(layer: string, e: Edge, width: number): void {
    this.reach([e]);
    const wide: Pair = [370, width];
    if (e.type === 'line') {
      this.entity('LINE', layer, 'AcDbLine', [...place(10, e.a.u, e.a.v), ...place(11, e.b.u, e.b.v)], wide);
      return;
    }
    const round: Pair[] = [...place(10, e.centre.u, e.centre.v), [40, real(e.radius)]];
    if (isFullCircle(e)) {
      this.entity('CIRCLE', layer, 'AcDbCircle', round, wide);
      return;
    }
    const degrees = ({ u, v }: Edge['a']) =>
      real(((Math.atan2(v - e.centre.v, u - e.centre.u) * 180) / Math.PI + 360) % 360);
    const [from, to] = e.ccw ? [e.a, e.b] : [e.b, e.a];
    this.entity('ARC', layer, 'AcDbCircle', [...round, [100, 'AcDbArc'], [50, degrees(from)], [51, degrees(to)]], wide);
  }

  /** Three or four corners, filled. */
  filled(layer: string, corners: readonly Edge['a'][]): void {
    const [a, b, c, d = c] = corners;
    const order = corners.length > 3 ? [a!, b!, d!, c!] : [a!, b!, c!, c!];
    this.entity(
      'SOLID',
      layer,
      'AcDbTrace',
      order.flatMap((p, i) => place(10 + i, p.u, p.v)),
    );
  }

  /** A filled disc: a line as wide as its radius, round half of it. */
  disc(layer: string, { u, v }: Edge['a'], radius: number): void {
    const half = radius / 2;
    const ends = [u - half, u + half].flatMap((x): Pair[] => [...at(x, v), [42, 1]]);
    this.entity('LWPOLYLINE', layer, 'AcDbPolyline', [[90, 2], [70, 1], [43, real(radius)], ...ends]);
  }

  /** Between two ends of its baseline, so that any font takes the room it was given. */
  words(layer: string, words: string, { from, to, high }: Baseline): void {
    const turned = Math.abs(to.u - from.u) < ROUNDING ? 90 : 0;
    this.entity('TEXT', layer, 'AcDbText', [
      ...place(10, from.u, from.v),
      [40, real(high)],
      [1, ascii(words)],
      [50, turned],
      [72, 5],
      ...place(11, to.u, to.v),
      [100, 'AcDbText'],
    ]);
  }

  private handle(): string {
    return (this.used++).toString(16).toUpperCase();
  }

  /** A whole circle as a circle, any other loop as one closed chain whose arcs are exact. */
  loop(layer: string, { edges }: Loop): void {
    const circle = asCircle(edges);
    this.reach(edges);
    if (circle) {
      const { centre, radius } = circle;
      this.entity('CIRCLE', layer, 'AcDbCircle', [...at(centre.u, centre.v), [30, 0], [40, real(radius)]]);
      return;
    }
    const corners = edges.flatMap((e): Pair[] => {
      const bulge = e.type === 'arc' ? Math.tan(sweepOf(e) / 4) : 0;
      // a half circle has bulge 1; an arc that turns further is written in two halves
      if (Math.abs(bulge) <= 1 + ROUNDING) return [...at(e.a.u, e.a.v), ...bulgeOf(bulge)];
      const [one, two] = halves(e);
      return [one, two].flatMap((h) => [...at(h.a.u, h.a.v), ...bulgeOf(Math.tan(sweepOf(h) / 4))]);
    });
    const count = corners.filter(([code]) => code === 10).length;
    this.entity('LWPOLYLINE', layer, 'AcDbPolyline', [[90, count], [70, 1], ...corners]);
  }

  text(): string {
    const pairs: Pair[] = [...this.header(), ...section('CLASSES', []), ...this.tables(), ...blocksOf(this.blocks)];
    pairs.push(...section('ENTITIES', this.entities), ...objects(), [0, 'EOF']);
    return `${pairs.map(([code, value]) => `${String(code).padStart(3)}\n${typeof value === 'string' ? line(value) : value}`).join('\n')}\n`;
  }

  private entity(type: string, layer: string, of: string, rest: readonly Pair[], look?: Pair): void {
    const handle = this.handle();
    this.into.push(
      [0, type],
      [5, handle],
      [330, this.owner],
      [100, 'AcDbEntity'],
      [8, layer],
      ...(look ? [look] : []),
      [100, of],
      ...rest,
    );
  }

  private reach(edges: readonly Edge[]): void {
    for (const e of edges) {
      const r = e.type === 'arc' && isFullCircle(e) ? e.radius : 0;
      const p = r > 0 && e.type === 'arc' ? e.centre : e.a;
      this.low.x = Math.min(this.low.x, p.u - r);
      this.low.y = Math.min(this.low.y, p.v - r);
      this.high.x = Math.max(this.high.x, p.u + r);
      this.high.y = Math.max(this.high.y, p.v + r);
    }
  }

  private header(): readonly Pair[] {
    const { low, high } = this;
    const set = (name: string, ...values: Pair[]): Pair[] => [[9, name], ...values];
    return section('HEADER', [
      ...set('$ACADVER', [1, 'AC1015']),
      ...set('$HANDSEED', [5, this.used.toString(16).toUpperCase()]),
      ...set('$INSUNITS', [70, MILLIMETRES]),
      ...set('$MEASUREMENT', [70, 1]),
      ...set('$EXTMIN', ...at(low.x, low.y), [30, 0]),
      ...set('$EXTMAX', ...at(high.x, high.y), [30, 0]),
    ]);
  }

  private tables(): readonly Pair[] {
    const layers = ['0', ...this.layers].map((layer): Pair[] => {
      const [name, lines] = typeof layer === 'string' ? [layer, 'Continuous'] : layer;
      return [
        [2, name],
        [70, 0],
        [62, 7],
        [6, lines],
      ];
    });
    const plain = (name: string): Pair[] => [
      [2, name],
      [70, 0],
    ];
    const dashes = (name: string): Pair[] => [...plain(name), [3, ''], [72, 65], [73, 0], [40, 0]];
    const patterns = this.lines.map(({ name, pattern }): Pair[] => [
      ...plain(name),
      [3, ''],
      [72, 65],
      [73, pattern.length],
      [40, real(pattern.reduce((sum, l) => sum + l, 0))],
      ...pattern.flatMap((l, i): Pair[] => [
        [49, real(i % 2 === 0 ? l : -l)],
        [74, 0],
      ]),
    ]);
    const style: Pair[] = [...plain('Standard'), [40, 0], [41, 1], [50, 0], [71, 0], [42, 2.5], [3, 'txt'], [4, '']];
    return section('TABLES', [
      ...table('VPORT', '8', 'AcDbViewportTableRecord', []),
      ...table('LTYPE', '5', 'AcDbLinetypeTableRecord', [
        ...['ByBlock', 'ByLayer', 'Continuous'].map(dashes),
        ...patterns,
      ]),
      ...table('LAYER', '2', 'AcDbLayerTableRecord', layers),
      ...table('STYLE', '3', 'AcDbTextStyleTableRecord', [style]),
      ...table('VIEW', '6', 'AcDbViewTableRecord', []),
      ...table('UCS', '7', 'AcDbUCSTableRecord', []),
      ...table('APPID', '9', 'AcDbRegAppTableRecord', [plain('ACAD')]),
      ...table('DIMSTYLE', 'A', 'AcDbDimStyleTableRecord', []),
      ...table(
        'BLOCK_RECORD',
        '1',
        'AcDbBlockTableRecord',
        [[[2, MODEL]], [[2, PAPER]], ...this.blocks.map(({ name }): Pair[] => [[2, name]])],
        this.blocks.map((b) => b.record),
      ),
    ]);
  }
}

const MODEL = '*Model_Space';
const PAPER = '*Paper_Space';
const MODEL_RECORD = '1A';

function section(name: string, body: readonly Pair[]): readonly Pair[] {
  return [[0, 'SECTION'], [2, name], ...body, [0, 'ENDSEC']];
}

/** A table and its records; the handle of record n is the table's, followed by the n-th letter from A; `last`: of the last ones. */
function table(
  type: string,
  handle: string,
  of: string,
  records: readonly (readonly Pair[])[],
  last: readonly string[] = [],
): readonly Pair[] {
  const head: Pair[] = [
    [0, 'TABLE'],
    [2, type],
    [5, handle],
    [330, '0'],
    [100, 'AcDbSymbolTable'],
    [70, records.length],
  ];
  if (type === 'DIMSTYLE') head.push([100, 'AcDbDimStyleTable']);
  const body = records.flatMap((record, n): Pair[] => {
    const own = last[n - (records.length - last.length)] ?? `${handle}${(10 + n).toString(16).toUpperCase()}`;
    return [[0, type], [5, own], [330, handle], [100, 'AcDbSymbolTableRecord'], [100, of], ...record];
  });
  return [...head, ...body, [0, 'ENDTAB']];
}

function blocksOf(own: readonly Block[]): readonly Pair[] {
  const block = ({ name, record, begin, end, entities }: Block): Pair[] => [
    [0, 'BLOCK'],
    [5, begin],
    [330, record],
    [100, 'AcDbEntity'],
    [8, '0'],
    [100, 'AcDbBlockBegin'],
    [2, name],
    [70, 0],
    [10, 0],
    [20, 0],
    [30, 0],
    [3, name],
    [1, ''],
    ...entities,
    [0, 'ENDBLK'],
    [5, end],
    [330, record],
    [100, 'AcDbEntity'],
    [8, '0'],
    [100, 'AcDbBlockEnd'],
  ];
  const model = { name: MODEL, record: MODEL_RECORD, begin: 'C0', end: 'C1', entities: [] };
  const paper = { name: PAPER, record: '1B', begin: 'C2', end: 'C3', entities: [] };
  return section('BLOCKS', [model, paper, ...own].flatMap(block));
}

function objects(): readonly Pair[] {
  const dictionary = (handle: string, owner: string, ...entries: Pair[]): Pair[] => [
    [0, 'DICTIONARY'],
    [5, handle],
    [330, owner],
    [100, 'AcDbDictionary'],
    [281, 1],
    ...entries,
  ];
  return section('OBJECTS', [...dictionary('D0', '0', [3, 'ACAD_GROUP'], [350, 'D1']), ...dictionary('D1', 'D0')]);
}

function place(code: number, x: number, y: number): readonly Pair[] {
  return [
    [code, real(x)],
    [code + 10, real(y)],
    [code + 20, 0],
  ];
}

/** Letters beyond ASCII by their codes, as the format has them; one beyond the first plane by its two halves. */
function ascii(words: string): string {
  return [...words]
    .map((letter) =>
      /^[ -~]$/.test(letter)
        ? letter
        : Array.from(
            { length: letter.length },
            (_, i) => `\\U+${letter.charCodeAt(i).toString(16).toUpperCase().padStart(4, '0')}`,
          ).join(''),
    )
    .join('')
    .replaceAll('%%', '%%%%%%');
}

function at(x: number, y: number): readonly Pair[] {
  return [
    [10, real(x)],
    [20, real(y)],
  ];
}

function bulgeOf(bulge: number): readonly Pair[] {
  return bulge === 0 ? [] : [[42, Number(bulge.toFixed(12)).toString()]];
}

function real(x: number): string {
  const rounded = Number((Number.isFinite(x) ? x : 0).toFixed(DIGITS));
  return (rounded === 0 ? 0 : rounded)
    .toFixed(DIGITS)
    .replace(/0+$/, '0')
    .replace(/(\.\d*[1-9])0$/, '$1');
}

/** The circle that the edges together make, where they do: one full arc, or arcs of one circle end to end. */
function asCircle(edges: readonly Edge[]): { centre: { u: number; v: number }; radius: number } | undefined {
  const first = edges[0];
  if (first?.type !== 'arc') return undefined;
  const same = edges.every(
    (e) =>
      e.type === 'arc' &&
      e.ccw === first.ccw &&
      Math.hypot(e.centre.u - first.centre.u, e.centre.v - first.centre.v) < 1e-7 &&
      Math.abs(e.radius - first.radius) < 1e-7,
  );
  if (!same) return undefined;
  const round = edges.reduce((sum, e) => sum + lengthOf(e), 0);
  return Math.abs(round - 2 * Math.PI * first.radius) < NEAR ? first : undefined;
}

function halves(e: Edge): readonly [Extract<Edge, { type: 'arc' }>, Extract<Edge, { type: 'arc' }>] {
  if (e.type !== 'arc') throw new Error('a line has no halves');
  const angle = Math.atan2(e.a.v - e.centre.v, e.a.u - e.centre.u) + sweepOf(e) / 2;
  const m = { u: e.centre.u + e.radius * Math.cos(angle), v: e.centre.v + e.radius * Math.sin(angle) };
  return [
    { ...e, b: m },
    { ...e, a: m },
  ];
}
