/** Every way in which a part can be said otherwise. */
import { faceRewritings } from './face';
import { measuredFrom } from './measured';
import { mirrorRewritings } from './mirror';
import { parameterRewritings } from './parameter';
import { patternRewritings } from './pattern';
import type { Rewriting, Subject } from './subject';
import { unitRewritings } from './units';

const ALL: readonly ((subject: Subject) => readonly Rewriting[])[] = [
  parameterRewritings,
  measuredFrom,
  faceRewritings,
  mirrorRewritings,
  patternRewritings,
  unitRewritings,
];

export const rewritings = (subject: Subject): readonly Rewriting[] => ALL.flatMap((offered) => offered(subject));
