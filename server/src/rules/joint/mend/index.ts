/** What may cure a finding on a joint: candidates by its rule, likeliest first. Each is tried before it is offered. */
import type { Joint } from '../../../model/joint-model';
import type { Finding } from '../../kit/rule';
import { engagement } from '../engagement';
import { fit } from '../fit';
import { head } from '../head';
import { lengthRule } from '../length';
import { nut } from '../nut';
import { pattern } from '../pattern';
import { position } from '../position';
import { screw } from '../screw';
import { stack } from '../stack';
import { fitMends, pinFitMends, positionMends, stackMends } from './fits';
import { lengthMends, pinLengthMends } from './lengths';
import type { Mend, MendContext } from './mend';
import { nutMends } from './nuts';
import { patternMends } from './patterns';
import { headMends, screwMends } from './screws';

export type { Mend, MendContext } from './mend';

export function* mendsOf(joint: Joint, finding: Finding, context: MendContext): Generator<Mend> {
  for (const mend of candidates(joint, finding, context)) if (mend) yield mend;
}

function candidates(joint: Joint, finding: Finding, context: MendContext): Iterable<Mend | undefined> {
  const { rule } = finding;
  switch (joint.kind) {
    case 'screw':
      if (rule === pattern.name) return patternMends(joint, context);
      if (rule === screw.name) return screwMends(joint, finding, context);
      if (rule === head.name) return headMends(joint, finding, context);
      if (rule === nut.name) return nutMends(joint, context);
      if (rule === position.name) return positionMends(joint, context);
      return rule === lengthRule.name || rule === engagement.name ? lengthMends(joint, context) : [];
    case 'pin':
      if (rule === pattern.name) return patternMends(joint, context);
      return rule === fit.name ? pinFitMends(joint, context) : pinLengthMends(joint, context);
    case 'stack':
      return rule === stack.name ? stackMends(joint, context) : [];
    case 'shaft':
    case 'bearing':
    case 'bought':
      return rule === fit.name ? fitMends(joint, context) : [];
    default:
      return joint satisfies never;
  }
}
