/** What sits in a hole, by name: a parallel pin or a ball bearing gives the hole its diameter and its class. */
import { findBearing, ringLimits } from '../../tables/bearings';
import { fitLimits } from '../../tables/fits';
import { pinText, readPin } from '../../tables/pins';
import { writeLength } from '../../text/format';
import { type MapNode, type ScalarNode, type Span, scalarAt } from '../../text/tree';
import type { Length } from '../base';
import { type Evaluation, textOf } from '../resolve/evaluation';
import { quote } from '../resolve/problem';

export interface Seat {
  /** As it is bought: `ISO 8734 5 m6`, `608`. */
  readonly name: string;
  readonly what: 'pin' | 'bearing';
  /** Least and most play between the two, mm; less than 0 where they press. */
  readonly playMm: readonly [number, number];
  readonly span: Span;
}

/** The class of the hole by how the thing is to sit. Common practice, no source. */
const CLASSES = {
  pin: { press: ['H', 7], slip: ['F', 7] },
  bearing: { press: ['N', 7], slip: ['H', 7] },
} as const;
/** How it sits where nothing is said: a pin is driven in, a bearing's outer ring is pushed in by hand. */
const USUAL = { pin: 'press', bearing: 'slip' } as const;

/** The hole for what `pin` or `bearing` names. */
export function seatIn(work: Evaluation, map: MapNode): { readonly hole: Length; readonly seat: Seat } | undefined {
  for (const what of ['pin', 'bearing'] as const) {
    const node = scalarAt(map, what);
    if (node) return seatOf(work, node, what);
  }
  return undefined;
}

function seatOf(work: Evaluation, node: ScalarNode, what: Seat['what']) {
  const written = textOf(node).trim();
  const sits = /\s+(press|slip)$/.exec(written);
  const bought = thingOf(work, node, what, sits ? written.slice(0, sits.index) : written);
  if (!bought) return undefined;
  const how = (sits?.[1] ?? USUAL[what]) as 'press' | 'slip';
  const [letter, grade] = CLASSES[what][how];
  const limits = fitLimits(bought.mm, letter, grade)!;
  const own = bought.limits;
  const playMm = [limits.lowerMm - own.upperMm, limits.upperMm - own.lowerMm] as const;
  const micron = (mm: number) => `${mm > 0 ? '+' : ''}${Math.round(mm * 1000)}`;
  const from = `${what} ${bought.name}, ${how === 'press' ? 'pressed in' : 'slips in'}: ${letter}${grade}, play ${micron(playMm[0])} to ${micron(playMm[1])} µm`;
  const tolerance = {
    text: `${letter}${grade}`,
    fit: { letter, grade },
    span: node.span,
    upperMm: limits.upperMm,
    lowerMm: limits.lowerMm,
  };
  const text = writeLength(bought.mm, work.doc.units);
  return {
    hole: { mm: bought.mm, text, span: node.span, from, tolerance },
    seat: { name: bought.name, what, playMm, span: node.span },
  };
}

interface Bought {
  readonly name: string;
  readonly mm: number;
  readonly limits: { readonly lowerMm: number; readonly upperMm: number };
}

function thingOf(work: Evaluation, node: ScalarNode, what: Seat['what'], text: string): Bought | undefined {
  if (what === 'bearing') {
    const found = findBearing(text);
    const limits = found && ringLimits('outside', found.outsideMm);
    if (found && limits) return { name: found.designation, mm: found.outsideMm, limits };
    return work.fail(
      `The tables have no bearing ${quote(text)}. Write one like \`608\`, or its seat as \`diameter: 22 H7\`.`,
      node.span,
      {},
      'form/unknown-name',
    );
  }
  const read = readPin(text);
  if (!read.ok) return work.fail(`${quote(text)} ${read.why}.`, node.span, {}, 'form/unknown-name');
  const { diameterMm, letter, grade } = read.pin;
  return { name: pinText(read.pin, read.pin.lengthMm), mm: diameterMm, limits: fitLimits(diameterMm, letter, grade)! };
}
