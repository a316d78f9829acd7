/** The moments that can be shown: each setup before and after, and at the end the finished part. */
import type { Moment, PictureSetup } from '../../server/src/service/view/protocol';

interface Step {
  readonly moment?: Moment;
  readonly text: string;
}

/** In the order they come about; the finished part last. */
export function stepsOf(setups: readonly PictureSetup[]): readonly Step[] {
  return [
    ...setups.flatMap((s, setup): Step[] => [
      { moment: { setup, when: 'before' }, text: `before ${s.name}${s.up ? `, ${s.up} up` : ''}` },
      { moment: { setup, when: 'after' }, text: `after ${s.name}` },
    ]),
    { text: 'finished part' },
  ];
}

/** Which step shows this moment; the last for none, or for one that is gone. */
export function stepAt(steps: readonly Step[], moment: Moment | undefined): number {
  const found = steps.findIndex((s) => s.moment?.setup === moment?.setup && s.moment?.when === moment?.when);
  return found < 0 ? steps.length - 1 : found;
}
