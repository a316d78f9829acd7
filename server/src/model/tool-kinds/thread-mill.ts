/** Thread mills: they go round in a bored hole on a helix of the thread's pitch, in the spindle, never by hand. */
import { length, map, optional } from '../schema/common';
import { diameter, flutes, gripped, kind, reach, shank, toothed } from './fields';
import { byReach, noDisc, onShank, type ToolBase, type ToolKindHome } from './kind';
import type { ToolReader } from './reader';

export interface ThreadMill extends ToolBase {
  readonly kind: 'thread-mill';
  readonly flutes: number;
  /** Over its rows of teeth: as long as one pitch where it has one row. */
  readonly fluteLengthMm: number;
  readonly reachMm: number;
  readonly shankMm: number;
  /** Pitches that it cuts, from least to most; the same twice where its teeth have the full form of one. */
  readonly pitchMm: readonly [least: number, most: number];
}

const schema = map(
  {
    kind: kind('thread-mill', 'Goes round in a bored hole on a helix: any diameter of its pitch, left-hand too.'),
    diameter: diameter('Diameter over the teeth.', '16'),
    pitch: length('The pitch that it cuts, or the largest.', { example: '3' }),
    'smallest-pitch': optional(
      length('The smallest pitch, of a cutter with single teeth that cuts several.', {
        example: '1.5',
        fallback: 'the pitch: it cuts no other',
      }),
    ),
    flutes: flutes('3'),
    'flute-length': optional(length('Length of its rows of teeth.', { example: '30', fallback: 'one pitch: one row' })),
    reach: reach('two and a half times the diameter'),
    shank: shank('the next usual shank'),
    ...toothed,
    ...gripped('carbide'),
  },
  'A thread mill, for threads with a profile of 60°.',
  { example: '{ kind: thread-mill, diameter: 16, pitch: 3, flutes: 4, reach: 45, shank: 16 }' },
);

function read(r: ToolReader): ThreadMill | undefined {
  const d = r.diameter();
  const most = r.fields.size(r.node, 'pitch');
  if (d === undefined || most === undefined) return undefined;
  const least = r.size('smallest-pitch', () => most, 'the pitch');
  const fluteLengthMm = r.size('flute-length', () => most, 'one row of teeth');
  const reachMm = r.size('reach', () => Math.max(fluteLengthMm, 2.5 * d), 'common practice');
  const shankMm = r.shank(d);
  const flutes = r.flutes(3);
  return {
    ...r.base(d, 'carbide'),
    kind: 'thread-mill',
    flutes,
    fluteLengthMm,
    reachMm,
    shankMm,
    pitchMm: [least, most],
  };
}

export const threadMill: ToolKindHome<ThreadMill> = {
  form: 'thread',
  schema,
  read,
  check({ pitchMm: [least, most], fluteLengthMm, reachMm }, tell, mm) {
    if (least > most)
      tell(
        'smallest-pitch',
        `The smallest pitch, ${mm(least)}, is over the largest, ${mm(most)}. Correct one of the two.`,
      );
    if (fluteLengthMm > reachMm)
      tell(
        'reach',
        `Its teeth, ${mm(fluteLengthMm)}, are longer than its reach, ${mm(reachMm)}. Correct one of the two.`,
      );
  },
  reachMm: byReach,
  body: ({ diameterMm, shankMm, reachMm }) => onShank(diameterMm, shankMm, reachMm),
  disc: noDisc,
};
