/** Whether the parts of a job meet: every joint asked of every rule on joints. */
import { memo } from '../memo';
import type { Job } from '../model/job-model';
import type { Joint } from '../model/joint-model';
import type { Shop } from '../model/shop-model';
import type { Piece, Pieces } from '../process/joints/layers';
import { formatLength } from '../text/format';
import { linesOf } from '../text/lines';
import type { CheckedPart } from './checked-part';
import type { JointContext } from './joint/context';
import { engagementFindings } from './joint/engagement';
import { fitFindings, pinFitFindings } from './joint/fit';
import { headFindings } from './joint/head';
import { lengthFindings, pinLengthFindings } from './joint/length';
import { nutFindings } from './joint/nut';
import { patternFindings } from './joint/pattern';
import { positionFindings } from './joint/position';
import { screwFindings } from './joint/screw';
import { stackFindings } from './joint/stack';
import { nameFindings } from './joint-names';
import type { Finding } from './kit/rule';
import { limitOf } from './run';

interface JobPart {
  readonly entry: { readonly name: string; readonly spec: { readonly name: string } };
  readonly checked: CheckedPart;
}

/** The parts as joints look them up: the same object as long as they are the same parts. */
function piecesOf(parts: readonly JobPart[]): Pieces {
  const [first] = parts;
  return first
    ? piecesFor(
        first.checked,
        parts.map((p) => p.checked),
        parts.map((p) => p.entry.name),
      )
    : new Map();
}

const piecesFor = memo(
  (_: CheckedPart, all: readonly CheckedPart[], names: readonly string[]): Pieces =>
    new Map(
      all.flatMap(({ part, solid, tree, shop }, i): [string, Piece][] =>
        part.body ? [[names[i]!, { name: names[i]!, part, solid, tree, shop }]] : [],
      ),
    ),
  { size: 2 },
);

export function jointContext({ joints, units }: Job, parts: readonly JobPart[]): JointContext {
  const shop: Shop | undefined = parts[0]?.checked.shop;
  return {
    joints,
    pieces: piecesOf(parts),
    limit: (rule, name) => (shop ? limitOf(rule, name, shop) : rule.limits.find((l) => l.name === name)!.value),
    length: (mm) => formatLength(mm, units),
    there: (piece, span, message) => {
      const entry = parts.find((p) => p.entry.name === piece.name)!.entry;
      const at = piece.tree.locate(span);
      const lines = linesOf(piece.tree.text);
      const range = { start: lines.position(at.start), end: lines.position(at.end) };
      return { span: { block: '', from: 0, to: 0 }, message, elsewhere: { file: entry.spec.name, span, range } };
    },
  };
}

export function* jointFindings(job: Job, parts: readonly JobPart[]): Generator<Finding> {
  const context = jointContext(job, parts);
  for (const joint of job.joints) {
    const wrong = [...nameFindings(joint, context.pieces)];
    if (wrong.length > 0) yield* wrong;
    else yield* ofJoint(joint, context);
  }
}

function* ofJoint(joint: Joint, context: JointContext): Generator<Finding> {
  if (joint.kind === 'screw') {
    const wrong = [...screwFindings(joint, context)];
    yield* patternFindings(joint, context);
    yield* wrong;
    // How long a screw must be is no question where it is the wrong one.
    if (wrong.some((f) => f.severity === 'error')) return;
    yield* headFindings(joint, context);
    yield* nutFindings(joint, context);
    const lengths = [...lengthFindings(joint, context)];
    yield* lengths;
    if (!lengths.some((f) => f.severity === 'error')) yield* engagementFindings(joint, context);
    yield* positionFindings(joint, context);
  } else if (joint.kind === 'pin') {
    yield* patternFindings(joint, context);
    yield* pinFitFindings(joint, context);
    yield* pinLengthFindings(joint, context);
  } else if (joint.kind === 'stack') yield* stackFindings(joint, context);
  else yield* fitFindings(joint, context);
}
