/**
 * One budget of errors for a size that a mill makes: what the process of its finishing cut holds, by the grade that
 * `tol/process` judges by, in place of the bare cuts at its two ends; what the set-ups add stays beside it; and the
 * roughness that is left counts only beyond what that grade has by itself.
 */

import { type ByForm, ofForm } from '../../model/feature-kinds';
import { materialOf } from '../../model/material-of';
import type { Part } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import { itGrade } from '../../tables/fits';
import { processAbility } from '../../tables/process';
import { gradeHeld, gradeOfMaterial } from '../grades';
import type { PartInShop } from '../part-in-shop';
import { surfacesOf } from '../tolerances/finish';
import type { Link, Toleranced } from './types';

/** The links as set up, with the process where it is a mill that makes the size; as they are where it is not. */
export function budgeted(of: Toleranced, links: readonly Link[], inShop: PartInShop): readonly Link[] {
  const { part, shop } = inShop;
  if (!milled(of, part)) return links;
  const own = links.filter((l) => l.end !== undefined && of.ends.includes(l.end));
  const grade = heldByMill(part, shop);
  const widthMm = itGrade(of.nominalMm, grade);
  if (own.length === 0 || widthMm === undefined) return links;
  const cutsMm = Math.hypot(...own.map((l) => l.halfMm));
  // Where the machine puts its cuts worse than the grade of the process, that is what counts.
  if (cutsMm >= widthMm / 2) return links;
  const process: Link = {
    what: `milling ${of.ends[1]} from ${of.ends[0]}, IT${grade}`,
    halfMm: widthMm / 2,
    source: 'tol/process, the cuts in it',
    by: 'process',
  };
  const rough = roughness(of, inShop);
  // It stands where the last of the cuts that it is in place of stood.
  const kept = links.flatMap((l) => (l === own.at(-1) ? [process] : own.includes(l) ? [] : [l]));
  return [...kept, ...(rough ? [rough] : [])];
}

/** What a mill holds in this material. */
function heldByMill(part: Part, shop: Shop): number {
  const material = materialOf(part);
  return Math.max(gradeHeld(shop, 'milling'), gradeOfMaterial(material, shop) ?? 0);
}

/** Floors and walls are a mill's; the depth of a drilled hole, of a chamfer or of letters is its cutter's own affair. */
function milled({ given, ends }: Toleranced, part: Part): boolean {
  if (given === 'body' || given === 'width') return true;
  if (given !== 'depth') return false;
  const feature = part.featureByName.get(ends[1]);
  return feature !== undefined && ofForm(FLOOR_MILLED, feature);
}

const FLOOR_MILLED: ByForm<[], boolean> = {
  hole: ({ bottom }) => bottom === 'flat',
  opening: () => true,
  channel: () => true,
  shoulder: () => true,
  outside: () => true,
  ring: () => true,
  edge: () => false,
  letters: () => false,
  slope: () => false,
};

/** Ridges stand over the surface that is meant: their height is four times Ra, and half of it is ±. */
function roughness({ ends }: Toleranced, inShop: PartInShop): Link | undefined {
  const { part } = inShop;
  const feature = part.featureByName.get(ends[1]);
  if (!feature?.finish) return undefined;
  const [, usualUm] = processAbility('fine-milling')?.raUm ?? [0, 0];
  const leftUm = Math.max(0, ...surfacesOf(feature, inShop).map((s) => s.raUm));
  const beyondMm = (4 * (leftUm - usualUm)) / 1000;
  if (beyondMm <= 0) return undefined;
  return {
    what: `roughness of ${ends[1]}, Ra ${leftUm.toFixed(1)} µm`,
    halfMm: beyondMm / 2,
    source: `ridges of 4 Ra beyond the ${usualUm} µm that the grade has`,
    by: 'finish',
  };
}
