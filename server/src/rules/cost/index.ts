/** The rules of the topic cost: what makes it dear. */
import type { Rule } from '../rule';

export const RULES: readonly Rule[] = [];
