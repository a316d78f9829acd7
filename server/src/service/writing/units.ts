/**
 * The whole text in the other unit: the same part to the last digit. A number that is short in the other unit is written in
 * it, any other keeps its own with the unit beside it; what is reckoned is reckoned as before.
 */
import type { Units } from '../../model/model';
import { scalarsOf } from '../../model/scalars';
import { setText } from '../../text/edit';
import type { Expression } from '../../text/expression';
import { eolOf, lineEndOf, spanAt } from '../../text/layout';
import { piecesOf } from '../../text/pieces';
import { at, entry, type MapNode, type ScalarNode, type SpanEdit, scalarAt, type TextTree } from '../../text/tree';
import { ROUNDING } from '../../tolerance';
import { lengthNames, type Names, powerOf } from './powers';
import { Draft, type Rewriting, type Subject, spotAt } from './subject';

const MM: Readonly<Record<Units, number>> = { mm: 1, in: 25.4 };
/** Digits behind the point that a number in the other unit may have: an inch's are 25.4 times as coarse. */
const DIGITS: Readonly<Record<Units, number>> = { mm: 6, in: 4 };

export function unitRewritings(subject: Subject): readonly Rewriting[] {
  const { path } = spotAt(subject);
  if (path.length !== 1 || (path[0] !== 'units' && path[0] !== 'part')) return [];
  const { tree, part } = subject;
  const to: Units = part.units === 'mm' ? 'in' : 'mm';
  return [
    {
      id: `units-${to}`,
      title: `Write it in ${to === 'in' ? 'inches' : 'millimetres'}, the same part`,
      kind: 'refactor.rewrite',
      keeps: 'part',
      make: () => converted(tree, subject, to),
    },
  ];
}

function converted(tree: TextTree, { part }: Subject, to: Units): string | { readonly refused: string } {
  const names = lengthNames(part, [...scalarsOf('part', tree.root)]);
  const edits: SpanEdit[] = [];
  for (const { node, path, shape } of scalarsOf('part', tree.root)) {
    const isParameter = path[0] === 'parameters';
    if (!isParameter && shape.meta.unit !== 'length') continue;
    if (shape.meta.values?.[node.source] !== undefined) continue;
    const said = asLength(node, names, isParameter && !names.lengths.has(String(path[1])), [part.units, to]);
    if (said === undefined) return { refused: `${node.source} cannot be written in another unit by itself.` };
    if (said !== node.source) edits.push({ span: node.span, newText: node.quoted ? JSON.stringify(said) : said });
  }
  const draft = new Draft(tree).make(() => edits).make((t) => unitsWritten(t, to));
  for (const { key } of keyways(draft.tree))
    draft.make((t) => {
      const map = at(at(t.root, 'features'), key) as MapNode;
      return setText(t, map, 'standard', part.units === 'in' ? 'asme' : 'iso');
    });
  return draft.text;
}

/** By whose table a keyway is turns on the unit, where the text does not say. */
function keyways(tree: TextTree): readonly { readonly key: string }[] {
  const features = at(tree.root, 'features');
  if (features?.type !== 'map') return [];
  return features.entries
    .filter((e) => scalarAt(e.value, 'kind')?.value === 'keyway' && !entry(e.value, 'standard'))
    .map((e) => ({ key: String(e.key.value) }));
}

function unitsWritten(tree: TextTree, to: Units): readonly SpanEdit[] {
  const { root, text } = tree;
  if (!root) return [];
  if (entry(root, 'units')) return setText(tree, root, 'units', to);
  const [first] = root.entries;
  const end = lineEndOf(text, tree.locate(first!.span).end);
  return [{ span: spanAt(tree, '', end, end), newText: `${eolOf(text)}units: ${to}` }];
}

/** `isBare`: it is a number without a unit, whatever the document's; undefined where it cannot be said. */
function asLength(
  { source }: ScalarNode,
  names: Names,
  isBare: boolean,
  units: readonly [from: Units, to: Units],
): string | undefined {
  const pieces = piecesOf(source);
  if (!pieces) return undefined;
  const { expression, tolerance } = pieces;
  const put = new Map<Expression, string>();
  const power = powerOf(expression, names);
  if (power === undefined) return undefined;
  if (power !== 0 && !meets(expression, names, source, units, put)) return undefined;
  if (power === 0 && !isBare) put.set(expression, measured(expression, source, units));
  let text = '';
  let last = 0;
  const end = tolerance?.from ?? source.length;
  for (const [e, newText] of [...put].sort((a, b) => a[0].from - b[0].from)) {
    text += source.slice(last, e.from) + newText;
    last = e.to;
  }
  text += source.slice(last, end);
  if (!tolerance) return text;
  const isFit = tolerance.type === 'fit';
  const hasUnit = isFit || /(?:mm|cm|µm|um|in|inch|"|m)\s*$/.test(tolerance.text);
  return `${text.trimEnd()} ${tolerance.text}${hasUnit ? '' : ` ${units[0]}`}`;
}

/** Numbers without a unit beside lengths take theirs: each is written with it. Answers whether all could be. */
function meets(
  e: Expression,
  names: Names,
  source: string,
  units: readonly [Units, Units],
  put: Map<Expression, string>,
): boolean {
  const into = (inner: Expression) => meets(inner, names, source, units, put);
  switch (e.type) {
    case 'number':
    case 'name':
      return true;
    case 'minus':
      return into(e.operand);
    case 'call':
      return (e.name === 'min' || e.name === 'max' ? beside(e.arguments) : true) && e.arguments.every(into);
    case 'binary':
      return (
        (e.operator === '+' || e.operator === '-' ? beside([e.left, e.right]) : true) && into(e.left) && into(e.right)
      );
    default:
      return e satisfies never;
  }

  function beside(terms: readonly Expression[]): boolean {
    const powers = terms.map((t) => powerOf(t, names));
    const most = Math.max(...powers.map((p) => p ?? 0));
    if (most === 0) return true;
    terms.forEach((t, i) => {
      if (powers[i] === 0) put.set(t, measured(t, source, units));
    });
    return most === 1 || !powers.includes(0);
  }
}

/** A number, or what is reckoned without a unit, as the length that it is. */
function measured(e: Expression, source: string, [from, to]: readonly [Units, Units]): string {
  const text = source.slice(e.from, e.to).trim();
  if (e.type !== 'number')
    return `(${text.replace(/^\((.*)\)$/, (all, inner: string) => (/[()]/.test(inner) ? all : inner))}) ${from}`;
  const value = (e.value * MM[from]) / MM[to];
  const short = Number(value.toFixed(DIGITS[to]));
  return Math.abs(short - value) <= ROUNDING * Math.max(1, Math.abs(value)) ? String(short) : `${text} ${from}`;
}
