/** What the machine can do. */
import type { Rule } from '../kit/rule';
import { feed } from './feed';
import { helix } from './helix';
import { material } from './material';
import { noCoolant } from './no-coolant';
import { power, torque } from './power';
import { speed } from './speed';
import { travel } from './travel';
import { weight } from './weight';

export const RULES: readonly Rule[] = [helix, material, travel, speed, power, torque, feed, weight, noCoolant];
