/** The undercut between the thread of a boss and its shoulder: by the standard for its pitch, or by its own sizes. */
import * as z from 'zod/mini';
import { isUnified, type Thread } from '../../tables/thread-form';
import { threadUndercut, type UndercutSeries } from '../../tables/thread-undercuts';
import { type MapNode, mapAt, type ScalarNode, type Span, scalarAt } from '../../text/tree';
import { ROUNDING } from '../../tolerance';
import type { Depth, Length } from '../base';
import { type Evaluation, textOf } from '../resolve/evaluation';
import { unwritten } from '../resolve/outline';
import { length, map, noted, words } from '../schema/common';

export interface BossUndercut {
  /** From the shoulder to the thread. */
  readonly width: Length;
  /** What is left inside. */
  readonly diameter: Length;
  /** The standard that its sizes are from. */
  readonly source?: string;
  readonly span: Span;
}

const SERIES: Readonly<Record<UndercutSeries, string>> = {
  regular: 'ISO 4755, three pitches wide',
  short: 'DIN 76-1 form B, two and a half pitches wide',
};

export const undercutField = noted(
  z.union([
    words(SERIES, 'By the standard for its pitch.'),
    map(
      {
        width: length('Width, from the shoulder to the thread.', { example: '4.5' }),
        diameter: length('Diameter that is left.', { example: '7.7' }),
      },
      'An undercut by its own sizes.',
    ),
  ]),
  {
    description:
      'A groove round the foot of the thread, so that a nut comes to the shoulder. By the standard for a metric pitch, or by its sizes. `regular`: ISO 4755, three pitches wide; `short`: DIN 76-1 form B, two and a half.',
    example: 'regular',
    fallback: 'none',
  },
);

/** Undefined where none is written, or, its problem told, none that makes sense. */
export function bossUndercut(
  work: Evaluation,
  map: MapNode,
  { spec, depth, diameterMm }: { readonly spec: Thread; readonly depth: Depth; readonly diameterMm: number },
): BossUndercut | undefined {
  const node = mapAt(map, 'undercut') ?? scalarAt(map, 'undercut');
  if (!node) return undefined;
  if (depth.through || mapAt(map, 'tilt'))
    return work.fail(
      depth.through
        ? 'A boss that goes through has no shoulder to undercut. Delete `undercut`.'
        : 'A tilted boss has no undercut here. Delete one of the two.',
      node.span,
    );
  const floor = work.length(map, 'floor-radius', 'from-zero');
  if (floor && floor.mm > 0)
    return work.fail('An undercut takes the round at the foot away. Delete `floor-radius` or `undercut`.', floor.span);
  const sizes = node.type === 'map' ? written(work, node) : bySeries(work, node, spec);
  if (!sizes) return undefined;
  const { width, diameter } = sizes;
  if (width.mm > depth.mm - ROUNDING)
    return work.fail(
      'The undercut is as wide as the boss is high. Make the boss longer, or the undercut narrower.',
      width.span,
    );
  const rootMm = diameterMm - ROOT_PITCHES * spec.pitchMm;
  if (diameter.mm > rootMm)
    return work.fail(
      `The undercut stops outside the root of the thread, ${Number(rootMm.toFixed(2))} mm. Make its \`diameter\` smaller.`,
      diameter.span,
    );
  return { ...sizes, span: node.span };
}

/** d3 of ISO 724. */
const ROOT_PITCHES = 1.22687;

function written(work: Evaluation, node: MapNode): Omit<BossUndercut, 'span'> | undefined {
  const width = work.length(node, 'width');
  const diameter = work.length(node, 'diameter');
  return width && diameter && { width, diameter };
}

function bySeries(work: Evaluation, node: ScalarNode, spec: Thread): Omit<BossUndercut, 'span'> | undefined {
  const series = textOf(node).trim();
  // The schema says of another word that it is none.
  if (!isSeries(series)) return undefined;
  const found = threadUndercut(spec, series);
  if (!found)
    return work.fail(
      isUnified(spec)
        ? 'The tables of undercuts are for metric threads. Write its sizes: `undercut: { width: …, diameter: … }`.'
        : 'The tables of undercuts do not have this pitch. Write its sizes: `undercut: { width: …, diameter: … }`.',
      node.span,
    );
  const { mostMm, diameterMm, source } = found;
  return {
    width: unwritten(mostMm, node.span, `the undercut, ${source}`),
    diameter: unwritten(diameterMm, node.span, `the undercut, ${source}`),
    source,
  };
}

function isSeries(text: string): text is UndercutSeries {
  return Object.hasOwn(SERIES, text);
}
