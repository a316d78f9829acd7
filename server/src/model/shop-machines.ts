/** Machines, vises, holders and bars of a shop, from their text, with the usual values where something is left out. */
import { findMaterial, nearestMaterial } from '../tables/materials';
import { at, type MapEntry, type MapNode, mapAt, scalarAt, type TextNode } from '../text/tree';
import { isSound } from './header';
import type { Length, StockForm } from './model';
import { quote, replace } from './resolve/problem';
import { rackItem } from './schema/rack';
import { holder, machine, vise, ZERO_ERRORS } from './schema/shop';
import { sectionKind } from './section';
import type { Fields } from './shop-fields';
import type { Machine, RackItem, RackSide, Shop, Vise } from './shop-model';
import { sound } from './shop-sound';
import { tolerancedLength } from './toleranced-length';

const PRACTICE = 'common practice, no source';
/** Play of the screws of a machine that hands feed, and how fast they do. */
const HAND_BACKLASH_MM = 0.1;
const HAND_FEED_MM_PER_MIN = 400;

/** One machine; undefined, its problems told, where a field is missing or wrong. */
export function readMachine(fields: Fields, entry: MapEntry): Machine | undefined {
  const name = String(entry.key.value);
  const node = sound(fields, machine, entry, `Machine ${quote(name)}`);
  if (!node) return undefined;
  const before = fields.problems.length;
  const assume = <T extends number | string>(field: string, value: T, why: string, unit = '') =>
    fields.assume({ of: `machines/${name}`, span: entry.key.span, field }, value, why, unit);
  const travel = mapAt(node, 'travel');
  const spindle = mapAt(node, 'spindle');
  const [x, y, z] = (['x', 'y', 'z'] as const).map((axis) => fields.size(travel, axis));
  const rpm = readRpm(fields, spindle);
  const stepsRpm = rpm && readSteps(fields, spindle, rpm);
  const setBy = fields.word(spindle, 'speed-set-by') as Machine['setBy'];
  const stiffnessNPerMm = fields.quantity(node, 'stiffness', 'stiffness');
  const powerW = fields.quantity(spindle, 'power', 'power');
  const torqueNm = fields.quantity(spindle, 'torque', 'torque');
  const daylightMm = fields.size(node, 'daylight');
  const tableLoadG = fields.quantity(node, 'table-load', 'mass');
  const hands = readHands(fields, node, assume);
  const zeroErrorMm = readZeroErrors(fields, mapAt(node, 'zero-error'), (way, usualMm) =>
    assume(`zero-error.${way}`, usualMm, 'common practice', ' mm'),
  );
  const dial = readDial(fields, mapAt(node, 'dials'));
  const toolChangeS = scalarAt(node, 'tool-change')
    ? fields.quantity(node, 'tool-change', 'time', 's')
    : assume('tool-change', 90, 'common practice, by hand', ' s');
  if (fields.problems.length > before || !x || !y || !z || !rpm || powerW === undefined) return undefined;
  return {
    name,
    span: entry.span,
    travelMm: [x, y, z],
    rpm,
    ...(stepsRpm && { stepsRpm }),
    ...(setBy && { setBy }),
    ...(stiffnessNPerMm !== undefined && { stiffnessNPerMm }),
    powerW,
    ...(torqueNm !== undefined && { torqueNm }),
    ...hands,
    zeroErrorMm,
    ...takesOf(node),
    ...(tableLoadG !== undefined && { tableLoadKg: tableLoadG / 1000 }),
    ...(daylightMm !== undefined && { daylightMm }),
    toolChangeS: toolChangeS ?? 90,
    ...dial,
  };
}

function takesOf(node: MapNode): Pick<Machine, 'takes'> {
  const written = at(node, 'takes');
  if (written?.type !== 'list') return {};
  return { takes: written.items.flatMap((item) => (item.type === 'scalar' ? [item.source] : [])) };
}

type Assume = <T extends number | string>(field: string, value: T, why: string, unit?: string) => T;

/** What a machine does by itself, and what hands do on it. */
function readHands(
  fields: Fields,
  node: MapNode,
  assume: Assume,
): Pick<Machine, 'coolant' | 'control' | 'tapping' | 'backlashMm' | 'feedMmPerMin'> {
  const coolant =
    (fields.word(node, 'coolant') as Machine['coolant'] | undefined) ??
    assume('coolant', 'none', 'nothing is said of any');
  const control =
    (fields.word(node, 'control') as Machine['control'] | undefined) ?? assume('control', 'program', PRACTICE);
  const tapping =
    (fields.word(node, 'tapping') as Machine['tapping'] | undefined) ?? assume('tapping', 'hand', PRACTICE);
  const fed = control !== 'program';
  const backlashMm = scalarAt(node, 'backlash')
    ? (fields.lengthFrom0(node, 'backlash') ?? 0)
    : assume('backlash', fed ? HAND_BACKLASH_MM : 0, PRACTICE, ' mm');
  const feedMmPerMin = scalarAt(node, 'feed')
    ? fields.quantity(node, 'feed', 'feed', fields.units === 'in' ? 'in/min' : 'mm/min')
    : fed
      ? assume('feed', HAND_FEED_MM_PER_MIN, `${PRACTICE}: 200 to 400 mm/min by hand`, ' mm/min')
      : undefined;
  return { coolant, control, tapping, backlashMm, ...(feedMmPerMin !== undefined && { feedMmPerMin }) };
}

function readDial(fields: Fields, node: MapNode | undefined): Pick<Machine, 'dial'> {
  const turnMm = fields.size(node, 'turn');
  const divisions = fields.number(node, 'divisions', 1);
  if (!turnMm || !divisions) return {};
  const unit = (fields.word(node, 'unit') as 'mm' | 'in' | undefined) ?? fields.units;
  return { dial: { unit, turnMm, markMm: turnMm / divisions } };
}

/** How well each way of finding an edge finds it, mm. */
function readZeroErrors(
  fields: Fields,
  given: MapNode | undefined,
  assume: (way: string, usualMm: number) => number,
): Record<string, number> {
  const found: Record<string, number> = {};
  for (const [way, { usualMm }] of Object.entries(ZERO_ERRORS))
    found[way] = scalarAt(given, way) ? (fields.size(given, way) ?? usualMm) : assume(way, usualMm);
  return found;
}

function readRpm(fields: Fields, spindle: MapNode | undefined): readonly [number, number] | undefined {
  const node = at(spindle, 'rpm');
  if (node?.type !== 'list') return undefined;
  const speeds = node.items.map((item) => (item.type === 'scalar' ? fields.numberOf(item, 'rpm', 0) : undefined));
  const [slowest, fastest] = speeds;
  if (node.items.length !== 2) {
    fields.problem(
      'form/schema',
      '`rpm` needs two speeds, the slowest and the fastest. Write them like `[150, 5000]`.',
      node.span,
    );
    return undefined;
  }
  if (slowest === undefined || fastest === undefined) return undefined;
  if (slowest > fastest) {
    const swapped = `[${fastest}, ${slowest}]`;
    const message = `The slowest speed, ${slowest}, is over the fastest, ${fastest}. Write \`${swapped}\`.`;
    fields.problem('form/schema', message, node.span, { fixes: [replace(node.span, swapped)] });
    return undefined;
  }
  return [slowest, fastest];
}

/** Slowest first; one beyond `rpm` is a slip of the pen in either. */
function readSteps(
  fields: Fields,
  spindle: MapNode | undefined,
  [slowest, fastest]: readonly [number, number],
): readonly number[] | undefined {
  const node = at(spindle, 'steps');
  if (node?.type !== 'list') return undefined;
  const steps: number[] = [];
  for (const item of node.items) {
    const rpm = item.type === 'scalar' ? fields.numberOf(item, 'steps', 0) : undefined;
    if (rpm === undefined) continue;
    if (rpm < slowest || rpm > fastest) {
      const message = `A step of ${rpm} is outside \`rpm\`, ${slowest} to ${fastest}. Correct one of the two.`;
      fields.problem('form/schema', message, item.span);
    } else steps.push(rpm);
  }
  return steps.length > 0 ? steps.sort((a, b) => a - b) : undefined;
}

/** How high a vise's bed is against the width of its jaws. Common practice, no source: 60 to 75 mm for a 100 mm vise. */
const BED_SHARE = 0.65;

/** One vise; as for machines. */
export function readVise(fields: Fields, entry: MapEntry): Vise | undefined {
  const name = String(entry.key.value);
  const node = sound(fields, vise, entry, `Vise ${quote(name)}`);
  if (!node) return undefined;
  const before = fields.problems.length;
  const jaw = mapAt(node, 'jaw');
  const jawWidthMm = fields.size(jaw, 'width');
  const jawHeightMm = fields.size(jaw, 'height');
  const opensMm = fields.size(node, 'opens');
  const massG = fields.quantity(node, 'mass', 'mass');
  const assume = <T extends number | string>(field: string, value: T, why: string, unit = '') =>
    fields.assume({ of: `vises/${name}`, span: entry.key.span, field }, value, why, unit);
  const forceN = scalarAt(node, 'force')
    ? fields.quantity(node, 'force', 'force')
    : assume(
        'force',
        (jawWidthMm ?? 0) * 150,
        'common practice: 15 kN for a 100 mm vise, in proportion to the width',
        ' N',
      );
  const bedMm = scalarAt(node, 'bed')
    ? (fields.size(node, 'bed') ?? 0)
    : assume('bed', BED_SHARE * (jawWidthMm ?? 0), 'common practice: 0.65 of the jaws’ width', ' mm');
  const face = (fields.word(node, 'face') as Vise['face'] | undefined) ?? assume('face', 'smooth', 'common practice');
  if (fields.problems.length > before || !jawWidthMm || !jawHeightMm || !opensMm || forceN === undefined)
    return undefined;
  const mass = massG === undefined ? {} : { massKg: massG / 1000 };
  const count = fields.number(node, 'count', 1, true) ?? 1;
  return { name, span: entry.span, jawWidthMm, jawHeightMm, opensMm, bedMm, ...mass, forceN, face, count };
}

/** One tool holder; as for machines. */
export function readHolder(fields: Fields, entry: MapEntry): Shop['holders'][number] | undefined {
  const name = String(entry.key.value);
  const node = sound(fields, holder, entry, `Holder ${quote(name)}`);
  const diameterMm = fields.size(node, 'diameter');
  const lengthMm = fields.size(node, 'length');
  const given = fields.quantity(node, 'slips-at', 'force');
  const slipsAtN = fields.word(node, 'grips') === 'set-screw' ? Number.POSITIVE_INFINITY : given;
  if (!diameterMm || !lengthMm) return undefined;
  return { name, span: entry.span, diameterMm, lengthMm, ...(slipsAtN !== undefined && { slipsAtN }) };
}

/** One bar or plate. `i` counts from 0, for messages. */
export function readRackItem(fields: Fields, node: MapNode, i: number, own: readonly string[]): RackItem | undefined {
  const what = `Bar ${i + 1} of the rack`;
  if (!isSound(fields, rackItem, node, what, node.span)) return undefined;
  const material = materialOf(fields, node, own);
  const before = fields.problems.length;
  const form = fields.word(node, 'form') as StockForm;
  const section = mapAt(node, 'section');
  const width = sizeOf(fields, section, 'width');
  const thickness = sizeOf(fields, section, 'thickness') ?? (form === 'square-bar' ? width : undefined);
  const diameter = sizeOf(fields, node, 'diameter');
  const [widthMm, thicknessMm, diameterMm] = [width?.mm, thickness?.mm, diameter?.mm];
  const [wall, flange] = [sizeOf(fields, node, 'wall'), sizeOf(fields, node, 'flange')];
  const [wallMm, flangeMm] = [wall?.mm, flange?.mm];
  const limits = limitsOf({ width, thickness, diameter, wall, flange });
  sectionFits(fields, node, form, what, { widthMm, thicknessMm, diameterMm });
  wallsFit(fields, node, form, what);
  const lengthsMm = lengthsAt(fields, node, 'lengths') ?? [
    fields.assume({ of: `rack/${i + 1}`, span: node.span, field: 'lengths' }, 1000, 'common practice', ' mm'),
  ];
  const perMetre = fields.number(node, 'per-metre', 0);
  const offcutsMm = lengthsAt(fields, node, 'offcuts') ?? [];
  const prices = pricesOf(fields, node, lengthsMm.length);
  if (fields.problems.length > before || material === undefined) return undefined;
  return {
    form,
    material,
    ...(widthMm !== undefined && { widthMm }),
    ...(thicknessMm !== undefined && { thicknessMm }),
    ...(diameterMm !== undefined && { diameterMm }),
    ...(wallMm !== undefined && { wallMm }),
    ...(flangeMm !== undefined && { flangeMm }),
    ...(limits && { limits }),
    lengthsMm,
    ...(perMetre !== undefined && { perMetre }),
    ...(prices && { prices }),
    offcutsMm,
    span: node.span,
  };
}

function sizeOf(fields: Fields, map: TextNode | undefined, key: string): Length | undefined {
  const node = scalarAt(map, key);
  return node && tolerancedLength(fields, node, node.source);
}

function limitsOf(sizes: Readonly<Record<RackSide, Length | undefined>>): RackItem['limits'] {
  const known = Object.entries(sizes).flatMap(([side, size]) => {
    const { upperMm, lowerMm } = size?.tolerance ?? {};
    return upperMm === undefined || lowerMm === undefined ? [] : [[side, { upperMm, lowerMm }] as const];
  });
  return known.length > 0 ? Object.fromEntries(known) : undefined;
}

/** Undefined where there is no such list. */
function lengthsAt(fields: Fields, node: MapNode, key: string): readonly number[] | undefined {
  const list = at(node, key);
  if (list?.type !== 'list') return undefined;
  return list.items.flatMap((l) => (l.type === 'scalar' ? (fields.lengthOf(l, key, 'over 0') ?? []) : []));
}

function pricesOf(fields: Fields, node: MapNode, lengths: number): readonly number[] | undefined {
  const list = at(node, 'prices');
  if (list?.type !== 'list') return undefined;
  const prices = list.items.flatMap((p) => (p.type === 'scalar' ? (fields.numberOf(p, 'prices', 0) ?? []) : []));
  if (prices.length === lengths) return prices;
  const message = `\`prices\` has ${list.items.length} for ${lengths} \`lengths\`. Write one for each, in the same order, like \`[20, 25]\`.`;
  fields.problem('form/schema', message, list.span);
  return undefined;
}

function sectionFits(
  fields: Fields,
  node: MapNode,
  form: StockForm,
  what: string,
  has: Readonly<Record<'widthMm' | 'thicknessMm' | 'diameterMm', number | undefined>>,
): void {
  const span = scalarAt(node, 'form')?.span ?? node.span;
  if (form === 'round-bar' && has.diameterMm === undefined && at(node, 'section')) {
    fields.problem(
      'form/schema',
      `${what} is round: it has a \`diameter\`, not a \`section\`. Write \`diameter: 40\`.`,
      span,
    );
  } else if (form !== 'round-bar' && form !== 'tube' && at(node, 'diameter')) {
    fields.problem(
      'form/schema',
      `${what} is not round: it has a \`section\`, not a \`diameter\`. Write \`section: [40, 16]\`.`,
      span,
    );
  } else if (
    form !== 'round-bar' &&
    has.widthMm !== undefined &&
    has.thicknessMm === undefined &&
    !scalarAt(mapAt(node, 'section'), 'thickness')
  ) {
    fields.problem(
      'form/schema',
      `${what} needs the \`thickness\` of its section. Write it like \`section: { width: 40, thickness: 16 }\`.`,
      mapAt(node, 'section')?.span ?? span,
    );
  } else if (form === 'square-bar' && has.thicknessMm !== has.widthMm) {
    fields.problem(
      'form/schema',
      `${what} is square bar, but its width and thickness differ. Make them the same, or write \`form: flat-bar\`.`,
      span,
    );
  }
}

/** A hollow or open section has a wall; a solid bar has none. */
function wallsFit(fields: Fields, node: MapNode, form: StockForm, what: string): void {
  const kind = sectionKind(form);
  const odd = scalarAt(node, kind ? (kind.flanges ? '' : 'flange') : at(node, 'wall') ? 'wall' : 'flange');
  if (kind && !at(node, 'wall')) {
    const span = scalarAt(node, 'form')?.span ?? node.span;
    fields.problem('form/schema', `${what} needs its \`wall\`: how thick it is. Write it like \`wall: 3\`.`, span);
  } else if (odd) {
    const has = kind ? 'no flanges' : 'no wall';
    fields.problem('form/schema', `${what} is ${form}: it has ${has}. Delete it.`, odd.span);
  }
}

/** Our name of the material; an unknown one is told and kept as written, for the bar is there all the same. */
function materialOf(fields: Fields, node: MapNode, own: readonly string[]): string | undefined {
  const scalar = scalarAt(node, 'material');
  if (!scalar) return undefined;
  if (own.includes(scalar.source)) return scalar.source;
  const known = findMaterial(scalar.source);
  if (known) return known.name;
  const like = nearestMaterial(scalar.source)?.name;
  const message = like
    ? `There is no material ${quote(scalar.source)} in the tables. Did you mean \`${like}\`?`
    : `There is no material ${quote(scalar.source)} in the tables. Write one like \`aluminium-6061-t6\`.`;
  fields.problem('stock/unknown-material', message, scalar.span, {
    facts: like ? { material: scalar.source, nearest: like } : { material: scalar.source },
    ...(like && { fixes: [replace(scalar.span, like)] }),
  });
  return scalar.source;
}
