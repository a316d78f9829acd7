/** What a sheet is made from: the part as it was read, its set-ups as written or as planned, and what the paper is tied to. */

import type { Setup } from '../model/model';
import { hiddenIn } from '../planning/keep';
import { knownPlan, planFor } from '../planning/plan-cache';
import { type PlanTime, timeOf } from '../planning/times';
import type { CheckedPart } from '../rules/checked-part';
import type { ReadPart } from '../rules/judging';

/** Where the set-ups come from; `none`: the text has none, and no whole plan was found. */
type Source = 'written' | 'planned' | 'none';

export interface SheetPart {
  readonly checked: CheckedPart;
  /** The part with the set-ups that are printed. */
  readonly read: ReadPart;
  readonly setups: readonly Setup[];
  readonly source: Source;
  readonly time?: PlanTime;
  readonly errors: number;
}

/** `plan`: whether to look for one where none is known, which may take seconds. `quantity`: a job's, in place of the part's. */
export function sheetPartOf(checked: CheckedPart, { plan = true, quantity = checked.part.quantity } = {}): SheetPart {
  const part = { ...checked.part, quantity };
  const errors = checked.findings.filter((f) => f.severity === 'error').length;
  const { source, setups } = setupsOf(checked, plan);
  const asWritten = source === 'written' && quantity === checked.part.quantity;
  const read: ReadPart = asWritten ? checked : { ...piecesOf(checked), part: { ...part, setups } };
  const time = setups.length > 0 && checked.shop.machines.length > 0 ? timeOf(setups, read) : undefined;
  return { checked, read, setups, source, errors, ...(time && { time }) };
}

function piecesOf({ tree, part, solid, shop }: CheckedPart): ReadPart {
  return { tree, part, solid, shop };
}

function setupsOf(checked: CheckedPart, plan: boolean): Pick<SheetPart, 'source' | 'setups'> {
  const { part } = checked;
  if (part.setups && part.setups.length > 0) return { source: 'written', setups: part.setups };
  const found = hiddenIn(checked).length > 0 ? undefined : plan ? planFor(checked) : knownPlan(checked);
  if (!found || found.uncut.length > 0) return { source: 'none', setups: [] };
  return { source: 'planned', setups: found.setups.map((s) => s.setup) };
}

/** What the user should know of a sheet: a sentence each. */
export function notesOn({ source }: SheetPart): readonly string[] {
  if (source === 'planned') return ['its set-ups are not written in the part: the sheet uses the planned ones.'];
  if (source === 'none') return ['it has no set-ups, and no whole plan was found: the sheet shows the part alone.'];
  return [];
}
