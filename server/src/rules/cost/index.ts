/** The rules of the topic cost: what makes it dear. */
import type { Rule } from '../rule';
import { flatPart } from './flat-part';
import { overBar, overHours, overMass } from './of-jobs';

export const RULES: readonly Rule[] = [flatPart, overMass, overHours, overBar];
