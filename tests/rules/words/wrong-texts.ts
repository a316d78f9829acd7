/** Documents with one thing wrong in each: what somebody writes by mistake, everywhere in a text. */
import { readText } from '../../../server/src/text/read';
import type { MapEntry, MapNode, TextNode, TextTree } from '../../../server/src/text/tree';

/** What stands for a value by mistake. */
const WRONG = [
  '',
  '5',
  'word',
  '[1, 2]',
  '{ a: 1 }',
  '5 kg',
  '-3',
  '3 +',
  '5 deg',
  '12 mm',
  '2 * (3',
  'Ø 4',
  '4,5',
  '"',
  'yes',
  'left',
  '[left]',
  '{ x: 3 }',
  '#4',
  '10 H99',
  '5 ±0.1 ±0.2',
  'M99',
  '2 x 3',
  '1/0',
  '9e9',
  '%',
  '&a 3',
  '*a',
];

function* entriesOf(node: TextNode | undefined): Generator<readonly [MapEntry, MapNode]> {
  if (node?.type === 'list') for (const item of node.items) yield* entriesOf(item);
  if (node?.type !== 'map') return;
  for (const entry of node.entries) {
    yield [entry, node];
    yield* entriesOf(entry.value);
  }
}

function* wrongAt(text: string, tree: TextTree, { key, value, span }: MapEntry): Generator<string> {
  const put = (from: number, to: number, words: string) => text.slice(0, from) + words + text.slice(to);
  const name = tree.locate(key.span);
  const all = tree.locate(span);
  yield put(name.start, name.end, `${key.source.slice(0, 1)}${key.source.slice(2)}x`);
  yield put(name.start, name.end, 'wobble');
  yield put(name.start, name.end, `${key.source} `.replace(/ $/, '-A'));
  yield put(name.end, name.end + 1, '');
  yield put(name.start, name.start, '\t');
  yield put(name.start, name.start, '  ');
  yield put(all.start, all.end, 'wobble: 3');
  if (!value) return;
  const at = tree.locate(value.span);
  for (const wrong of WRONG) yield put(at.start, at.end, wrong);
  if (value.type !== 'scalar') return;
  yield put(at.end, at.end, ' ]');
  yield put(at.end, at.end, ' deep: 4');
  yield put(name.start, at.start, `${key.source}:`);
}

/** Every `share`th of them. */
export function* wrongTexts(text: string, share: number): Generator<string> {
  const tree = readText(text);
  let n = 0;
  for (const [entry] of entriesOf(tree.root))
    for (const wrong of wrongAt(text, tree, entry)) if (n++ % share === 0) yield wrong;
}
