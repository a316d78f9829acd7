/** The rules of the topic wall: enough material must be left. */
import type { Rule } from '../rule';

export const RULES: readonly Rule[] = [];
