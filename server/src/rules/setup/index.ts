/** The rules of the topic setup: how the work is turned, and in what order it is cut. */
import type { Rule } from '../kit/rule';
import { across } from './across';
import { clocked } from './clocked';
import { flip } from './flip';
import { moreThanNeeded } from './more-than-needed';
import { oneZero } from './one-zero';
import { order } from './order';
import { tilts } from './tilts';
import { twice } from './twice';
import { unassigned } from './unassigned';
import { zeroLost } from './zero-lost';

export const RULES: readonly Rule[] = [
  order,
  unassigned,
  twice,
  moreThanNeeded,
  zeroLost,
  oneZero,
  across,
  tilts,
  flip,
  clocked,
];
