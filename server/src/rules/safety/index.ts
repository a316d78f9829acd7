/** The rules of the topic safety: what can hurt. */
import type { Rule } from '../kit/rule';
import { material } from './material';
import { whip } from './whip';

export const RULES: readonly Rule[] = [material, whip];
