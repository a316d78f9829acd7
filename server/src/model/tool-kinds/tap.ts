/** Taps: they cut a thread in a drilled hole, or form it. */
import { map, name, optional, words } from '../schema/common';
import { gripped, kind, reach } from './fields';
import { byReach, inChuck, noDisc, nothingToCheck, type ToolBase, type ToolKindHome } from './kind';
import { PRACTICE, type ToolReader } from './reader';

export interface Tap extends ToolBase {
  readonly kind: 'tap';
  /** As `tables/threads` designates it: `M5`, `10-24 UNC`. `diameterMm` is its major diameter. */
  readonly thread: string;
  readonly chamfer: 'taper' | 'plug' | 'bottoming';
  /** Presses the thread in, without chips. */
  readonly forming?: true;
  readonly reachMm: number;
}

const TAP_CHAMFERS = {
  taper: '7 to 10 threads ground away: starts easily, never reaches the bottom',
  plug: '3 to 5 threads ground away: the everyday tap',
  bottoming: '1 to 2 threads ground away: for blind holes, after a plug tap',
} as const;

const schema = map(
  {
    kind: kind('tap', 'Cuts a thread in a drilled hole, or forms it.'),
    thread: name('thread', 'The thread it cuts.', { example: 'M5' }),
    chamfer: optional(words(TAP_CHAMFERS, 'How its first threads are ground away.', { fallback: 'plug' })),
    forming: optional(
      words(
        {
          yes: 'presses the thread in, without chips: a form tap, for a hole of about D − 0.44 P',
          no: 'cuts it, in a hole of about D − P',
        },
        'Whether it forms its thread.',
        { fallback: 'no' },
      ),
    ),
    reach: reach('four times the diameter'),
    ...gripped('hss'),
  },
  'A tap.',
  { example: '{ kind: tap, thread: M5, chamfer: plug, reach: 22 }' },
);

function read(r: ToolReader): Tap | undefined {
  const thread = r.thread();
  if (!thread) return undefined;
  const d = thread.diameterMm;
  const chamfer =
    (r.fields.word(r.node, 'chamfer') as Tap['chamfer'] | undefined) ?? r.assume('chamfer', 'plug', PRACTICE);
  const reachMm = r.size('reach', () => 4 * d, 'four times the diameter, common practice');
  const forming = r.fields.word(r.node, 'forming') === 'yes' ? ({ forming: true } as const) : {};
  return { ...r.base(d, 'hss'), kind: 'tap', thread: thread.designation, chamfer, reachMm, ...forming };
}

export const tap: ToolKindHome<Tap> = {
  form: 'tap',
  schema,
  read,
  check: nothingToCheck,
  reachMm: byReach,
  body: ({ diameterMm, reachMm }) => inChuck(diameterMm, reachMm),
  disc: noDisc,
};
