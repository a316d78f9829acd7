/** What a screw's name stands for in a hole: its clearance, the counterbore of its cap head, the countersink of its flat head. */

import {
  type ClearanceClass,
  type ClearanceHole,
  clearanceHole,
  clearanceSizes,
  FIT_WORDS,
  fitText,
  readClearance,
} from '../../tables/clearance';
import { counterboreFor, countersinkFor, din74CountersinkMm, screwSizes } from '../../tables/heads';
import { writeLength } from '../../text/format';
import { at, type MapNode, mapAt, type ScalarNode, type Span, scalarAt } from '../../text/tree';
import type { Angle, Length } from '../base';
import { recessTexts } from '../everyday/recess';
import { bareScrew } from '../everyday/screw-words';
import type { Head } from '../resolve/base';
import { type Evaluation, textOf } from '../resolve/evaluation';
import { code, listed, nearest, quote, replace } from '../resolve/problem';

export interface Clearance {
  readonly screw: string;
  readonly fit: ClearanceClass;
  readonly span: Span;
}
export interface Counterbore {
  readonly diameter: Length;
  readonly depth: Length;
  readonly screw?: string;
  readonly span: Span;
}
export interface Countersink {
  readonly diameter: Length;
  readonly angle: Angle;
  readonly screw?: string;
  readonly span: Span;
}

/** The hole a screw passes through: from `clearance`, else from the screw that the recess is for. */
export function clearanceIn(
  work: Evaluation,
  map: MapNode,
): { readonly hole: Length; readonly clearance: Clearance } | undefined {
  const node = scalarAt(map, 'clearance');
  if (node) {
    const read = readClearance(textOf(node));
    if (!read.ok) return noClearance(work, node, read);
    return sized(work, read.hole, node, 'clearance hole');
  }
  for (const recess of ['counterbore', 'countersink']) {
    const screw = scalarAt(map, recess);
    const found = screw && clearanceHole(textOf(screw));
    if (screw && found) return sized(work, found, screw, `the ${recess} is for that screw: clearance hole`);
  }
  return undefined;
}

function sized(work: Evaluation, found: ClearanceHole, node: ScalarNode, what: string) {
  const { diameterMm, screw, drill } = found;
  const from = `${what} for ${screw}, ${fitText(found)}${drill ? `, drill ${drill}` : ''}`;
  return {
    hole: { mm: diameterMm, text: writeLength(diameterMm, work.doc.units), span: node.span, from },
    clearance: { screw, fit: found.class, span: node.span },
  };
}

function noClearance(
  work: Evaluation,
  node: ScalarNode,
  { wrong, text }: { wrong: 'size' | 'fit'; text: string },
): undefined {
  const written = textOf(node);
  const bare = bareScrew(written);
  if (bare !== undefined)
    return work.fail(`A hole is for a screw of any head and length. Write \`clearance: ${bare}\`.`, node.span, {
      fixes: [replace(node.span, bare)],
    });
  const metric = /^\d+(?:\.\d+)?$/.test(text) ? clearanceSizes().find((size) => size === `M${text}`) : undefined;
  const like = metric ?? nearest(text, wrong === 'fit' ? FIT_WORDS : clearanceSizes());
  const fixed = like && written.replace(text, like);
  const rest = like ? `. Did you mean \`${like}\`?` : '. Write it like `M5`, `M5 close` or `1/4 loose`.';
  const message =
    wrong === 'fit'
      ? `There is no fit ${quote(text)}${rest}`
      : `There is no clearance hole for ${quote(text)} in the tables${rest}`;
  const fixes = fixed ? { fixes: [replace(node.span, fixed)] } : {};
  return work.fail(message, node.span, fixes, 'form/unknown-name');
}

/** Of a slot the recess is as long as the slot, and has a `width`. */
type Recessed = 'hole' | 'slot';
const ACROSS = { hole: 'diameter', slot: 'width' } as const;

export function counterboreOf(
  work: Evaluation,
  map: MapNode,
  hole: Length | undefined,
  of: Recessed = 'hole',
): Counterbore | undefined {
  const own = mapAt(map, 'counterbore');
  const screw = scalarAt(map, 'counterbore');
  if (screw) {
    const found = counterboreFor(textOf(screw));
    if (!found) return noScrew(work, screw, 'counterbore', hole, of);
    const from = `counterbore for ${found.screw} cap screws (${found.source})`;
    const value = (mm: number) => ({ mm, text: writeLength(mm, work.doc.units), span: screw.span, from });
    narrow(work, found.diameterMm, hole, screw, ['counterbore', of]);
    return { diameter: value(found.diameterMm), depth: value(found.depthMm), screw: found.screw, span: screw.span };
  }
  const diameter = work.length(own, ACROSS[of]);
  const depth = work.length(own, 'depth');
  if (!own || !diameter || !depth) return undefined;
  narrow(work, diameter.mm, hole, scalarAt(own, ACROSS[of])!, ['counterbore', of]);
  return { diameter, depth, span: own.span };
}

export function countersinkOf(
  work: Evaluation,
  map: MapNode,
  head: Head,
  hole: Length | undefined,
  of: Recessed = 'hole',
): Countersink | undefined {
  const own = mapAt(map, 'countersink');
  const screw = scalarAt(map, 'countersink');
  if (screw) {
    const found = countersinkFor(textOf(screw));
    if (!found) return noScrew(work, screw, 'countersink', hole, of);
    const older = din74CountersinkMm(found.screw);
    const also = older === undefined ? '' : `; DIN 74-1 form B, for heads that are not sharp, has ${older} mm`;
    const from = `countersink for ${found.screw} flat heads (${found.source}${also})`;
    narrow(work, found.diameterMm, hole, screw, ['countersink', of]);
    const { units } = work.doc;
    return {
      diameter: { mm: found.diameterMm, text: writeLength(found.diameterMm, units), span: screw.span, from },
      angle: { deg: found.angleDeg, text: String(found.angleDeg), span: screw.span, from },
      screw: found.screw,
      span: screw.span,
    };
  }
  const diameter = work.length(own, ACROSS[of]);
  const angle: Angle | undefined =
    own && at(own, 'angle')
      ? work.angle(own, 'angle', 0, 180)
      : { deg: 90, text: '90', span: head.span, from: 'the usual countersink angle' };
  if (!own || !diameter || !angle) return undefined;
  narrow(work, diameter.mm, hole, scalarAt(own, ACROSS[of])!, ['countersink', of]);
  return { diameter, angle, span: own.span };
}

function narrow(
  work: Evaluation,
  mm: number,
  hole: Length | undefined,
  node: ScalarNode,
  [what, of]: readonly [what: 'counterbore' | 'countersink', of: Recessed],
): void {
  if (!hole || mm > hole.mm) return;
  const length = (value: number) => writeLength(value, work.doc.units);
  work.remark(
    `The ${what} (${length(mm)}) is not wider than the ${of} (${length(hole.mm)}). Make it wider, or the ${of} smaller.`,
    node.span,
  );
}

function noScrew(
  work: Evaluation,
  node: ScalarNode,
  what: 'counterbore' | 'countersink',
  hole: Length | undefined,
  of: Recessed,
): undefined {
  const text = String(node.value);
  const across = (way: string) => way.replace('diameter:', `${ACROSS[of]}:`);
  const own = across(what === 'countersink' ? '{ diameter: 10, angle: 90 }' : '{ diameter: 10, depth: 5.5 }');
  const ways = recessTexts(text, what === 'countersink' ? 'angle' : 'depth', hole?.mm).map(across);
  if (ways.length > 0)
    return work.fail(
      `A ${what} is named by its screw, or says which size is which: ${listed(code(ways.map((way) => `${what}: ${way}`)))}.`,
      node.span,
      { fixes: ways.map((way) => ({ ...replace(node.span, way), ...(ways.length > 1 && { equal: true as const }) })) },
    );
  const like = /^[\d.]/.test(text) ? undefined : nearest(text, screwSizes());
  const rest = like
    ? `. Did you mean \`${like}\`?`
    : `. Name a screw like \`M5\`, or give the sizes: \`${what}: ${own}\`.`;
  const fixes = like ? { fixes: [replace(node.span, like)] } : {};
  return work.fail(
    `There is no ${what} for ${quote(text)} in the tables${rest}`,
    node.span,
    fixes,
    'form/unknown-name',
  );
}
