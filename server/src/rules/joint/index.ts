/** The rules of the topic joint: whether the parts of a job meet. */
import type { Rule } from '../kit/rule';
import { engagement } from './engagement';
import { fit } from './fit';
import { head } from './head';
import { lengthRule } from './length';
import { nut } from './nut';
import { pattern } from './pattern';
import { position } from './position';
import { screw } from './screw';
import { stack } from './stack';

export const RULES: readonly Rule[] = [pattern, screw, head, nut, lengthRule, engagement, position, fit, stack];
