/** The rules of the topic form: the text means a part. */
import type { Rule } from '../rule';

export const RULES: readonly Rule[] = [];
