/** The rules of the topic access: a straight tool along the spindle. */
import type { Rule } from '../kit/rule';
import { angle } from './angle';
import { askedTool } from './asked-tool';
import { covered } from './covered';
import { holder } from './holder';
import { jaw } from './jaw';
import { longCutter } from './long-cutter';
import { noSetup } from './no-setup';
import { noTool } from './no-tool';
import { reach } from './reach';
import { tilted } from './tilted';
import { undercut } from './undercut';

export const RULES: readonly Rule[] = [
  noSetup,
  covered,
  reach,
  holder,
  jaw,
  tilted,
  angle,
  undercut,
  noTool,
  longCutter,
  askedTool,
];
