/** The rules of the topic wall: enough material must be left. */
import type { Rule } from '../kit/rule';
import { deflects } from './deflects';
import { floor } from './floor';
import { knifeEdge } from './knife-edge';
import { slender } from './slender';
import { thin } from './thin';

export const RULES: readonly Rule[] = [thin, slender, floor, deflects, knifeEdge];
