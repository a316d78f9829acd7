/** The rules of the topic hold: the work must stay where it is. */
import type { Rule } from '../rule';
import { grip } from './grip';
import { inTheCut } from './in-the-cut';
import { opening } from './opening';
import { overhang } from './overhang';
import { parallel } from './parallel';
import { parallels } from './parallels';

export const RULES: readonly Rule[] = [grip, parallel, opening, overhang, parallels, inTheCut];
