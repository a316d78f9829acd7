/** What stands behind a geometric tolerance (ISO 1101): projected zone, common zone, between which two. */
import { at, type ScalarNode, scalarAt, type TextNode } from '../../text/tree';
import { FACES } from '../faces';
import type { GeometricTolerance, Named } from '../model';
import { cutNamed } from './cut-named';
import { type Evaluation, itemsOf } from './evaluation';

type Modifiers = Pick<GeometricTolerance, 'projected' | 'commonZone' | 'between'>;

const PROJECTED: readonly string[] = ['position', 'perpendicularity'];

export function modifiersOf(
  work: Evaluation,
  node: TextNode,
  characteristic: string,
  of: readonly (Named | undefined)[],
): Modifiers {
  if (node.type !== 'map') return {};
  const projected = work.length(node, 'projected');
  if (projected && !PROJECTED.includes(characteristic))
    work.fail('Only the zone of a `position` or `perpendicularity` is projected. Delete `projected`.', projected.span);
  const zone = scalarAt(node, 'zone');
  if (zone && !isSeveral(of))
    work.remark(
      'One face has one zone in any case: `zone: common` is for several. Delete it, or name more.',
      zone.span,
    );
  const between = betweenOf(work, at(node, 'between'), characteristic);
  return {
    ...(projected && { projected }),
    ...(zone && { commonZone: true as const }),
    ...(between && { between }),
  };
}

/** A pattern may be several by itself; a face never is. */
function isSeveral(of: readonly (Named | undefined)[]): boolean {
  const [first] = of;
  return of.length > 1 || (first !== undefined && !(FACES as readonly string[]).includes(first.name));
}

function betweenOf(work: Evaluation, list: TextNode | undefined, characteristic: string): Modifiers['between'] {
  if (!list) return undefined;
  const [a, b, ...more] = (itemsOf(list) as readonly ScalarNode[]).map((n) => cutNamed(work, n));
  if (characteristic !== 'profile')
    return work.fail('`between` limits a `profile` to a stretch of it. Delete it here.', list.span);
  if (!a || !b || more.length > 0)
    return work.fail('A profile is between two things. Write them like `between: [left, right]`.', list.span);
  return [a, b];
}
