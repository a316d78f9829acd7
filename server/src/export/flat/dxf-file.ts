/**
 * The drawing exchange format as its openly published reference describes it (the form of the year 2000, text): pairs of
 * a group code and a value, a line each. Entities only of the plainest kinds, on layers of our own; lengths in mm.
 */

import { isFullCircle, lengthOf, sweepOf } from '../../geometry/2d/edge';
import type { Edge, Loop } from '../../geometry/types';
import { line } from '../../text/shown';
import { NEAR, ROUNDING } from '../../tolerance';

type Pair = readonly [code: number, value: string | number];

/** $INSUNITS: millimetres. */
const MILLIMETRES = 4;
/** Digits after the point: a thousandth of what any cutter holds. */
const DIGITS = 6;

export class DxfFile {
  private readonly entities: Pair[] = [];
  private used = 0x100;
  private readonly low = { x: Number.POSITIVE_INFINITY, y: Number.POSITIVE_INFINITY };
  private readonly high = { x: Number.NEGATIVE_INFINITY, y: Number.NEGATIVE_INFINITY };

  constructor(private readonly layers: readonly string[]) {}

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
    const pairs: Pair[] = [...this.header(), ...section('CLASSES', []), ...this.tables(), ...blocks()];
    pairs.push(...section('ENTITIES', this.entities), ...objects(), [0, 'EOF']);
    return `${pairs.map(([code, value]) => `${String(code).padStart(3)}\n${typeof value === 'string' ? line(value) : value}`).join('\n')}\n`;
  }

  private entity(type: string, layer: string, of: string, rest: readonly Pair[]): void {
    const handle = (this.used++).toString(16).toUpperCase();
    this.entities.push(
      [0, type],
      [5, handle],
      [330, MODEL_RECORD],
      [100, 'AcDbEntity'],
      [8, layer],
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
    const layers = ['0', ...this.layers].map((name): Pair[] => [
      [2, name],
      [70, 0],
      [62, 7],
      [6, 'Continuous'],
    ]);
    const plain = (name: string): Pair[] => [
      [2, name],
      [70, 0],
    ];
    const dashes = (name: string): Pair[] => [...plain(name), [3, ''], [72, 65], [73, 0], [40, 0]];
    const style: Pair[] = [...plain('Standard'), [40, 0], [41, 1], [50, 0], [71, 0], [42, 2.5], [3, 'txt'], [4, '']];
    return section('TABLES', [
      ...table('VPORT', '8', 'AcDbViewportTableRecord', []),
      ...table('LTYPE', '5', 'AcDbLinetypeTableRecord', ['ByBlock', 'ByLayer', 'Continuous'].map(dashes)),
      ...table('LAYER', '2', 'AcDbLayerTableRecord', layers),
      ...table('STYLE', '3', 'AcDbTextStyleTableRecord', [style]),
      ...table('VIEW', '6', 'AcDbViewTableRecord', []),
      ...table('UCS', '7', 'AcDbUCSTableRecord', []),
      ...table('APPID', '9', 'AcDbRegAppTableRecord', [plain('ACAD')]),
      ...table('DIMSTYLE', 'A', 'AcDbDimStyleTableRecord', []),
      ...table('BLOCK_RECORD', '1', 'AcDbBlockTableRecord', [[[2, MODEL]], [[2, PAPER]]]),
    ]);
  }
}

const MODEL = '*Model_Space';
const PAPER = '*Paper_Space';
const MODEL_RECORD = '1A';

function section(name: string, body: readonly Pair[]): readonly Pair[] {
  return [[0, 'SECTION'], [2, name], ...body, [0, 'ENDSEC']];
}

/** A table and its records; the handle of record n is the table's, followed by the n-th letter from A. */
function table(type: string, handle: string, of: string, records: readonly (readonly Pair[])[]): readonly Pair[] {
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
    const own = `${handle}${(10 + n).toString(16).toUpperCase()}`;
    return [[0, type], [5, own], [330, handle], [100, 'AcDbSymbolTableRecord'], [100, of], ...record];
  });
  return [...head, ...body, [0, 'ENDTAB']];
}

function blocks(): readonly Pair[] {
  const block = (name: string, record: string, begin: string, end: string): Pair[] => [
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
    [0, 'ENDBLK'],
    [5, end],
    [330, record],
    [100, 'AcDbEntity'],
    [8, '0'],
    [100, 'AcDbBlockEnd'],
  ];
  return section('BLOCKS', [...block(MODEL, MODEL_RECORD, 'C0', 'C1'), ...block(PAPER, '1B', 'C2', 'C3')]);
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
