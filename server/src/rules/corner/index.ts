/** The rules of the topic corner: a round cutter makes round inside corners. */
import type { Rule } from '../kit/rule';
import { floorRadius } from './floor-radius';
import { insideRadius } from './inside-radius';
import { mixed } from './mixed';
import { outsideRound } from './outside-round';
import { square } from './square';
import { tight } from './tight';

export const RULES: readonly Rule[] = [insideRadius, square, tight, floorRadius, mixed, outsideRound];
