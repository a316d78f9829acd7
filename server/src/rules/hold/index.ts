/** The rules of the topic hold: the work must stay where it is. */
import type { Rule } from '../kit/rule';
import { anglePlate } from './angle-plate';
import { clamps } from './clamps';
import { cutFree } from './cut-free';
import { drillsTheParallels } from './drills-the-parallels';
import { grip } from './grip';
import { inTheCut } from './in-the-cut';
import { intoTable } from './into-table';
import { onSawn } from './on-sawn';
import { opening } from './opening';
import { overhang } from './overhang';
import { parallel } from './parallel';
import { parallels } from './parallels';
import { pieces } from './pieces';
import { screws } from './screws';
import { slips } from './slips';
import { squeeze } from './squeeze';
import { tipsOut } from './tips-out';
import { vBlock } from './v-block';

export const RULES: readonly Rule[] = [
  grip,
  parallel,
  opening,
  overhang,
  parallels,
  inTheCut,
  drillsTheParallels,
  intoTable,
  squeeze,
  slips,
  tipsOut,
  cutFree,
  onSawn,
  clamps,
  screws,
  vBlock,
  anglePlate,
  pieces,
];
