/** What the tests of this folder share: parts from a few lines, and problems told by markers in the text. */
import assert from 'node:assert/strict';
import type { Feature, FeatureKind, Part, SpecProblem } from '../../server/src/model/model';
import { resolvePart } from '../../server/src/model/part';
import { readText } from '../../server/src/text/read';

export function partOf(text: string, before?: Part): Part {
  return resolvePart(readText(text), before);
}

/** A 60 × 40 × 16 block with these features, written as the body of `features:` at any indentation. */
export function block(features: string, head = ''): string {
  const lines = features.replace(/^\n/, '').replace(/\s+$/, '').split('\n');
  const indent = Math.min(...lines.filter((l) => l.trim()).map((l) => l.length - l.trimStart().length));
  const body = lines.map((l) => `  ${l.slice(indent)}`).join('\n');
  return `part: a\nbody: { x: 60, y: 40, z: 16 }\n${head}features:\n${body}\n`;
}

/** The one feature `f` of a block, of the kind asked for; the part must be without fault. */
export function feature<K extends FeatureKind>(kind: K, fields: string, head = ''): Extract<Feature, { kind: K }> {
  const part = partOf(block(`f: { kind: ${kind}, ${fields} }`, head));
  assert.deepEqual(
    part.problems.map((p) => p.message),
    [],
  );
  const found = part.featureByName.get('f');
  assert.equal(found?.kind, kind);
  return found as Extract<Feature, { kind: K }>;
}

/** Places as pairs, to a nanometre. */
export function places(f: Feature): (readonly [number, number])[] {
  return f.places.map(({ u, v }) => [round(u), round(v)]);
}

export function round(value: number): number {
  return Math.round(value * 1e6) / 1e6 || 0;
}

/** A problem as one line: rule, the text it stands at, its message. */
function told(text: string, problem: SpecProblem): string {
  const { start, end } = readText(text).locate(problem.span);
  return `${problem.rule} «${text.slice(start, end)}» ${problem.message}`;
}

/**
 * Text with the place of each expected problem in «marks»; answers the messages, having checked that there are exactly
 * as many problems as marks, at exactly those places, in any order.
 */
export function marked(text: string): readonly SpecProblem[] {
  const marks: { start: number; end: number }[] = [];
  let plain = '';
  for (const piece of text.split(/([«»])/)) {
    if (piece === '«') marks.push({ start: plain.length, end: -1 });
    else if (piece === '»') marks.findLast((m) => m.end < 0)!.end = plain.length;
    else plain += piece;
  }
  const tree = readText(plain);
  const problems = resolvePart(tree).problems;
  const found = problems.map((p) => ({ ...tree.locate(p.span), problem: p })).sort((a, b) => a.start - b.start);
  const show = (list: readonly { start: number; end: number }[]) =>
    list.map(({ start, end }) => `${start}: ${plain.slice(start, end)}`);
  marks.sort((a, b) => a.start - b.start);
  assert.deepEqual(show(found), show(marks), problems.map((p) => told(plain, p)).join('\n'));
  return found.map((f) => f.problem);
}
