/** The rules of the topic cost: what makes it dear. */
import type { Rule } from '../kit/rule';
import { flatBlank } from './flat-blank';
import { flatPart } from './flat-part';
import { barTooShort, overHours, overMass } from './of-jobs';
import { slowFeature } from './slow-feature';
import { toolChanges } from './tool-changes';

export const RULES: readonly Rule[] = [flatPart, flatBlank, toolChanges, slowFeature, overMass, overHours, barTooShort];
