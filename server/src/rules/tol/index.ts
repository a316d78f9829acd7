/** The rules of the topic tol: what the process can hold. */
import type { Rule } from '../rule';
import { datumMissing } from './datum-missing';
import { fitSide } from './fit-side';
import { fitUnknown } from './fit-unknown';
import { general } from './general';
import { noReamer } from './no-reamer';
import { process } from './process';

export const RULES: readonly Rule[] = [process, noReamer, fitUnknown, fitSide, datumMissing, general];
