/** The rules of the topic hole: drilled, bored, counterbored. */
import type { Rule } from '../rule';

export const RULES: readonly Rule[] = [];
