/** The rules of the topic cost: what makes it dear. */
import type { Rule } from '../rule';
import { flatPart } from './flat-part';

export const RULES: readonly Rule[] = [flatPart];
