/** The rules of the topic stock: the bar it is cut from. */
import type { Rule } from '../rule';
import { extra } from './extra';
import { tooSmall } from './too-small';
import { unknownMaterial } from './unknown-material';

export const RULES: readonly Rule[] = [tooSmall, extra, unknownMaterial];
