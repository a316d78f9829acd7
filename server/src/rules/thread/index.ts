/** The rules of the topic thread: tapped holes, threads on bosses. */
import type { Rule } from '../kit/rule';
import { holeConflict } from './hole-conflict';
import { noDie } from './no-die';
import { noRoom } from './no-room';
import { noTap } from './no-tap';
import { percent } from './percent';
import { shoulder } from './shoulder';
import { tooLong } from './too-long';
import { tooShort } from './too-short';
import { unknown } from './unknown';

export const RULES: readonly Rule[] = [
  unknown,
  holeConflict,
  noRoom,
  tooLong,
  tooShort,
  percent,
  noTap,
  noDie,
  shoulder,
];
