import type { ScalarNode } from '../../text/tree';
import { faceOf } from '../everyday/held';
import { readMemberName } from '../member-name';
import { FACES, type Named } from '../model';
import type { Evaluation } from './evaluation';
import { quote, replace } from './problem';

/**
 * A mentioned feature (or one member of its pattern) or face. A name that nothing answers to is told; one whose feature
 * is broken is not.
 */
export function cutNamed(work: Evaluation, node: ScalarNode, ...others: readonly string[]): Named | undefined {
  const name = String(node.value);
  if ((FACES as readonly string[]).includes(name) || others.includes(name)) return { name, span: node.span };
  const { feature, member } = readMemberName(name);
  const found = work.look('mention', feature);
  if (found === 'unknown') {
    const face = faceOf(name);
    if (face)
      return work.fail(
        `There is no feature ${quote(name)}; a face is meant. Write \`${face}\`.`,
        node.span,
        { fixes: [replace(node.span, face)] },
        'form/unknown-name',
      );
    work.unknown('feature or face', feature, node.span, [...work.names('features'), ...FACES, ...others]);
    return undefined;
  }
  if (member !== undefined && typeof found === 'number') {
    if (member < 1 || member > found) {
      const has = found > 0 ? `members 1 to ${found}` : 'no members: it has no pattern';
      return work.fail(`There is no ${quote(name)}: \`${feature}\` has ${has}.`, node.span, {}, 'form/unknown-name');
    }
  }
  return { name, span: node.span };
}
