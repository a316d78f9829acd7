/** Outside profiles and bosses: everything outside the outline goes. */
import { at, entry, type MapNode } from '../../text/tree';
import type { Depth, FeatureBase, Length, Shape } from '../base';
import { baseOf, drawnSpan, type Head } from '../resolve/base';
import { type Evaluation, itemsOf } from '../resolve/evaluation';
import { floorRadiusOf, pathShape, shapeOf } from '../resolve/outline';
import { depthOf } from '../resolve/places';
import { length, list, map, name, optional } from '../schema/common';
import { depth, path } from '../schema/places';
import { type BossThread, bossThread, bossThreadDepth } from './boss-thread';
import { undercutField } from './boss-undercut';
import { circle, floorRadius, kind, outline, at as place, SHIFT, what, where } from './fields';
import { closedPaths, type FeatureKindHome, type SizeOf, shapeSizes, shapeWidths } from './kind';

export interface Contour extends FeatureBase {
  readonly kind: 'contour';
  /** What stays. */
  readonly shapes: readonly Shape[];
  readonly depth: Depth;
  readonly floorRadius: Length;
  /** Of a round boss that gets one: with a die by hand, or a thread mill. */
  readonly thread?: BossThread;
}

const schema = map(
  {
    kind: kind('contour', 'The outside cut to an outline: what is inside stays.'),
    ...where,
    at: place(`${SHIFT} The centre, where the outline has a \`size\` or \`diameter\`.`),
    path: optional(path('What stays: corners, closed.')),
    paths: optional(list(path('One boss.'), 'Several outlines that stay: several bosses.')),
    ...outline,
    diameter: circle('a round boss'),
    thread: optional(
      name(
        'thread',
        'The thread that a round boss gets, instead of a diameter: metric or unified. Its class may stand behind it (ISO 965-1, ASME B1.1). A die cuts it by hand, or a thread mill goes round it.',
        { example: 'M8x1 6g' },
      ),
    ),
    'thread-depth': optional(
      length('Length of full thread, from the end of the boss.', {
        example: '10',
        fallback: 'up to its undercut; else to 2.5 pitches from the shoulder, where a die stops (ISO 3508)',
      }),
    ),
    undercut: optional(undercutField),
    depth: depth('How deep everything outside is cut away, or `through`.'),
    'floor-radius': floorRadius,
    ...what,
  },
  'Cuts away everything outside the outline, down to the depth. The inside stays: a part’s outline, or bosses.',
  { one: [['path', 'paths', 'size', 'diameter', 'thread']] },
);

function resolve(work: Evaluation, head: Head, map: MapNode): Contour | undefined {
  const base = baseOf(work, head, map, drawnSpan(map, 'path', 'paths'));
  const depth = depthOf(work, map, base);
  if (!base) return undefined;
  const several = at(map, 'paths');
  const threaded = bossThread(work, map);
  const shapes: (Shape | undefined)[] = several
    ? itemsOf(several).map((item) => (item.type === 'list' ? pathShape(work, item, base.face) : undefined))
    : [threaded ? round(threaded.diameter) : shapeOf(work, map, base.face, head.span)];
  if (shapes.length === 0)
    work.fail('`paths` is empty. Write at least one outline, like `[[{ x: 0, y: 0 }, …]]`.', several!.span);
  const floorRadius = floorRadiusOf(work, map, head);
  if (!depth || !floorRadius || work.broken) return undefined;
  const deep = threaded && bossThreadDepth(work, map, head, depth, threaded.thread.spec);
  if (work.broken) return undefined;
  const thread = threaded && deep && { ...threaded.thread, ...deep };
  const odd = entry(map, 'undercut');
  if (odd && !threaded)
    work.remark(
      '`undercut` is the groove at the foot of a `thread`; without one it means nothing. Delete it.',
      odd.key.span,
    );
  return { ...base, kind: 'contour', shapes: shapes as Shape[], depth, floorRadius, ...(thread && { thread }) };
}

function round(diameter: Length): Shape {
  return { type: 'circle', diameter, span: diameter.span };
}

function* sizes({ shapes, depth }: Contour): Generator<SizeOf> {
  for (const shape of shapes) yield* shapeSizes(shape, 'outside');
  yield ['depth', depth.length, 'neither', 'mill'];
}

export const contour: FeatureKindHome<Contour, 'outside'> = {
  form: 'outside',
  schema,
  resolve,
  plural: 'contours',
  snippets: [
    [
      'contour',
      'what stays; everything outside it is cut away',
      [
        'kind: contour',
        'face: ${2:top}',
        'path: [{ x: ${3:0}, y: ${4:0} }, { x: ${5:40}, y: ${6:0}, round: ${7:6} }, { x: ${8:40}, y: ${9:25} }, { x: ${10:0}, y: ${11:25} }]',
        'depth: ${12:through}',
      ],
    ],
  ],
  stands: ({ depth }) => ({ floor: depth, rim: true }),
  sizes,
  across: ({ shapes }) => shapes.flatMap(shapeWidths),
  shapes: ({ shapes }) => shapes,
  paths: ({ shapes }) => shapes.flatMap(closedPaths),
  needs: () => [],
};
