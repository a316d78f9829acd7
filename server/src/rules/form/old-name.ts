import type { OldWord, TextTree } from '../../text/tree';
import { edited, tidying } from '../kit/changes';
import { defineRule, said, type Told } from '../kit/define';
import type { Finding, Rule } from '../kit/rule';

const BAD = `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 12 }
features:
  ramp: { kind: incline, face: top, along: front, angle: 45, width: 2 }
`;

function tellOld({ is, was, now, span }: OldWord): Told {
  return {
    message: `The ${is === 'key' ? 'key' : 'word'} \`${was}\` is now called \`${now}\`. The old name is still read. Write \`${now}\`.`,
    of: [],
    span,
    facts: { old: was, now },
  };
}

const newWord = ({ now, span }: Pick<OldWord, 'now' | 'span'>) => tidying(`Write \`${now}\``, { span, newText: now });

/** Of a shop or a job, with the change at hand. */
export function oldNames(tree: TextTree): readonly Finding[] {
  return tree.old.map((word) => {
    const fix = newWord(word);
    return { ...said(oldName, tellOld(word)), ...(fix && { fixes: [fix] }) };
  });
}

export const oldName: Rule = defineRule({
  name: 'form/old-name',
  severity: 'hint',
  summary: 'A word has a new name. The old one is still read.',
  why: 'Some words of the format and some names of rules were hard to understand, so they have plainer ones. Files with the old words mean what they meant. The new word is what pages, messages and completion use.',
  formula: 'Each word is compared with the list of words that have a new name.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['kind: incline', 'kind: slope']),
  when: 'text',
  find: ({ tree }) => tree.old,
  tell: tellOld,
  mends: 'Write the new name. The part stays as it is.',
  keep: ({ now, span }) => ({ now, span }),
  *mend(word) {
    yield newWord(word);
  },
});
