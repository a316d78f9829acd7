/** Stepping through the set-ups: as the work is put in, after each pass, as it is taken out; at the end the finished part. */
import type { Moment, PictureSetup, PictureWords } from '../../server/src/service/view/protocol';

type Shown = Pick<PictureWords, 'moment' | 'setups'>;

/** The moment after this one, or before it; undefined: the finished part. It goes round: after the finished part comes the first set-up. */
export function stepped({ moment, setups }: Shown, by: 1 | -1): Moment | undefined {
  return by > 0 ? later(moment, setups) : earlier(moment, setups);
}

function later(moment: Moment | undefined, setups: readonly PictureSetup[]): Moment | undefined {
  if (!moment) return setups.length > 0 ? { setup: 0, when: 'before' } : undefined;
  const { setup, when, pass } = moment;
  const passes = setups[setup]?.passes?.length ?? 0;
  const next = when === 'before' ? 1 : pass === undefined ? passes + 1 : pass + 1;
  if (next <= passes) return { setup, when: 'after', pass: next };
  if (when === 'before' || pass !== undefined) return { setup, when: 'after' };
  return setup + 1 < setups.length ? { setup: setup + 1, when: 'before' } : undefined;
}

function earlier(moment: Moment | undefined, setups: readonly PictureSetup[]): Moment | undefined {
  if (!moment) return setups.length > 0 ? { setup: setups.length - 1, when: 'after' } : undefined;
  const { setup, when, pass } = moment;
  const passes = setups[setup]?.passes?.length ?? 0;
  if (when === 'before') return setup > 0 ? { setup: setup - 1, when: 'after' } : undefined;
  const last = pass === undefined ? passes : pass - 1;
  return last > 0 ? { setup, when: 'after', pass: last } : { setup, when: 'before' };
}

/** What is shown, in words: `put in`, `3 of 8: drill mount, …`, `as it is taken out`. */
export function stepText({ moment, setups }: Shown): string {
  const setup = moment && setups[moment.setup];
  if (!setup) return 'finished part';
  if (moment.when === 'before') return 'as it is put in';
  const pass = moment.pass === undefined ? undefined : setup.passes?.[moment.pass - 1];
  return pass ? `${pass.number} of ${setup.passes!.length}: ${pass.text}` : 'as it is taken out';
}

export function setupText({ name, up }: PictureSetup, index: number): string {
  return `${index + 1} ${name}${up ? `, ${up} up` : ''}`;
}
