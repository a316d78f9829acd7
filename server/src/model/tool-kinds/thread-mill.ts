/** Thread mills: they go round in a bored hole, or round a boss, on a helix of the thread's pitch, in the spindle, never by hand. */
import type { FlanksDeg } from '../../tables/thread-form';
import { scalarAt } from '../../text/tree';
import { angle, length, map, optional, words } from '../schema/common';
import { diameter, flutes, gripped, kind, reach, shank, toothed } from './fields';
import { byReach, noDisc, onShank, type ToolBase, type ToolKindHome } from './kind';
import { PRACTICE, type ToolReader } from './reader';

export interface ThreadMill extends ToolBase {
  readonly kind: 'thread-mill';
  readonly flutes: number;
  /** Over its rows of teeth: as long as one pitch where it has one row. */
  readonly fluteLengthMm: number;
  readonly reachMm: number;
  readonly shankMm: number;
  /** Pitches that it cuts, from least to most; the same twice where its teeth have the full form of one. */
  readonly pitchMm: readonly [least: number, most: number];
  /** Between the flanks of its teeth. */
  readonly flanksDeg: FlanksDeg;
  /** Its rows lie on a cone of 1 in 16. */
  readonly tapered?: true;
  readonly cuts: 'inside' | 'outside' | 'both';
}

const FLANKS: readonly FlanksDeg[] = [60, 55, 30];

const CUTS = {
  inside: 'in holes: its teeth have the full form of an inside thread',
  outside: 'on bosses: its teeth have the full form of an outside thread',
  both: 'either: its teeth are pointed, and leave the crests to the hole or boss',
} as const;

const schema = map(
  {
    kind: kind(
      'thread-mill',
      'Goes round in a bored hole, or round a boss, on a helix: any diameter of its pitch, left-hand too.',
    ),
    diameter: diameter('Diameter over the teeth.', '16'),
    pitch: length('The pitch that it cuts, or the largest.', { example: '3' }),
    'smallest-pitch': optional(
      length('The smallest pitch, of a cutter with single teeth that cuts several.', {
        example: '1.5',
        fallback: 'the pitch: it cuts no other',
      }),
    ),
    angle: optional(
      angle('Between the flanks of its teeth: 60 metric, unified and NPT, 55 Whitworth pipe threads, 30 trapezoidal.', {
        example: '55',
        fallback: '60',
      }),
    ),
    tapered: optional(
      words(
        {
          yes: 'its rows lie on a cone of 1 in 16: it cuts NPT or Rc threads, no others',
          no: 'its rows lie one under another',
        },
        'Whether it cuts a thread on a cone.',
        { fallback: 'no' },
      ),
    ),
    cuts: optional(
      words(CUTS, 'Where it cuts: full teeth fit one of the two.', {
        fallback: 'both with a `smallest-pitch`, else inside',
      }),
    ),
    flutes: flutes('3'),
    'flute-length': optional(length('Length of its rows of teeth.', { example: '30', fallback: 'one pitch: one row' })),
    reach: reach('two and a half times the diameter'),
    shank: shank('the next usual shank'),
    ...toothed,
    ...gripped('carbide'),
  },
  'A thread mill. Threads of 60° where no `angle` is given.',
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
  const flanksDeg = flanksOf(r);
  if (flanksDeg === undefined) return undefined;
  const tapered = r.fields.word(r.node, 'tapered') === 'yes' ? ({ tapered: true } as const) : {};
  const cuts =
    (r.fields.word(r.node, 'cuts') as ThreadMill['cuts'] | undefined) ??
    r.assume('cuts', least < most ? 'both' : 'inside', PRACTICE);
  return {
    ...r.base(d, 'carbide'),
    kind: 'thread-mill',
    flutes,
    fluteLengthMm,
    reachMm,
    shankMm,
    pitchMm: [least, most],
    flanksDeg,
    ...tapered,
    cuts,
  };
}

function flanksOf(r: ToolReader): FlanksDeg | undefined {
  const deg = r.angle('angle', 60, 60);
  const found = FLANKS.find((f) => f === deg);
  const span = scalarAt(r.node, 'angle')?.span;
  if (found === undefined && span)
    r.fields.problem('form/schema', `No thread here has flanks of ${deg}°. Write \`60\`, \`55\` or \`30\`.`, span);
  return found;
}

export const threadMill: ToolKindHome<ThreadMill> = {
  form: 'thread',
  schema,
  read,
  check({ pitchMm: [least, most], fluteLengthMm, reachMm, flanksDeg, tapered }, tell, mm) {
    if (tapered && flanksDeg === 30)
      tell('tapered', 'No trapezoidal thread lies on a cone. Delete `tapered`, or correct `angle`.');
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
