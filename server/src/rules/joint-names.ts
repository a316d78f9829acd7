/** What joints name and the parts do not have: the job alone cannot tell. */

import { featureFrame } from '../geometry/frame';
import type { Vec3 } from '../geometry/types';
import { dot } from '../geometry/vector';
import { homeOf } from '../model/feature-kinds';
import type { FeatureForm } from '../model/feature-kinds/kind';
import type { Joint, Meeting, Shaft } from '../model/joint-model';
import { FACE_AXIS, type Feature } from '../model/model';
import { type Found, featureOf, type Pieces } from '../process/joints/layers';
import { bodySize, boreOf, depthIn, shaftOf, sidesOf } from '../process/joints/plays';
import { holeIn } from '../process/joints/slotted';
import { nearest } from '../tables/nearest';
import { ROUNDING } from '../tolerance';
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
      const into = joint.kind === 'pin' ? [] : joint.into;
      for (const meeting of all) {
        const isHole = (f: Found) => f.ok && holeIn(f.feature) !== undefined && !(into.includes(meeting) && isSlot(f));
        yield* named(joint, meeting, pieces, isHole, into.includes(meeting) ? 'a hole' : 'a hole or a straight slot');
      }
      if (joint.kind === 'screw' && joint.nutIn)
        yield* named(joint, joint.nutIn, pieces, (f) => f.ok && SINKS.has(homeOf(f.feature).form), 'a pocket or slot');
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

/** Forms that a nut can be let into. */
const SINKS: ReadonlySet<string> = new Set<FeatureForm>(['opening', 'channel']);

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

function isSlot(found: Found): boolean {
  return found.ok && holeIn(found.feature)?.slide !== undefined;
}

/** Holes that one screw goes through run one way on each part, and lean alike. */
function* oneWay(joint: Joint, all: readonly Meeting[], pieces: Pieces): Generator<Finding> {
  const ways = new Map<string, { readonly w: Vec3; readonly said: string }>();
  for (const meeting of all) {
    const found = featureOf(meeting, pieces);
    const place = found.ok ? found.feature.places[0] : undefined;
    if (!found.ok || !place) continue;
    const { w } = featureFrame(found.feature, found.piece.part.size, place);
    const own = { w, said: wayText(found.feature) };
    const before = ways.get(meeting.piece.name) ?? own;
    ways.set(meeting.piece.name, before);
    if (Math.abs(dot(w, before.w)) < 1 - ROUNDING)
      yield wrongKind(
        joint,
        meeting,
        `runs ${own.said}, the others of ${meeting.piece.name} ${before.said}. Make two joints of it`,
      );
  }
}

function wayText({ face, tilt }: Feature): string {
  const along = `along ${FACE_AXIS[face].axis}`;
  return tilt && tilt.angle.deg !== 0 ? `${along} tilted ${tilt.angle.deg}° about ${tilt.about}` : along;
}

function wrongKind({ name }: Joint, { text, span }: Meeting, why: string): Finding {
  return said(schema, { message: `\`${text}\` ${why}.`, of: [name], span });
}

function article(kind: string): string {
  return `${/^[aeiou]/.test(kind) ? 'an' : 'a'} ${kind}`;
}
