/** joint/pattern – holes that are to lie over each other do not. */
import type { Pinned, Screwed } from '../../model/joint-model';
import type { Layer } from '../../process/joints/layers';
import type { Match } from '../../process/joints/pattern';
import type { Mismatch } from '../../process/joints/rows';
import { holeLimits } from '../../process/tolerances/fastener';
import { HAIR } from '../../tolerance';
import { defineRule, said, type Told } from '../kit/define';
import { list } from '../kit/message';
import type { Finding, Rule } from '../kit/rule';
import { example, type JointContext, OF_JOINTS } from './context';
import { assembled } from './screwed';

export const pattern: Rule = defineRule({
  ...OF_JOINTS,
  name: 'joint/pattern',
  severity: 'error',
  summary: 'Holes that are to lie over each other do not.',
  why: 'Two parts drilled to different patterns do not go together, and it shows when both are made. A pattern is the same wherever it lies on its part and however the part is turned.',
  formula:
    'Both patterns are looked at along the screw, and laid upon each other so that most holes meet. A hole is off by how far it then lies from its partner. Where no two holes meet, that is the difference of the distance that differs most. A part whose holes come out and have no recess may lie either way up. The play of the screw is H − F with a thread, and that of both parts with a nut. An error where a hole is off by more. Else a warning: it goes together, and the drawing uses up the play.',
  limits: [
    {
      name: 'agree',
      value: 0.02,
      unit: 'mm',
      what: 'Holes that are off by less are meant to be the same.',
      source: 'common practice, no source: what rounding to a thousandth of an inch makes of a size',
    },
  ],
  bad: example('  dowels: { pin: 10x16, in: [lid.dowels, tub.dowels] }\n'),
  good: example('  left: { screw: M5x20, through: yoke.block-screws-left, into: bearing-block.mount }\n'),
  mends: 'Give both the same pattern: where one part knows the right distances, write them in the other.',
});

export function* patternFindings(joint: Screwed | Pinned, context: JointContext): Generator<Finding> {
  const found = assembled(joint, context.pieces, context.joints, context.limit(pattern, 'agree'));
  for (const mismatch of found?.mismatches ?? []) yield said(pattern, tell(joint, mismatch, context));
}

function tell(joint: Screwed | Pinned, mismatch: Mismatch, context: JointContext): Told {
  const { a, b, match } = mismatch;
  const [nameA, nameB] = [nameOf(a), nameOf(b)];
  const base = {
    of: [joint.name],
    thing: `joint ${joint.name}`,
    span: b.holes[0]!.meeting.span,
    related: [a, b].map((l) =>
      context.there(l.piece, l.holes[0]!.hole.nameSpan, `joint ${joint.name}: its holes here`),
    ),
  };
  if (!match || a.holes.length !== b.holes.length) {
    const times = joint.times > 1 ? ` ${joint.times} times` : '';
    return {
      ...base,
      message: `${nameA} has ${holes(a)}${times}, ${nameB} has ${holes(b)}: they do not come out even. Name the ones that meet, like \`${b.piece.name}.${b.holes[0]!.hole.name}[1]\`, or write \`times\`.`,
      has: holes(b),
      needs: holes(a),
      facts: { has_count: b.holes.length, needs_count: a.holes.length },
    };
  }
  const playMm = joint.kind === 'pin' ? 0 : playOf(joint, a) + playOf(joint, b);
  const facts = { off_mm: match.offMm, play_mm: playMm };
  if (mismatch.onlyMirrored)
    return {
      ...base,
      message: `${nameB} lies to ${nameA} as in a mirror. Neither part can lie the other way up. Make one pattern the mirror image of what it is.`,
      facts: { ...facts, mirrored: 'yes' },
    };
  const off = context.length(match.offMm);
  const goes = match.offMm <= playMm + HAIR;
  const play = goes ? ` The screw’s play of ${context.length(playMm)} takes it up.` : '';
  return {
    ...base,
    severity: goes ? 'warning' : 'error',
    message: `${offText(match, a, b, context)}${play} ${change(match, b)}`,
    has: off,
    needs: context.length(0),
    facts,
  };
}

function offText(match: Match, a: Layer, b: Layer, { length }: JointContext): string {
  const off = length(match.offMm);
  if (match.between) {
    const { between, pairs } = match;
    return `${nameOf(a)} has ${length(between.hasMm)} between two holes where ${nameOf(b)} has ${length(between.needsMm)}${pairs.length > 2 ? ' at most' : ''}: the patterns differ by ${off}.`;
  }
  const odd = match.odd.flatMap((i) => b.holes[match.pairs[i]!]?.name ?? []);
  const [is, the] = odd.length === 1 ? ['lies', 'hole'] : ['lie', 'holes'];
  return `Laid on ${nameOf(a)}, ${the} ${list(odd.slice(0, MOST_NAMED))}${odd.length > MOST_NAMED ? ' and others' : ''} of ${b.piece.name} ${is} ${off} off; the rest agrees.`;
}
const MOST_NAMED = 3;

function change(match: Match, b: Layer): string {
  return match.between
    ? 'Give both the same pattern.'
    : `Move ${match.odd.length === 1 ? 'it' : 'them'}, or make the pattern of ${b.piece.name} that of the other part.`;
}

export function nameOf({ piece, holes }: Layer): string {
  return list([...new Set(holes.map((h) => `${piece.name}.${h.hole.name}`))]);
}

function holes({ holes }: Layer): string {
  return `${holes.length} hole${holes.length === 1 ? '' : 's'}`;
}

/** Of one part's holes round the screw; none where they are threaded. */
function playOf({ screw, into }: Screwed, { holes, piece }: Layer): number {
  if (holes.some((h) => into.includes(h.meeting))) return 0;
  return Math.max(0, Math.min(...holes.map((h) => holeLimits(h.hole, piece.part).leastMm - screw.diameterMm)));
}
