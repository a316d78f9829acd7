/** Text cut into a face. */
import { at, type MapNode, scalarAt } from '../../text/tree';
import type { Depth, FeatureBase, Length } from '../base';
import { baseOf, type Head } from '../resolve/base';
import { type Evaluation, textOf } from '../resolve/evaluation';
import { unwritten } from '../resolve/outline';
import { depthOf } from '../resolve/places';
import { length, map, optional, text } from '../schema/common';
import { depth, pattern } from '../schema/places';
import { kind, at as place, what, where } from './fields';
import type { FeatureKindHome } from './kind';

export interface Engraving extends FeatureBase {
  readonly kind: 'engraving';
  readonly text: string;
  readonly height: Length;
  readonly depth: Depth;
  readonly stroke: Length;
}

const schema = map(
  {
    kind: kind('engraving', 'Letters cut with a small cutter.'),
    ...where,
    at: place('Where the middle of the text is.'),
    pattern: optional(pattern),
    text: text('The text.', { example: 'YOKE 2' }),
    height: length('Height of a capital letter.', { example: '4' }),
    depth: depth('How deep; 0.2 to 0.4 mm is usual.', { example: '0.3' }),
    stroke: optional(
      length('Width of the line: the cutter’s tip.', {
        example: '0.5',
        fallback: 'an eighth of the height',
      }),
    ),
    ...what,
  },
  'Text cut into a face.',
);

function resolve(work: Evaluation, head: Head, map: MapNode): Engraving | undefined {
  const base = baseOf(work, head, map);
  const height = work.length(map, 'height');
  const depth = depthOf(work, map, base);
  const text = textOf(scalarAt(map, 'text')!);
  if (text.trim() === '')
    work.fail('There is nothing to engrave. Write it like `text: A1`.', scalarAt(map, 'text')!.span);
  if (depth?.through) work.fail('Text is engraved to a depth, not through. Write it like `depth: 0.3`.', depth.span);
  const stroke = at(map, 'stroke')
    ? work.length(map, 'stroke')
    : height && unwritten(height.mm / 8, head.span, 'no `stroke` is given: an eighth of the height');
  return base && height && depth && stroke && { ...base, kind: 'engraving', text, height, depth, stroke };
}

export const engraving: FeatureKindHome<Engraving, 'letters'> = {
  form: 'letters',
  schema,
  resolve,
  plural: 'engravings',
  snippets: [
    [
      'engraving',
      'letters cut into a face',
      [
        'kind: engraving',
        'face: ${2:top}',
        'at: { x: ${3:center}, y: ${4:center} }',
        'text: ${5:A1}',
        'height: ${6:5}',
        'depth: ${7:0.3}',
        'stroke: ${8:0.5}',
      ],
    ],
  ],
  stands: () => ({ rim: false }),
  sizes: ({ depth }) => [['depth', depth.length, 'neither', 'form']],
  across: () => [],
  shapes: () => [],
  paths: () => [],
  needs: () => [],
};
