/** What places the workpiece in rotation, in words. */
import type { Setup } from '../model/model';

export function clockText({ clock }: Pick<Setup, 'clock'>): string | undefined {
  if (!clock) return undefined;
  switch (clock.by) {
    case 'indicator':
      return `an indicator run along ${clock.of.name}`;
    case 'pin':
      return `a pin in ${clock.of.name}, set level`;
    case 'square':
      return `a square against ${clock.of.name}`;
    default:
      return clock.by satisfies never;
  }
}
