/** Which tolerance grade the shop's own tools hold on a size, and how a tolerance is written a grade wider. */

import { memo } from '../../memo';
import { materialOf } from '../../model/material-of';
import type { Tolerance } from '../../model/model';
import type { Reamer, Shop, Tool } from '../../model/shop-model';
import { isFacer } from '../../model/tool-kinds';
import { endMills, type Maker, makersOf, reachOf, SAME_MM } from '../../process/cutters';
import { boresOf } from '../../process/drilling';
import { gradeHeld, gradeHeldBy, gradeOfMaterial } from '../../process/grades';
import { type Operation, operationsOf } from '../../process/operations';
import { toolAsked } from '../../process/operations/asked';
import { fitLimits, gradeOf, itGrade, parseFit } from '../../tables/fits';
import { isInchFit } from '../../tables/inch-fits';
import { writeLength } from '../../text/format';
import { ROUNDING, SAME } from '../../tolerance';
import type { Fix, RuleContext } from '../kit/rule';
import type { Size } from '../kit/sizes';

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
  /** A set-up names the tool, and another on hand would hold it: that one. */
  readonly instead?: string;
  /** A plastic that holds no finer grade whatever cuts it, by its title. */
  readonly plastic?: string;
}

/**
 * What is asked of a size and what the shop holds; undefined where nothing is finer than the shop holds, where the
 * size is not in the tables (over 500 mm), or where no tool makes it at all, which other rules tell.
 */
export const beyond = memo(findBeyond, {
  by: (size, context) => {
    const { part, shop } = context;
    const { feature } = size;
    const cut = feature && [operationsOf(feature, context), toolAsked(feature.name, part, shop)];
    return [shop, materialOf(part), cut, neededOf(size, context)];
  },
});

function findBeyond(size: Size, context: RuleContext): Held | undefined {
  const { upperMm, lowerMm } = size.tolerance;
  if (upperMm === undefined || lowerMm === undefined || size.made === 'form') return undefined;
  const nominalMm = size.length.mm;
  const widthMm = upperMm - lowerMm;
  const grade = gradeOf(nominalMm, widthMm);
  if (grade === undefined) return undefined;
  const found = size.made === 'mill' ? byMill(size, context) : byTools(size, context, grade);
  const best = found && inMaterial(found, context);
  if (!best || best.bestGrade <= grade) return undefined;
  return { size, widthMm, grade, bestWidthMm: itGrade(nominalMm, best.bestGrade) ?? 0, ...best };
}

type Best = Pick<Held, 'bestGrade' | 'by' | 'short' | 'otherReamer' | 'instead' | 'plastic'>;

/** Where the material holds less than the tool no other tool would help. */
function inMaterial(best: Best, { part, shop }: RuleContext): Best {
  const material = materialOf(part);
  const grade = gradeOfMaterial(material, shop);
  if (!material || grade === undefined || grade <= best.bestGrade) return best;
  return { bestGrade: grade, by: best.by, plastic: material.title };
}

/** By the mill that finishes the feature; of the body's own sizes by any. Nothing where none on hand cuts it. */
function byMill({ feature, what }: Size, context: RuleContext): Best | undefined {
  const { shop } = context;
  const bestGrade = gradeHeld(shop, 'milling');
  if (!feature) {
    return shop.tools.some(isFacer) ? { bestGrade, by: 'a mill' } : undefined;
  }
  const made = operationsOf(feature, context);
  const sawn = made.find((o) => o.does === 'slot');
  // A disc makes a channel's width; how deep it goes is set as with a mill.
  if (sawn?.does === 'slot' && what === 'width') return { bestGrade: gradeHeldBy(sawn.tool, shop), by: sawn.tool.name };
  const finish = sawn ?? made.find((o) => o.does === 'finish') ?? made.find((o) => o.does === 'rough');
  if (finish && 'tool' in finish && finish.tool) return { bestGrade, by: finish.tool.name };
  return endMills(shop).length > 0 ? { bestGrade, by: 'a mill' } : undefined;
}

/** The tool that gives a hole its size in the end, as its cuts have it: drilled and then bored, the boring head. */
function chosenFor(size: Size, context: RuleContext): Maker | undefined {
  if (size.feature?.kind !== 'hole' || size.what !== 'diameter') return undefined;
  const sizes = (o: Operation) => o.does === 'drill' || o.does === 'ream' || o.does === 'bore' || o.does === 'finish';
  const last = operationsOf(size.feature, context).findLast(sizes);
  return last && 'tool' in last ? (last.tool as Maker) : undefined;
}

function byTools(size: Size, context: RuleContext, wanted: number): Best | undefined {
  const best = bestOf(size, context, wanted);
  const chosen = chosenFor(size, context);
  const grade = chosen && gradeBy(chosen, size, context.shop);
  if (!chosen || grade === undefined) return best;
  if (!best || grade < best.bestGrade) return { ...best, bestGrade: grade, by: chosen.name };
  // What nobody asked for is chosen by what holds; a tool that a set-up names is taken at its word.
  const asked = toolAsked(size.feature!.name, context.part, context.shop);
  if (asked !== (chosen as Tool)) return best;
  return { ...best, bestGrade: grade, by: chosen.name, ...(best.bestGrade <= wanted && { instead: best.by }) };
}

function bestOf(size: Size, context: RuleContext, wanted: number): Best | undefined {
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
    } else if (reachOf(tool) < neededMm - SAME) {
      if (grade <= wanted && reachOf(tool) > (short?.reachMm ?? 0))
        short = { name: tool.name, reachMm: reachOf(tool), neededMm };
    } else if (!best || grade < best.grade || (grade === best.grade && stiffer(tool, best.tool)))
      best = { grade, tool };
  }
  // One of this size whose class lies beside the limits is not among the makers.
  otherReamer ??= shop.tools.find(
    (t): t is Reamer => t.kind === 'reamer' && Math.abs(t.diameterMm - length.mm) < SAME_MM,
  );
  if (otherReamer && gradeBy(otherReamer, size, shop) !== undefined) otherReamer = undefined;
  if (!best) return undefined;
  return { bestGrade: best.grade, by: best.tool.name, ...(short && { short }), ...(otherReamer && { otherReamer }) };
}

/** Of two mills that go round in a hole the thicker one bends less. */
function stiffer(a: Maker, b: Maker): boolean {
  return a.kind === 'end-mill' && b.kind === 'end-mill' && a.diameterMm > b.diameterMm;
}

/** What a tool holds here; undefined for a reamer that is made to other limits. */
function gradeBy(tool: Maker, size: Size, shop: Shop): number | undefined {
  return tool.kind === 'reamer' ? reamed(tool, size, shop) : gradeHeldBy(tool, shop);
}

/** A reamer makes the class it is ground to: all of it must lie within the limits asked for. */
export function reamed(reamer: Reamer, size: Size, shop: Shop): number | undefined {
  const fit = parseFit(reamer.fit);
  const made = fit && fitLimits(reamer.diameterMm, fit.letter, fit.grade);
  if (!fit || !made) return gradeHeld(shop, 'reaming');
  const off = reamer.diameterMm - size.length.mm;
  const within =
    off + made.upperMm <= size.tolerance.upperMm! + SAME && off + made.lowerMm >= size.tolerance.lowerMm! - SAME;
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
  return shop.builtIn || grade >= bestGrade - gradeHeld(shop, 'care') ? 'warning' : 'error';
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
  if (fit && !isInchFit(fit.letter)) return fitLimits(nominalMm, fit.letter, grade) && `${fit.letter}${grade}`;
  if (upperMm === undefined || lowerMm === undefined || widthMm <= 0) return undefined;
  if (Math.abs(upperMm + lowerMm) < ROUNDING) return `±${writeLength(widthMm / 2, units, 'up')}`;
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
