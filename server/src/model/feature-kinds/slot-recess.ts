/** What widens a slot at its mouth, all along it: a cone for flat heads, or a flat-bottomed recess for cap heads. */

import * as z from 'zod/mini';
import { type MapNode, mapAt, type Span, scalarAt } from '../../text/tree';
import { ROUNDING } from '../../tolerance';
import type { Angle, Depth, Length } from '../base';
import type { Head } from '../resolve/base';
import type { Evaluation } from '../resolve/evaluation';
import { angle, length, map, name, noted, optional } from '../schema/common';
import { counterboreOf, countersinkOf } from './hole-screws';

export interface SlotCounterbore {
  readonly width: Length;
  readonly depth: Length;
  readonly screw?: string;
  readonly span: Span;
}
export interface SlotCountersink {
  readonly width: Length;
  readonly angle: Angle;
  readonly screw?: string;
  readonly span: Span;
}
interface SlotRecess {
  readonly counterbore?: SlotCounterbore;
  readonly countersink?: SlotCountersink;
}

export const recessFields = {
  counterbore: optional(
    noted(
      z.union([
        map(
          {
            width: length('Width of the recess.', { example: '10' }),
            depth: length('Depth below where the slot starts.', { example: '5.5' }),
          },
          'A recess by its own sizes.',
        ),
        name('cap-screw', 'The screw whose head it takes.', { example: 'M5' }),
      ]),
      {
        description: 'A wider, flat-bottomed start along the slot, for heads of cap screws: its sizes, or the screw.',
        example: 'M5',
      },
    ),
  ),
  countersink: optional(
    noted(
      z.union([
        map(
          {
            width: length('Width at the surface.', { example: '10' }),
            angle: optional(angle('Included angle.', { example: '90', fallback: '90' })),
          },
          'A countersink by its own sizes.',
        ),
        name('flat-screw', 'The screw whose head it takes.', { example: 'M5' }),
      ]),
      {
        description: 'Sloped sides at the start along the slot, for flat heads of screws: their sizes, or the screw.',
        example: 'M5',
      },
    ),
  ),
} as const;

/** The mouth of a slot; undefined, its problem told, where it cannot be. */
export function recessOf(
  work: Evaluation,
  map: MapNode,
  head: Head,
  width: Length | undefined,
  depth: Depth | undefined,
): SlotRecess {
  const bore = counterboreOf(work, map, width, 'slot');
  const sink = countersinkOf(work, map, head, width, 'slot');
  const first = mapAt(map, 'countersink') ?? scalarAt(map, 'countersink');
  if (bore && sink) work.fail('A slot has a counterbore or a countersink, not both. Delete one of them.', first!.span);
  for (const other of ['tee', 'dovetail', 'tilt'])
    if ((bore || sink) && mapAt(map, other))
      work.fail(
        other === 'tilt'
          ? 'A tilted slot has no counterbore or countersink here. Draw it as a slot of its own, or delete it.'
          : `A slot with a ${other} has no counterbore or countersink. Delete one of them.`,
        (bore ?? sink)!.span,
      );
  const deepMm = sink && width ? sinkDepthMm({ width: sink.diameter, angle: sink.angle }, width) : bore?.depth.mm;
  if (deepMm !== undefined && depth && deepMm > depth.mm - ROUNDING)
    work.fail(
      `The ${sink ? 'countersink' : 'counterbore'} is as deep as the slot. Make the slot deeper, or the recess ${sink ? 'narrower' : 'less deep'}.`,
      (bore ?? sink)!.span,
    );
  const of = (said: { readonly screw?: string; readonly span: Span }) => ({
    ...(said.screw !== undefined && { screw: said.screw }),
    span: said.span,
  });
  return {
    ...(bore && { counterbore: { width: bore.diameter, depth: bore.depth, ...of(bore) } }),
    ...(sink && { countersink: { width: sink.diameter, angle: sink.angle, ...of(sink) } }),
  };
}

/** How far down the sloped sides reach. */
export function sinkDepthMm({ width, angle }: Pick<SlotCountersink, 'width' | 'angle'>, slot: Length): number {
  const beside = Math.max(0, (width.mm - slot.mm) / 2);
  return angle.deg === 90 ? beside : beside / Math.tan((angle.deg / 2) * (Math.PI / 180));
}
