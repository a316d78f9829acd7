/** The rules of the topic tol: what the process can hold. */
import type { Rule } from '../kit/rule';
import { asSetUp } from './as-set-up';
import { centred } from './centred';
import { chain } from './chain';
import { coating } from './coating';
import { datumMissing } from './datum-missing';
import { datumOrder } from './datum-order';
import { distance } from './distance';
import { fastener } from './fastener';
import { finish } from './finish';
import { fitUnknown } from './fit-unknown';
import { general } from './general';
import { geometric } from './geometric';
import { measuredOut } from './measured';
import { needless } from './needless';
import { noReamer } from './no-reamer';
import { process } from './process';
import { shaftOrHole } from './shaft-or-hole';

export const RULES: readonly Rule[] = [
  process,
  noReamer,
  fitUnknown,
  shaftOrHole,
  fastener,
  finish,
  datumMissing,
  datumOrder,
  distance,
  chain,
  asSetUp,
  centred,
  needless,
  general,
  geometric,
  measuredOut,
  coating,
];
