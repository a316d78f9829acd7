/** Which tolerance grade the shop's own tools hold on a size, and how a tolerance is written a grade wider. */
import { type Maker, makersOf, reachOf } from '../../machining/cutters';
import { boresOf } from '../../machining/drilling';
import { fitLimits, gradeOf, itGrade, parseFit } from '../../reference/fits';
import type { Tolerance } from '../../spec/model';
import type { Reamer, Shop } from '../../spec/shop-model';
import { writeLength } from '../../text/format';
import type { Fix, Limit, RuleContext } from '../rule';
import type { Size } from './sizes';

const TABLE = 'the table of processes (after ANSI B4.2, from memory)';

/** Settings of `tol/process`; `tol/no-reamer` goes by the same. */
export const GRADES: readonly Limit[] = [
  {
    name: 'drilling',
    value: 12,
    unit: 'count',
    what: 'ISO 286 grade that a twist drill holds',
    source: `${TABLE}: IT10 to IT13; 12 without a guide bush is common practice`,
  },
  {
    name: 'milling',
    value: 9,
    unit: 'count',
    what: 'ISO 286 grade that an end mill holds',
    source: `${TABLE}: IT10 to IT13, fine milling IT7 to IT9`,
  },
  {
    name: 'boring',
    value: 7,
    unit: 'count',
    what: 'ISO 286 grade that a boring head holds, measured between cuts',
    source: `common practice: seats to H7 are bored; ${TABLE} has IT8 as the usual finest`,
  },
  {
    name: 'reaming',
    value: 7,
    unit: 'count',
    what: 'ISO 286 grade that a reamer holds which is bought for the hole, or whose class is not known',
    source: `${TABLE}: IT6 to IT10; reamers are stocked to H7`,
  },
  {
    name: 'care',
    value: 2,
    unit: 'count',
    what: 'Grades finer than that which care may still reach: a warning only, an error beyond',
    source: 'common practice, no source: drills reach IT10, fine milling IT7 in the same table',
  },
];

const byName = new Map(GRADES.map((l) => [l.name, l.value]));

/** A setting of `tol/process`, or its default. */
export function setting(shop: Shop, name: string): number {
  return shop.limits.get('tol/process')?.get(name) ?? byName.get(name)!;
}

export interface Held {
  readonly size: Size;
  readonly widthMm: number;
  /** Asked for; 0 where it is finer than IT1. */
  readonly grade: number;
  /** The finest that a tool on hand holds, and what that is in mm. */
  readonly bestGrade: number;
  readonly bestWidthMm: number;
  /** The tool's name, or `an end mill`. */
  readonly by: string;
  /** Tools that would hold it and are too short; how deep it is, mm. */
  readonly short?: { readonly name: string; readonly reachMm: number; readonly neededMm: number };
  /** A reamer of this size whose own limits are others. */
  readonly otherReamer?: Reamer;
}

/**
 * What is asked of a size and what the shop holds; undefined where nothing is finer than the shop holds, where the
 * size is not in the tables (over 500 mm), or where no tool makes it at all, which other rules tell.
 */
export function beyond(size: Size, context: RuleContext): Held | undefined {
  const { upperMm, lowerMm } = size.tolerance;
  if (upperMm === undefined || lowerMm === undefined || size.made === 'form') return undefined;
  const nominalMm = size.length.mm;
  const widthMm = upperMm - lowerMm;
  const grade = gradeOf(nominalMm, widthMm);
  if (grade === undefined) return undefined;
  const found = size.made === 'mill' ? byMill(context.shop) : byTools(size, context, grade);
  if (!found || found.bestGrade <= grade) return undefined;
  return { size, widthMm, grade, bestWidthMm: itGrade(nominalMm, found.bestGrade) ?? 0, ...found };
}

type Best = Pick<Held, 'bestGrade' | 'by' | 'short' | 'otherReamer'>;

function byMill(shop: Shop): Best | undefined {
  const mills = shop.tools.some((t) => t.kind === 'end-mill' || t.kind === 'face-mill');
  return mills ? { bestGrade: setting(shop, 'milling'), by: 'a mill' } : undefined;
}

function byTools(size: Size, context: RuleContext, wanted: number): Best | undefined {
  const { shop } = context;
  const { tolerance, length } = size;
  const bore = {
    nominalMm: length.mm,
    fromMm: length.mm + tolerance.lowerMm!,
    toMm: length.mm + tolerance.upperMm!,
  };
  const neededMm = neededOf(size, context);
  let best: { grade: number; tool: Maker } | undefined;
  let short: Held['short'];
  let otherReamer: Reamer | undefined;
  for (const tool of makersOf(shop, bore)) {
    const grade = gradeBy(tool, size, shop);
    if (grade === undefined) {
      otherReamer = tool as Reamer;
    } else if (reachOf(tool) < neededMm - 1e-6) {
      if (grade <= wanted && reachOf(tool) > (short?.reachMm ?? 0))
        short = { name: tool.name, reachMm: reachOf(tool), neededMm };
    } else if (!best || grade < best.grade) best = { grade, tool };
  }
  if (!best) return undefined;
  return { bestGrade: best.grade, by: best.tool.name, ...(short && { short }), ...(otherReamer && { otherReamer }) };
}

/** What a tool holds here; undefined for a reamer that is made to other limits. */
function gradeBy(tool: Maker, size: Size, shop: Shop): number | undefined {
  switch (tool.kind) {
    case 'drill':
    case 'flat-drill':
      return setting(shop, 'drilling');
    case 'boring-head':
      return setting(shop, 'boring');
    case 'reamer':
      return reamed(tool, size, shop);
    default:
      return setting(shop, 'milling');
  }
}

/** A reamer makes the class it is ground to: all of it must lie within the limits asked for. */
export function reamed(reamer: Reamer, size: Size, shop: Shop): number | undefined {
  const fit = parseFit(reamer.fit);
  const made = fit && fitLimits(reamer.diameterMm, fit.letter, fit.grade);
  if (!fit || !made) return setting(shop, 'reaming');
  const off = reamer.diameterMm - size.length.mm;
  const within =
    off + made.upperMm <= size.tolerance.upperMm! + 1e-6 && off + made.lowerMm >= size.tolerance.lowerMm! - 1e-6;
  return within ? fit.grade : undefined;
}

/** How deep the tool must go: of a hole the material it goes through, else the depth that is written. */
function neededOf({ feature, deepMm, what }: Size, { part, solid }: RuleContext): number {
  if (feature?.kind === 'hole' && what === 'diameter')
    return Math.max(0, ...boresOf(feature, part, solid).map((b) => b.spanMm));
  return deepMm ?? 0;
}

/** Whether care may still reach it; with the built-in shop, that is nobody's own, nothing is certain. */
export function severityOf({ grade, bestGrade }: Held, shop: Shop): 'error' | 'warning' {
  return shop.builtIn || grade >= bestGrade - setting(shop, 'care') ? 'warning' : 'error';
}

/** The tolerance written as wide as the shop holds. */
export function widening({ size, bestGrade, bestWidthMm, by }: Held, { part }: RuleContext): Fix | undefined {
  const text = wider(size.tolerance, size.length.mm, bestGrade, bestWidthMm, part.units);
  if (text === undefined) return undefined;
  const edits = [{ span: size.tolerance.span, newText: text }];
  return { title: `Allow ${text}, which ${by} holds`, safe: false, edits };
}

/** A class keeps its letter, ± stays ±, and one-sided limits keep the side that is nearest to the nominal. */
function wider(
  { fit, upperMm, lowerMm }: Tolerance,
  nominalMm: number,
  grade: number,
  widthMm: number,
  units: 'mm' | 'in',
): string | undefined {
  if (fit) return fitLimits(nominalMm, fit.letter, grade) && `${fit.letter}${grade}`;
  if (upperMm === undefined || lowerMm === undefined || widthMm <= 0) return undefined;
  if (Math.abs(upperMm + lowerMm) < 1e-9) return `±${writeLength(widthMm / 2, units, 'up')}`;
  const middle = (upperMm + lowerMm) / 2;
  const lower = lowerMm >= 0 ? lowerMm : upperMm <= 0 ? upperMm - widthMm : middle - widthMm / 2;
  const upper = lowerMm >= 0 ? lowerMm + widthMm : upperMm <= 0 ? upperMm : middle + widthMm / 2;
  return `${deviation(upper, units, 'upper')}/${deviation(lower, units, 'lower')}`;
}

function deviation(mm: number, units: 'mm' | 'in', which: 'upper' | 'lower'): string {
  const outward = mm >= 0 === (which === 'upper');
  const text = writeLength(Math.abs(mm), units, outward ? 'up' : 'down');
  return `${mm > 0 || (mm === 0 && which === 'upper') ? '+' : '-'}${text}`;
}
