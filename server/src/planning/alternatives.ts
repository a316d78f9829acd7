/**
 * What else would do: a bar that is thicker on one side, so that the work is held by what is cut off in the end; another
 * machine of the shop. Each is planned anew, and told only where it saves something.
 */
import type { CheckedPart } from '../rules/check';
import type { Face, Part } from '../spec/model';
import type { Machine } from '../spec/shop-model';
import { DIRECTIONS } from './directions';
import { type Plan, planOf } from './plan';
import { type Minutes, timeOf } from './times';

export interface ThickerStock {
  readonly face: Face;
  /** Material outside that face, mm. */
  readonly extraMm: number;
  readonly plan: Plan;
}

/** Enough for the jaws to hold, and a cut above them. Common practice, no source: 5 mm of grip and one to part it off. */
const HELD_BY_MM = 6;

/** Stock left on one more face, where that makes a whole plan of what was none, or saves a setup. Fewest setups first. */
export function thickerStock(checked: CheckedPart, plan: Plan): readonly ThickerStock[] {
  const { part } = checked;
  if (part.stock.form === 'round-bar' || !part.body) return [];
  const found: ThickerStock[] = [];
  for (const face of DIRECTIONS) {
    const extraMm = Math.max(HELD_BY_MM, part.stock.extra[face]?.mm ?? 0);
    if ((part.stock.extra[face]?.mm ?? 0) >= extraMm) continue;
    const other = planOf({ ...checked, part: withExtra(part, face, extraMm) });
    if (!other || other.left.length > 0) continue;
    if (plan.left.length > 0 || other.setups.length < plan.setups.length) found.push({ face, extraMm, plan: other });
  }
  return found.sort((a, b) => a.plan.setups.length - b.plan.setups.length);
}

function withExtra(part: Part, face: Face, mm: number): Part {
  const { span } = part.stock;
  const length = { mm, text: String(mm), span };
  return { ...part, stock: { ...part.stock, written: true, extra: { ...part.stock.extra, [face]: length } } };
}

export interface OnMachine {
  readonly machine: Machine;
  readonly firstPiece: Minutes;
  readonly eachFurther: Minutes;
}

/** The plan's time on each machine of the shop, the quickest first. One entry where there is one machine. */
export function onEachMachine(checked: CheckedPart, plan: Plan): readonly OnMachine[] {
  const span = checked.part.root;
  return checked.shop.machines
    .map((machine) => {
      const setups = plan.setups.map((s) => ({ ...s.setup, machine: { name: machine.name, span } }));
      const { firstPiece, eachFurther } = timeOf(setups, { ...checked, part: { ...checked.part, setups } });
      return { machine, firstPiece, eachFurther };
    })
    .sort((a, b) => a.firstPiece[0] + a.firstPiece[1] - b.firstPiece[0] - b.firstPiece[1]);
}
