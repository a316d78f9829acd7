/** The rules of the topic setup: how the work is turned, and in what order it is cut. */
import type { Rule } from '../kit/rule';
import { across } from './across';
import { clocked } from './clocked';
import { craft } from './craft';
import { moreThanNeeded } from './more-than-needed';
import { oppositeZero } from './opposite-zero';
import { order } from './order';
import { sawnOff } from './sawn-off';
import { tilts } from './tilts';
import { twice } from './twice';
import { unassigned } from './unassigned';
import { zeroLost } from './zero-lost';
import { zeroPerPiece } from './zero-per-piece';

export const RULES: readonly Rule[] = [
  order,
  unassigned,
  twice,
  craft,
  moreThanNeeded,
  zeroLost,
  zeroPerPiece,
  across,
  tilts,
  oppositeZero,
  clocked,
  sawnOff,
];
