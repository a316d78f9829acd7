/** The rules of the topic form: the text means a part. */
import type { Rule } from '../kit/rule';
import { checkerFailed } from './checker-failed';
import { hashComment } from './hash-comment';
import { hiddenCharacter } from './hidden-character';
import { inPieces } from './in-pieces';
import { islandOutside } from './island-outside';
import { noReason } from './no-reason';
import { notJudged } from './not-judged';
import { oldName } from './old-name';
import { outsideBody } from './outside-body';
import { overlap } from './overlap';
import { removesNothing } from './removes-nothing';
import { schema } from './schema';
import { selfCrossing } from './self-crossing';
import { tooSmallToSee } from './too-small-to-see';
import { unit } from './unit';
import { unknownName } from './unknown-name';
import { unneededAccept } from './unneeded-accept';
import { unusedParameter } from './unused-parameter';

export const RULES: readonly Rule[] = [
  schema,
  unit,
  unknownName,
  unusedParameter,
  hashComment,
  hiddenCharacter,
  oldName,
  outsideBody,
  removesNothing,
  overlap,
  inPieces,
  islandOutside,
  selfCrossing,
  unneededAccept,
  noReason,
  tooSmallToSee,
  notJudged,
  checkerFailed,
];
