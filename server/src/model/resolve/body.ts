/** The finished body, and the stock it is cut from. */
import type { Quantity } from '../../text/expression';
import { at, type MapEntry, mapAt, type ScalarNode, type Span, scalarAt } from '../../text/tree';
import { everydayBody } from '../everyday/header';
import { everydayStock } from '../everyday/stock';
import type { Axis, Body, Face, Length, Stock, StockForm } from '../model';
import { bodySchema } from '../schema/places';
import { shapeOf } from '../schema/shape';
import { stock as stockSchema } from '../schema/stock';
import { sectionKind } from '../section';
import { blankStock, type OtherFile } from './blank';
import { castStock } from './casting';
import { type Database, type Evaluation, itemsOf } from './evaluation';
import { faceNamed } from './places';
import { oddKeys, sectionOf } from './section';
import { suppliedSizes } from './supplied-sizes';
import { faultsOf, wanted } from './validate';

/** Reports what a node's schema finds wrong; true where it can still be understood. */
export function sound(work: Evaluation, shape: Parameters<typeof faultsOf>[0], entry: MapEntry, what: string): boolean {
  if (!entry.value) {
    work.fail(`${what} has no value. Write ${wanted(shape)}.`, entry.key.span);
    return false;
  }
  for (const f of faultsOf(shape, entry.value, what, entry.key.span)) {
    const more = f.fixes ? { fixes: f.fixes } : {};
    if (f.breaks) work.fail(f.message, f.span, more);
    else work.remark(f.message, f.span, more);
  }
  return !work.broken;
}

const BODY = shapeOf(bodySchema);
const STOCK = shapeOf(stockSchema);

/** One length of the body, in a cell of its own, so that `y: body.x / 2` may be said inside `body`. */
export function bodyLength(doc: Database, body: MapEntry | undefined, key: string): Length | 'circle' | undefined {
  const node = scalarAt(body?.value, key);
  if (!node) return undefined;
  return doc.cell(`body/body.${key}`, [node], (work) => {
    const length = work.lengthOf(node, key);
    if (!length && work.circle !== undefined) {
      work.fail(
        `The sizes of the body go in a circle: ${work.doc.circle(`body/body.${doc.answers.extentKey(work.circle)}`)}.`,
        node.span,
      );
    }
    return length;
  });
}

function bodyAxis(body: MapEntry | undefined): Axis {
  const axis = scalarAt(body?.value, 'axis')?.value;
  return axis === 'x' || axis === 'y' ? axis : 'z';
}

/** Asked for like an extent: which axis a round body lies along, counted from x. */
export const ROUND = 'round';

export function roundAxis(body: MapEntry | undefined): Quantity | 'unknown' {
  if (!at(body?.value, 'diameter')) return 'unknown';
  return { dimension: 'number', value: ['x', 'y', 'z'].indexOf(bodyAxis(body)) };
}

/** Where the body's extent along an axis is written: `x`, or `diameter` and `length` of a round one. */
export function extentKey(body: MapEntry | undefined, axis: string): string {
  if (!at(body?.value, 'diameter')) return axis;
  return bodyAxis(body) === axis ? 'length' : 'diameter';
}

export function bodyOf(work: Evaluation, entry: MapEntry): Body | undefined {
  const everyday = entry.value && faultsOf(BODY, entry.value, '`body`').length > 0 ? everydayBody(entry) : undefined;
  if (everyday) return work.fail(everyday.message, entry.value!.span, { fixes: everyday.fixes });
  if (!sound(work, BODY, entry, '`body`')) return undefined;
  const read = (key: string) => {
    const length = bodyLength(work.doc, entry, key);
    return length === 'circle' ? undefined : length;
  };
  const span = entry.span;
  if (at(entry.value, 'diameter')) {
    const [diameter, length] = [read('diameter'), read('length')];
    return diameter && length && { form: 'round', diameter, length, axis: bodyAxis(entry), span };
  }
  const [x, y, z] = [read('x'), read('y'), read('z')];
  return x && y && z && { form: 'box', x, y, z, span };
}

/** No stock written: a block (or a round bar) of exactly the body's size. */
export function bodyAsStock(body: Body | undefined, span: Span): Stock {
  const none = { written: false, sawn: [], extra: {}, span } as const;
  if (body?.form !== 'round') return { ...none, form: 'block' };
  const diameter = { ...body.diameter, from: 'no `stock` is given: the body’s own diameter' };
  return { ...none, form: 'round-bar', diameter, axis: body.axis };
}

function faultsIn({ value }: MapEntry): boolean {
  return value !== undefined && faultsOf(STOCK, value, '`stock`').length > 0;
}

/** A box in the document's unit. */
function sizesOf(work: Evaluation, body: Body | undefined) {
  if (body?.form !== 'box') return undefined;
  const size = ({ mm }: Length) => Number((mm / work.doc.unitMm).toFixed(6));
  return { x: size(body.x), y: size(body.y), z: size(body.z) };
}

/** The stock as written; undefined, its problems told, where it cannot be understood. */
export function stockOf(
  work: Evaluation,
  entry: MapEntry,
  body: Body | undefined,
  other: OtherFile,
): Stock | undefined {
  const everyday = faultsIn(entry) ? everydayStock(entry, sizesOf(work, body)) : undefined;
  if (everyday) return work.fail(everyday.message, entry.value!.span, { fixes: everyday.fixes });
  if (!sound(work, STOCK, entry, '`stock`')) return undefined;
  const map = entry.value;
  const form = scalarAt(map, 'form')!.value as StockForm;
  const sawn = itemsOf(at(map, 'sawn')).map(faceNamed);
  const extra: Partial<Record<Face, Length>> = {};
  for (const e of mapAt(map, 'extra')?.entries ?? []) {
    // A key without a value is told of already.
    if (!e.value) continue;
    const length = work.lengthOf(e.value as ScalarNode, String(e.key.value), 'from-zero');
    if (length) extra[e.key.value as Face] = length;
  }
  const round = form === 'round-bar';
  const diameter = at(map, 'diameter') ? work.length(map, 'diameter') : roundDiameter(work, form, body, entry);
  const axis = scalarAt(map, 'axis')?.value as Axis | undefined;
  oddKeys(work, form, entry);
  if (work.broken) return undefined;
  const base = { written: true, form, sawn, extra, span: entry.span } as const;
  if (form === 'casting') return castStock(work, entry, base, body);
  if (form === 'blank') return blankStock(work, entry, { base, body, other });
  if (sectionKind(form)) {
    const outside = { ...base, ...(form === 'tube' && diameter && { diameter }) };
    const section = sectionOf(work, entry, outside, body);
    return section && { ...outside, ...section };
  }
  const stock: Stock = {
    ...base,
    ...(round && diameter && { diameter }),
    ...(round && { axis: axis ?? (body?.form === 'round' ? body.axis : 'z') }),
  };
  const supplied = suppliedSizes(work, entry, stock, body);
  return work.broken ? undefined : { ...stock, ...supplied };
}

/** Round bar has one; a tube is round where it has one or the body is. */
function roundDiameter(work: Evaluation, form: StockForm, body: Body | undefined, entry: MapEntry): Length | undefined {
  const round = form === 'round-bar';
  if (!body || !(round || (form === 'tube' && body.form === 'round'))) return undefined;
  if (body.form === 'round') return { ...body.diameter, span: entry.span, from: 'the body’s own diameter' };
  return work.fail('Round bar needs its `diameter`. Write it like `diameter: 40`.', entry.key.span);
}
