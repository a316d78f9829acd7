/** What is said where a part was not judged, or not all of it. */
import type { Part, Setup } from '../../model/model';
import { said } from './define';
import type { Finding } from './rule';

/** `form/not-judged`, which stands above the kit. */
const NOT_JUDGED = { name: 'form/not-judged', severity: 'error' } as const;

/** What stands in the place of a rule's findings where it was stopped; `millions`: the limit that it met, if it was one. */
export function notJudgedFinding(rule: string, part: Part, millions?: number): Finding {
  const why =
    millions === undefined
      ? 'its work did not end, or was lost twice (see the log)'
      : `it needs more than ${millions} million looks at an edge`;
  return said(NOT_JUDGED, {
    message: `The part was not checked by ${rule}: ${why}. Make what crosses itself so often simpler: fewer, larger features.`,
    of: [],
    span: part.nameSpan,
    facts: { not_judged: rule, limit_millions: millions },
  });
}

/** That walls were looked for between some cuts only. */
export function wallsNotJudged(rule: string, part: Part, pairs: number): Finding {
  return said(NOT_JUDGED, {
    message: `Walls were checked between the first cuts only: too many run into each other, and ${pairs.toLocaleString('en-US')} pairs were left out. Move the cuts apart, or write one pocket for them.`,
    of: [],
    span: part.nameSpan,
    facts: { not_judged: rule, pairs_left_out: pairs },
  });
}

/** That it is not known what the jaws touch: nothing is said of a hold then, and that must not look like a clean answer. */
export function contactNotKnown(rule: string, setup: Setup, after: string | undefined): Finding {
  const when = after === undefined ? 'when it is put in' : `once ${after} is cut`;
  return said(NOT_JUDGED, {
    message: `Set-up ${setup.name}: what the jaws touch ${when} could not be worked out, so the grip was not checked. Grip other faces, or make the shapes at the jaws simpler.`,
    of: [],
    span: setup.hold?.jaws?.[0]?.span ?? setup.hold?.span ?? setup.span,
    facts: { not_judged: rule, set_up: setup.name, after },
  });
}
