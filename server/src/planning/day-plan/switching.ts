/** What it takes to go from one set-up to the next on the same machine: only what is not there already. */
import type { Minutes } from '../../model/shop-times';
import type { Change, DaySetup } from './types';

/**
 * What share of setting up on a bare table each thing is: the vise swept true half of it, the rest by tenths. Common
 * practice, no source; all of it together is the shop's `times: set-up`.
 */
const SHARE: Readonly<Record<Exclude<Change, 'machine' | 'tool'>, number>> = {
  vise: 0.5,
  parallels: 0.1,
  stop: 0.1,
  'zero x': 0.1,
  'zero y': 0.1,
  'zero z': 0.1,
};
const ZEROS = ['zero x', 'zero y', 'zero z'] as const;
const ON_A_BARE_TABLE: readonly Change[] = ['vise', 'parallels', 'stop', ...ZEROS];

/** `before`: undefined where the table is bare, as at the beginning of an evening. */
export function changesFor(before: DaySetup | undefined, next: DaySetup): readonly Change[] {
  const tool = next.tools.length > 0 && before?.tools.at(-1) !== next.tools[0] ? (['tool'] as const) : [];
  const [a, b] = [before?.standing, next.standing];
  if (!a || a.machine !== b.machine) return [...(a ? (['machine'] as const) : []), ...ON_A_BARE_TABLE, ...tool];
  if (a.onlyHere || b.onlyHere || a.holds !== b.holds) return [...ON_A_BARE_TABLE, ...tool];
  const zeros = ZEROS.filter((_, i) => a.zero[i] === undefined || a.zero[i] !== b.zero[i]);
  return [
    ...(a.parallels === b.parallels ? [] : (['parallels'] as const)),
    ...(a.stop === b.stop ? [] : (['stop'] as const)),
    ...zeros,
    ...tool,
  ];
}

/** With these changes before it. The first tool is one of its changes already: what is there is spared. */
export function minutesWith(changes: readonly Change[], { work, settingUp, toolChange, tools }: DaySetup): Minutes {
  const share = changes.reduce((sum, c) => sum + (c === 'machine' || c === 'tool' ? 0 : SHARE[c]), 0);
  const spared = tools.length > 0 && !changes.includes('tool') ? 1 : 0;
  const at = (i: 0 | 1) => Math.max(0, work[i] + share * settingUp[i] - spared * toolChange[i]);
  return [at(0), at(1)];
}
