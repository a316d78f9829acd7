/** What is said of a hole that a drill press or bench does not take, behind its name. Words alone: they lie beside the doors. */
import type { PressLimit } from '../../process/press-limits';

export type PressTold = PressLimit | { readonly what: 'in a set-up'; readonly setup: string };

interface Told {
  /** Where it is made, by its name. */
  readonly on: string;
  /** The presses of the shop, and the one that is called most alike. */
  readonly known: string;
  readonly meant: string | undefined;
  readonly length: (mm: number) => string;
}

export function pressSentence(limit: PressTold, { on, known, meant, length }: Told): string {
  switch (limit.what) {
    case 'unknown': {
      return `is made on ${on}, which the shop does not have. ${meant ? `Did you mean ${meant}?` : known ? `It has ${known}.` : 'It lists no `drill-presses`.'} Make it on the mill, or list the press.`;
    }
    case 'no bench':
      return 'is made at the bench, and the shop file has no `bench`. Add `bench: {}` if there is one, or make it on the mill.';
    case 'tilted':
      return `is tilted. A drill press was not checked for that: clamp it on a tilting table there, or cut it on the mill without \`made-on\`.`;
    case 'nothing by hand':
      return 'is made at the bench, but nothing of it is tapped or reamed. Delete `made-on`.';
    case 'missing':
      return `needs ${limit.wanted}, which no drill, reamer, countersink or tap in the shop does. A drill press takes no mills. Make it on the mill.`;
    case 'chuck':
      return `needs a drill of ${length(limit.needsMm)}. The chuck of ${on} takes ${length(limit.hasMm)}. Make it on the mill, or smaller.`;
    case 'throat':
      return `is ${length(limit.needsMm)} from the nearest side. The column of ${on} is ${length(limit.hasMm)} from its spindle. Make it on the mill.`;
    case 'opening':
      return `needs ${length(limit.needsMm)} between table and chuck, for part and drill. ${on} has ${length(limit.hasMm)}. Use a shorter drill, or the mill.`;
    case 'drill length':
      return `needs a drill that stands ${length(limit.needsMm)} out of the chuck. The one in the shop stands out ${length(limit.hasMm)}. Use a longer drill, or the mill.`;
    case 'stroke':
      return `is drilled ${length(limit.needsMm)} deep, and the spindle of ${on} goes down ${length(limit.hasMm)}. Stop it, raise the table and the part together, and go on.`;
    case 'speed':
      return `needs at most ${Math.round(limit.rpm)} rpm, and ${on} turns ${Math.round(limit.slowest)} at its slowest. The drill gets hot and blunt. Make it on the mill, or drill it in steps.`;
    case 'tap':
      return `needs a tap of ${length(limit.needsMm)}; \`bench\` has taps to ${length(limit.hasMm)}. Tap it on the mill.`;
    case 'reamer':
      return `needs a hand reamer of ${length(limit.needsMm)}; \`bench\` has ${limit.hasMm > 0 ? `them to ${length(limit.hasMm)}` : 'none'}. Ream it on the mill.`;
    case 'in a set-up':
      return `is made on ${on}, and set-up ${limit.setup} cuts it too. Delete it from the set-up, or delete \`made-on\`.`;
    default:
      return limit satisfies never;
  }
}
