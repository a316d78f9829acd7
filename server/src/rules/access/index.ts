/** The rules of the topic access: a straight tool along the spindle. */
import type { Rule } from '../rule';

export const RULES: readonly Rule[] = [];
