/**
 * What is written anew on demand: a text laid out, a part said otherwise. Loaded when it is first asked for, as most
 * sittings never ask. Answers edits of one text, or a sentence why there are none.
 */
import type { Layout, Tidied } from '../../text/tidy';
import { tidied, tidiedWithin } from '../../text/tidy';
import type { TextTree } from '../../text/tree';
import { faceRewritings } from './face';
import { measuredFrom } from './measured';
import { mirrorRewritings } from './mirror';
import { parameterRewritings } from './parameter';
import { patternRewritings } from './pattern';
import type { Rewriting, Subject } from './subject';
import { unitRewritings } from './units';

export type { Rewriting };

export interface Writing {
  /** `within`: offsets; left out, the whole. */
  tidied(tree: TextTree, layout: Layout, within?: readonly [number, number]): Tidied;
  rewritings(subject: Subject): readonly Rewriting[];
}

const ALL: readonly ((subject: Subject) => readonly Rewriting[])[] = [
  parameterRewritings,
  measuredFrom,
  faceRewritings,
  mirrorRewritings,
  patternRewritings,
  unitRewritings,
];

export const WRITING: Writing = {
  tidied: (tree, layout, within) => (within ? tidiedWithin(tree, layout, ...within) : tidied(tree, layout)),
  rewritings: (subject) => ALL.flatMap((offered) => offered(subject)),
};
