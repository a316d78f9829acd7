/** The rules of the topic access: a straight tool along the spindle. */
import type { Rule } from '../rule';
import { buried } from './buried';
import { noSetup } from './no-setup';
import { reach } from './reach';
import { tilted } from './tilted';
import { undercut } from './undercut';

export const RULES: readonly Rule[] = [noSetup, buried, reach, tilted, undercut];
