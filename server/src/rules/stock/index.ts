/** The rules of the topic stock: the bar it is cut from. */
import type { Rule } from '../rule';

export const RULES: readonly Rule[] = [];
