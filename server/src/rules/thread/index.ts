/** The rules of the topic thread: tapped. */
import type { Rule } from '../rule';

export const RULES: readonly Rule[] = [];
