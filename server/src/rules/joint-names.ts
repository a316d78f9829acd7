/** What joints name and the parts do not have: the job alone cannot tell. */
import type { Joint, Meeting, Shaft } from '../model/joint-model';
import { FACE_AXIS } from '../model/model';
import { type Found, featureOf, type Pieces } from '../process/joints/layers';
import { bodySize, boreOf, depthIn, shaftOf, sidesOf } from '../process/joints/plays';
import { nearest } from '../tables/nearest';
import { schema } from './form/schema';
import { unknownName } from './form/unknown-name';
import { tidying } from './kit/changes';
import { said } from './kit/define';
import type { Finding } from './kit/rule';

export function* nameFindings(joint: Joint, pieces: Pieces): Generator<Finding> {
  switch (joint.kind) {
    case 'screw':
    case 'pin': {
      const all = joint.kind === 'pin' ? joint.in : [...joint.through, ...joint.into];
      for (const meeting of all)
        yield* named(joint, meeting, pieces, (f) => f.ok && f.feature.kind === 'hole', 'a hole');
      yield* oneWay(joint, all, pieces);
      return;
    }
    case 'stack':
      for (const { height } of joint.heights) if ('of' in height) yield* ofHeight(joint, height.of, pieces);
      return;
    case 'bought': {
      const isRound = joint.diameter !== undefined;
      const fits = (f: Found) => (isRound ? boreOf(f) : sidesOf(f)) !== undefined;
      yield* named(joint, joint.seat, pieces, fits, isRound ? 'a round opening' : 'a rectangular opening');
      return;
    }
    case 'shaft':
    case 'bearing':
      if (joint.seat) yield* named(joint, joint.seat, pieces, (f) => boreOf(f) !== undefined, 'a round opening');
      if (joint.shaft) yield* ofShaft(joint, joint.shaft, pieces);
      return;
    default:
      joint satisfies never;
  }
}

function* named(
  joint: Joint,
  meeting: Meeting,
  pieces: Pieces,
  fits: (found: Found) => boolean,
  what: string,
): Generator<Finding> {
  const found = featureOf(meeting, pieces);
  if (!found.ok) yield* notThere(joint, meeting, found);
  else if (!fits(found))
    yield wrongKind(joint, meeting, `is ${article(found.feature.kind)}, and this joint needs ${what}`);
}

function* notThere(
  { name }: Joint,
  { piece, feature }: Meeting,
  found: Found & { readonly ok: false },
): Generator<Finding> {
  if (found.why === 'unread' || !found.piece) return;
  if (found.why === 'member') {
    const message = `${feature.name.replace(/\[.*/, '')} of ${piece.name} has ${found.count} place${found.count === 1 ? '' : 's'}. Write one from 1 to ${found.count}.`;
    yield said(unknownName, { message, of: [name], span: feature.span });
    return;
  }
  const like = nearest(feature.name, found.piece.part.featureByName.keys());
  const message = `Part \`${piece.name}\` has no feature \`${feature.name}\`. ${like ? `Did you mean \`${like}\`?` : 'Write one of its own.'}`;
  const told = said(unknownName, {
    message,
    of: [name],
    span: feature.span,
    facts: { name: feature.name, nearest: like },
  });
  yield like === undefined
    ? told
    : { ...told, fixes: [tidying(`Write \`${like}\``, { span: feature.span, newText: like })!] };
}

function* ofShaft(joint: Joint, shaft: Shaft, pieces: Pieces): Generator<Finding> {
  if (!('of' in shaft) || !pieces.has(shaft.of.piece.name) || shaftOf(shaft, pieces)) return;
  const found = featureOf(shaft.of, pieces);
  if (shaft.of.feature.name === 'body') yield wrongKind(joint, shaft.of, 'is not round');
  else if (!found.ok) yield* notThere(joint, shaft.of, found);
  else
    yield wrongKind(
      joint,
      shaft.of,
      `is ${article(found.feature.kind)}, and a shaft is a contour with a \`diameter\`, or \`body\` of a round part`,
    );
}

function* ofHeight(joint: Joint, at: Meeting, pieces: Pieces): Generator<Finding> {
  const piece = pieces.get(at.piece.name);
  if (!piece || bodySize(piece, at.feature.name)) return;
  const found = featureOf(at, pieces);
  if (!found.ok) yield* notThere(joint, at, found);
  else if (!depthIn(found)) yield wrongKind(joint, at, 'has no depth of its own');
}

/** Holes that one screw goes through run one way on each part. */
function* oneWay(joint: Joint, all: readonly Meeting[], pieces: Pieces): Generator<Finding> {
  const axes = new Map<string, string>();
  for (const meeting of all) {
    const found = featureOf(meeting, pieces);
    if (!found.ok) continue;
    const { axis } = FACE_AXIS[found.feature.face];
    const before = axes.get(meeting.piece.name) ?? axis;
    axes.set(meeting.piece.name, before);
    if (before !== axis)
      yield wrongKind(
        joint,
        meeting,
        `runs along ${axis}, the others of ${meeting.piece.name} along ${before}. Make two joints of it`,
      );
  }
}

function wrongKind({ name }: Joint, { text, span }: Meeting, why: string): Finding {
  return said(schema, { message: `\`${text}\` ${why}.`, of: [name], span });
}

function article(kind: string): string {
  return `${/^[aeiou]/.test(kind) ? 'an' : 'a'} ${kind}`;
}
