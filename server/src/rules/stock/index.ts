/** The rules of the topic stock: the bar it is cut from. */
import type { Rule } from '../kit/rule';
import { alreadyToSize } from './already-to-size';
import { asSupplied } from './as-supplied';
import { extra } from './extra';
import { flatness } from './flatness';
import { notOnRack } from './not-on-rack';
import { tooSmall } from './too-small';
import { unknownMaterial } from './unknown-material';
import { waste } from './waste';

export const RULES: readonly Rule[] = [
  tooSmall,
  extra,
  notOnRack,
  asSupplied,
  flatness,
  alreadyToSize,
  waste,
  unknownMaterial,
];
