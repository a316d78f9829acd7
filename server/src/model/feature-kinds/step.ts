/** Shoulders along one edge of a face, or the corner where two meet. */
import * as z from 'zod/mini';
import { at, entry, type MapNode, type ScalarNode } from '../../text/tree';
import { type Depth, type Face, type FeatureBase, type Length, type Named, OPPOSITE } from '../base';
import { finishOf, type Head, startOf, tiltOf } from '../resolve/base';
import { type Evaluation, itemsOf } from '../resolve/evaluation';
import { floorRadiusOf } from '../resolve/outline';
import { beside, depthOf, faceNamed } from '../resolve/places';
import { face, length, list, map, noted } from '../schema/common';
import { depth } from '../schema/places';
import { floorRadius, kind, what, where } from './fields';
import type { FeatureKindHome, SizeOf } from './kind';

export interface Step extends FeatureBase {
  readonly kind: 'step';
  /** One edge of `face`, or two for a corner. */
  readonly along: readonly (Named & { readonly name: Face })[];
  /** From the body's side, one for each of `along`. */
  readonly widths: readonly Length[];
  readonly depth: Depth;
  readonly floorRadius: Length;
}

const schema = map(
  {
    kind: kind('step', 'A shoulder along one edge of a face; or only the corner where two meet.'),
    face: where.face,
    from: where.from,
    tilt: where.tilt,
    along: noted(
      z.union([
        face('The side it runs along.'),
        list(face('A side it runs along.'), 'Two sides that meet in a corner.'),
      ]),
      {
        description:
          'The side of the body it runs along. Two sides: only the corner where they meet. A shoulder along both is two steps.',
        names: 'face',
        example: 'front',
      },
    ),
    width: noted(
      z.union([
        length('Width, in from the side.', { example: '8' }),
        list(length('Width, in from one side.'), 'One width for each of `along`.'),
      ]),
      {
        description: 'How far in from the side; for two sides one width, or one for each.',
        unit: 'length',
        example: '8',
      },
    ),
    depth: depth('How deep below the face, or `through`.'),
    'floor-radius': floorRadius,
    ...what,
  },
  'A shoulder along one edge of a face, or the corner where two meet.',
);

function resolve(work: Evaluation, head: Head, map: MapNode): Step | undefined {
  const start = startOf(work, map, head);
  const finish = finishOf(work, map);
  const along = itemsOf(at(map, 'along')).map(faceNamed);
  const widths = itemsOf(at(map, 'width')).map((node) => work.lengthOf(node as ScalarNode, 'width'));
  const floorRadius = floorRadiusOf(work, map, head);
  const depth = depthOf(work, map, start);
  if (!start) return undefined;
  const tilt = tiltOf(work, map, start.face);
  for (const side of along) beside(work, side.name, start.face, side.span);
  const [first, second] = along;
  if (along.length < 1 || along.length > 2) {
    work.fail(
      'A step runs along one side, or along two that meet in a corner. Write one or two, like `[left, front]`.',
      entry(map, 'along')!.key.span,
    );
  } else if (second && (first!.name === second.name || OPPOSITE[first!.name] === second.name)) {
    work.fail(
      `${first!.name} and ${second.name} do not meet in a corner. Write two sides that meet, like \`[left, front]\`.`,
      second.span,
    );
  } else if (widths.length !== 1 && widths.length !== along.length) {
    work.fail(
      'The number of widths is not that of the sides. Write one `width`, or one for each side of `along`.',
      at(map, 'width')!.span,
    );
  }
  if (work.broken || !depth || !floorRadius) return undefined;
  return {
    ...head,
    ...finish,
    ...start,
    ...tilt,
    kind: 'step',
    places: [{ u: 0, v: 0, span: head.span }],
    along,
    widths: along.map((_, i) => widths[widths.length === 1 ? 0 : i]) as Length[],
    depth,
    floorRadius,
  };
}

function* sizes({ widths, depth }: Step): Generator<SizeOf> {
  for (const width of widths) yield ['width', width, 'neither', 'mill'];
  yield ['depth', depth.length, 'neither', 'mill'];
}

export const step: FeatureKindHome<Step, 'shoulder'> = {
  form: 'shoulder',
  schema,
  resolve,
  plural: 'steps',
  snippets: [
    [
      'step',
      'material taken off along an edge',
      ['kind: step', 'face: ${2:top}', 'along: ${3:front}', 'width: ${4:6}', 'depth: ${5:3}'],
    ],
  ],
  stands: ({ depth }) => ({ floor: depth, rim: false }),
  sizes,
  across: ({ widths }) => widths,
  shapes: () => [],
  paths: () => [],
  needs: () => [],
};
