/** The rules of the topic hole: drilled, bored, counterbored. */
import type { Rule } from '../kit/rule';
import { breaksOut } from './breaks-out';
import { crosses } from './crosses';
import { depthRatio } from './depth-ratio';
import { drillPress } from './drill-press';
import { flatBottom } from './flat-bottom';
import { markedOut } from './marked-out';
import { nearEdge } from './near-edge';
import { oddDiameter } from './odd-diameter';
import { outOfReach } from './out-of-reach';
import { pointBreaksThrough } from './point-breaks-through';
import { screwHead } from './screw-head';
import { slopedStart } from './sloped-start';
import { tooSmall } from './too-small';

export const RULES: readonly Rule[] = [
  depthRatio,
  oddDiameter,
  tooSmall,
  flatBottom,
  pointBreaksThrough,
  breaksOut,
  crosses,
  slopedStart,
  nearEdge,
  screwHead,
  outOfReach,
  drillPress,
  markedOut,
];
