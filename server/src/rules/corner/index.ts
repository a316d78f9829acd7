/** The rules of the topic corner: a round cutter makes round inside corners. */
import type { Rule } from '../rule';

export const RULES: readonly Rule[] = [];
