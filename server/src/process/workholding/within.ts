/** What is cut straight down inside the work, or takes a hair off it: no jaw is in its way. */
import type { Void } from '../../geometry/types';

export const WITHIN: ReadonlySet<Void['role']> = new Set([
  'bore',
  'point',
  'counterbore',
  'countersink',
  'engraving',
  'groove',
]);
