/** A corner step written anew as what its words may have meant: a shoulder along each of its two sides. */
import type { Feature, Step } from '../../model/model';
import { addItem, addText, setText } from '../../text/edit';
import { at, scalarAt, type TextNode } from '../../text/tree';
import { featureNode, nodeAt } from '../kit/edits';
import type { Finding, Fix, RuleContext, SpanEdit } from '../kit/rule';

export const isCornerStep = (feature: Feature): feature is Step =>
  feature.kind === 'step' && feature.along.length === 2;

/** The second side becomes a step of its own, cut in the same set-ups. */
export function* alongBoth(step: Step, { tree, part }: RuleContext): Generator<Fix> {
  const [first, second] = step.along;
  const map = featureNode(tree, step.name);
  const all = at(tree.root, 'features');
  const widths = nodeAt(tree, step.name, 'width');
  if (!first || !second || !map || all?.type !== 'map' || !widths) return;
  const name = `${step.name}-${second.name}`;
  if (part.featureByName.has(name)) return;
  const source = (node: TextNode) => {
    const { start, end } = tree.locate(node.span);
    return tree.text.slice(start, end).trim();
  };
  const [one, other] = widths.type === 'list' ? widths.items : [widths, widths];
  if (!one || !other) return;
  const edits: SpanEdit[] = [...setText(tree, map, 'along', first.name)];
  if (one !== widths) edits.push(...setText(tree, map, 'width', source(one)));
  // Every other field is the same of both, but for what is written over several lines.
  const fields = map.entries.flatMap(({ key, value }) => {
    if (!value || key.source === 'along' || key.source === 'width' || key.source === 'note') return [];
    const text = source(value);
    return text.includes('\n') ? [] : [`${key.source}: ${text}`];
  });
  const text = `{ ${[...fields, `along: ${second.name}`, `width: ${source(other)}`].join(', ')} }`;
  edits.push(...addText(tree, all, name, text), ...alsoCut(step.name, name, tree));
  yield {
    title: `Make it two steps: one along ${first.name}, one along ${second.name}`,
    safe: false,
    edits,
  };
}

function alsoCut(name: string, added: string, tree: RuleContext['tree']): SpanEdit[] {
  const setups = at(tree.root, 'setups');
  if (setups?.type !== 'map') return [];
  return setups.entries.flatMap(({ value }) => {
    const cuts = value?.type === 'map' ? at(value, 'cuts') : undefined;
    const isIt = (item: TextNode) => {
      const node = scalarAt(item, 'cut') ?? item;
      return node.type === 'scalar' && node.source === name;
    };
    if (cuts?.type !== 'list' || !cuts.items.some(isIt)) return [];
    return addItem(tree, cuts, added);
  });
}

/** What a corner step is told besides: the words for its corner. */
export function cornerWords(step: Step, leaves: string): Finding['message'] {
  const sides = step.along.map((a) => a.name);
  return `Step ${step.name} along ${sides.join(' and ')} is only the corner where both meet. Its inside corner is square: ${leaves}`;
}
