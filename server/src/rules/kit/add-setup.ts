/**
 * A set-up more, after those that are there, in a vise on hand and written as a plan would be. Each is a candidate: it is offered
 * where it was tried and found to hold.
 */
import { type CutEntry, FACE_AXIS, FACES, type Face, type Setup } from '../../model/model';
import { overFace, timelineOf } from '../../process/stock';
import { marginOf } from '../../process/workholding/margin';
import { LEAST_GRIP_MM } from '../../process/workholding/parallels';
import { deepestAtSides, extent, jawPairs, seatsFor } from '../../process/workholding/seats';
import { addText } from '../../text/edit';
import { columnOf, eolOf, stepOf } from '../../text/layout';
import { entry, type Span } from '../../text/tree';
import type { RuleContext, SpanEdit } from './rule';
import { ordinal, setupInVise } from './setup-in-vise';
import { setupLines } from './write-setup';

/** Seats tried for each pair of jaws: the deepest grip that is clear of the cut, and the next. */
const MOST_SEATS = 2;
/** Stands in no text. */
const NOWHERE: Span = { block: 'added', from: 0, to: 0 };

/**
 * Edits that add a set-up with one of these faces up which cuts `name`, the likeliest to hold first. `also`: what else had
 * better be cut there; left for another where all of it cannot be.
 */
export function* addedSetups(
  context: RuleContext,
  name: string,
  faces: readonly Face[],
  also: (up: Face) => readonly string[] = () => [],
): Generator<{ readonly up: Face; readonly edits: readonly SpanEdit[] }> {
  for (const up of faces) {
    const others = also(up).filter((other) => other !== name);
    for (const names of others.length > 0 ? [[name, ...others], [name]] : [[name]])
      for (const setup of setupsFor(context, names, up)) {
        const edits = addSetup(context, setup);
        if (edits.length > 0) yield { up, edits };
      }
  }
}

function* setupsFor({ part, solid, shop }: RuleContext, names: readonly string[], up: Face): Generator<Setup> {
  const before = part.setups ?? [];
  const features = names.flatMap((name) => part.featureByName.get(name) ?? []);
  const face = features.length > 0 ? undefined : FACES.find((f) => f === names[0]);
  const cuts: readonly CutEntry[] = names.map((name) => ({ name, span: NOWHERE }));
  const left = timelineOf(part, solid).unassigned;
  const raw = new Map(FACES.filter((f) => f === face || left.includes(f)).map((f) => [f, overFace(f, part)] as const));
  const box = stillThere(solid.body.box, raw);
  const lot = [...features.map((feature) => ({ feature })), ...(face ? [{ face }] : [])];
  const clearMm = deepestAtSides(lot, up, solid) + marginOf(shop);
  const heightMm = extent(box, up);
  const faces = new Set(face ? [face] : []);
  const vises = shop.vises.toSorted((a, b) => b.jawWidthMm - a.jawWidthMm);
  for (const jaws of jawPairs(up).toSorted((a, b) => extent(box, a[0]) - extent(box, b[0]))) {
    const vise = vises.find((v) => v.opensMm >= extent(box, jaws[0]));
    if (!vise || jaws.some((j) => j === face)) continue;
    const seats = seatsFor({ vise }, heightMm, Math.min(heightMm, clearMm), shop, { leastGripMm: LEAST_GRIP_MM });
    for (const seat of seats.slice(0, MOST_SEATS)) {
      const made = setupInVise({ before, up, jaws, vise, seat, cuts, faces, part, raw, span: NOWHERE });
      yield { ...made, name: freeName(before) };
    }
  }
}

/** The body, and what is left outside it. */
function stillThere({ min, max }: RuleContext['solid']['body']['box'], raw: ReadonlyMap<Face, number>) {
  const at = (sign: 1 | -1) =>
    (['x', 'y', 'z'] as const).map((axis, i) => {
      const face = FACES.find((f) => FACE_AXIS[f].axis === axis && FACE_AXIS[f].sign === sign)!;
      return (sign > 0 ? max : min)[i]! + sign * (raw.get(face) ?? 0);
    }) as [number, number, number];
  return { min: at(-1), max: at(1) };
}

function freeName(before: readonly Setup[]): string {
  let index = before.length;
  while (before.some((s) => s.name === ordinal(index))) index++;
  return ordinal(index);
}

/** After the last one, on lines of its own where that stands on lines, else in braces. */
function addSetup({ part, tree }: RuleContext, setup: Setup): readonly SpanEdit[] {
  const setups = entry(tree.root, 'setups')?.value;
  if (setups?.type !== 'map' || setups.entries.length === 0) return [];
  const [, ...lines] = setupLines(setup, part, '').map((line) => line.trim());
  const last = setups.entries.at(-1)?.value;
  const inBraces = setups.flow || (last?.type === 'map' && last.flow);
  if (inBraces) return addText(tree, setups, setup.name, `{ ${lines.join(', ')} }`);
  const eol = eolOf(tree.text);
  const column = columnOf(tree.text, tree.locate(setups.entries[0]!.key.span).start);
  const [added] = addText(tree, setups, setup.name, '');
  if (!added) return [];
  const head = added.newText.slice(0, added.newText.lastIndexOf(':') + 1);
  const indent = ' '.repeat(column + stepOf(tree));
  return [{ ...added, newText: `${head}${lines.map((line) => `${eol}${indent}${line}`).join('')}` }];
}
