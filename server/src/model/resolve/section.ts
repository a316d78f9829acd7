/** What of the stock is said of the section of its bar: round bar, tube, angle, channel, tee. */
import { at, entry as entryOf, type MapEntry, scalarAt } from '../../text/tree';
import type { Axis, Body, Face, Stock, StockForm } from '../model';
import { acrossSection, isHollow, sectionKind, wayOf } from '../section';
import { type Evaluation, itemsOf } from './evaluation';
import { faceNamed } from './places';
import { replace } from './problem';
import { suppliedKeys } from './supplied-sizes';

/** Keys that not every form has, and what they belong to. */
const BELONGS = {
  diameter: 'round bar and tube',
  axis: 'round bar and sections',
  wall: 'tube, angle, channel and tee',
  flange: 'channel and tee',
  root: 'tube, angle, channel and tee',
  open: 'angle, channel and tee',
  thickness: 'flat bar and plate',
  width: 'flat and square bar',
  flatness: 'flat bar, square bar and plate',
  from: 'a blank',
  turned: 'a blank',
  allowance: 'a casting',
  grade: 'a casting',
} as const;

function keysOf(form: StockForm): readonly (keyof typeof BELONGS)[] {
  if (form === 'blank') return ['from', 'turned'];
  if (form === 'casting') return ['allowance', 'grade'];
  const kind = sectionKind(form);
  if (!kind) return form === 'round-bar' ? ['diameter', 'axis'] : suppliedKeys(form);
  return [
    'axis',
    'wall',
    'root',
    ...(kind.open > 0 ? (['open'] as const) : (['diameter'] as const)),
    ...(kind.flanges ? (['flange'] as const) : []),
  ];
}

/** Told and left out: what a bar of this form has not. */
export function oddKeys(work: Evaluation, form: StockForm, { value: map }: MapEntry): void {
  const has = keysOf(form);
  for (const key of Object.keys(BELONGS) as (keyof typeof BELONGS)[]) {
    const odd = at(map, key);
    if (key === 'thickness' && meantWall(form, map)) continue;
    if (odd && !has.includes(key))
      work.remark(
        `\`${key}\` belongs to ${BELONGS[key]}; ${form === 'angle' ? 'an' : 'a'} ${form} has its sizes from the body and \`extra\`. Delete it.`,
        odd.span,
      );
  }
}

/** `thickness` where a section has its `wall`. */
function meantWall(form: StockForm, map: MapEntry['value']): MapEntry | undefined {
  return sectionKind(form) && !at(map, 'wall') ? entryOf(map, 'thickness') : undefined;
}

type Outside = Pick<Stock, 'form' | 'sawn' | 'extra' | 'diameter'>;

/** Which way the bar lies, and its section; undefined, what is wrong told, where it is not said. */
export function sectionOf(
  work: Evaluation,
  entry: MapEntry,
  stock: Outside,
  body: Body | undefined,
): Pick<Stock, 'section' | 'axis'> | undefined {
  const map = entry.value;
  const kind = sectionKind(stock.form)!;
  const sizes = body && outsideOf(body, stock.extra);
  const written = scalarAt(map, 'axis')?.value as Axis | undefined;
  const axis = written ?? (stock.diameter ? (body?.form === 'round' ? body.axis : 'z') : axisOf(stock, sizes));
  const wall = work.length(map, 'wall');
  if (!wall) {
    const meant = meantWall(stock.form, map);
    if (meant)
      work.fail(
        `${article(stock.form)} ${stock.form} has its \`wall\`: how thick it is. Write \`wall\` for \`thickness\`.`,
        meant.key.span,
        { fixes: [replace(meant.key.span, 'wall')] },
      );
    else if (!at(map, 'wall'))
      work.fail(
        `${article(stock.form)} ${stock.form} needs its \`wall\`: how thick it is. Write it like \`wall: 3\`.`,
        entry.key.span,
      );
    return undefined;
  }
  const flange = kind.flanges && at(map, 'flange') ? work.length(map, 'flange') : undefined;
  const root = at(map, 'root') ? work.length(map, 'root', 'from-zero') : undefined;
  const open = kind.open > 0 ? itemsOf(at(map, 'open')).map(faceNamed) : [];
  if (work.broken || !isOpenRight(work, entry, stock.form, open, axis)) return undefined;
  const section = { wall, ...(flange && { flange }), ...(root && { root }), open };
  if (!sizes) return { section, axis };
  const i = (['x', 'y', 'z'] as const).indexOf(axis) as 0 | 1 | 2;
  const d = stock.diameter?.mm;
  const outside = d === undefined ? ([sizes[(i + 1) % 3]!, sizes[(i + 2) % 3]!] as const) : ([d, d] as const);
  if (isHollow(kind.hollows(acrossSection(section, i, d), outside))) return { section, axis };
  const across = outside.map((mm) => Number((mm / work.doc.unitMm).toFixed(4))).join(' × ');
  return work.fail(
    `The section of this ${stock.form} is ${across} ${work.doc.units}. With these walls nothing of it is hollow. Make \`wall\` thinner, or correct \`axis\`.`,
    wall.span,
  );
}

/** The stock's own sizes along x, y, z, mm. */
function outsideOf(body: Body, extra: Stock['extra']): readonly [number, number, number] {
  const over = (a: Face, b: Face) => (extra[a]?.mm ?? 0) + (extra[b]?.mm ?? 0);
  const of = (axis: Axis) =>
    body.form === 'box' ? body[axis].mm : body.axis === axis ? body.length.mm : body.diameter.mm;
  return [of('x') + over('left', 'right'), of('y') + over('front', 'back'), of('z') + over('bottom', 'top')];
}

/** A bar runs where it is sawn, else along its longest side. */
function axisOf({ sawn }: Outside, sizes: readonly [number, number, number] | undefined): Axis {
  const has = (...faces: readonly Face[]) => sawn.some((s) => faces.includes(s.name));
  const cut = [has('left', 'right') && 'x', has('front', 'back') && 'y', has('bottom', 'top') && 'z'].filter(Boolean);
  if (cut.length === 1) return cut[0] as Axis;
  return sizes ? (['x', 'y', 'z'] as const)[sizes.indexOf(Math.max(...sizes))]! : 'x';
}

const article = (form: StockForm) => (/^[aeiou]/.test(form) ? 'An' : 'A');

const LIKE: Readonly<Record<1 | 2, string>> = { 1: '[top]', 2: '[back, top]' };

/** So many sides of the bar, none of them its ends, and of an angle two that meet. */
function isOpenRight(
  work: Evaluation,
  entry: MapEntry,
  form: StockForm,
  open: NonNullable<Stock['section']>['open'],
  axis: Axis,
): boolean {
  const wanted = sectionKind(form)!.open;
  if (wanted === 0) return true;
  const like = `Write it like \`open: ${LIKE[wanted]}\``;
  const span = at(entry.value, 'open')?.span ?? entry.key.span;
  const what =
    wanted === 2
      ? 'the two faces at its empty corner'
      : form === 'tee'
        ? 'the face its web points to'
        : 'its open side';
  const ways = open.flatMap((o) => [wayOf(o.name, (['x', 'y', 'z'] as const).indexOf(axis) as 0 | 1 | 2)]);
  const end = open[ways.indexOf(undefined)];
  if (end) {
    work.fail(`The ${form} runs along ${axis}, and ${end.name} is an end of it. ${like}: ${what}.`, end.span);
    return false;
  }
  const meet = wanted === 1 || (ways.length === 2 && (ways[0]![0] === 0) !== (ways[1]![0] === 0));
  if (open.length === wanted && meet) return true;
  work.fail(`${article(form)} ${form} needs \`open\`: ${what}. ${like}.`, span);
  return false;
}
