/** A place counted from another face, or along its axis. */
import { type Axis, FACE_AXIS, FACES, type Face } from '../../model/model';
import { writeLength } from '../../text/format';
import { bracketed, cut, piecesOf } from '../../text/pieces';
import type { MapEntry, ScalarNode } from '../../text/tree';
import { SAME } from '../../tolerance';
import { Draft, type Rewriting, type Subject, spotAt } from './subject';

const AXES: readonly Axis[] = ['x', 'y', 'z'];
/** Maps of places, by the key that they stand under. */
const PLACES: ReadonlySet<PropertyKey> = new Set(['at', 'places', 'path', 'ends', 'arc', 'clamps']);

export function measuredFrom(subject: Subject): readonly Rewriting[] {
  const spot = spotAt(subject);
  const entry = spot.entries.at(-1);
  const key = spot.path.at(-1);
  const of = spot.path.slice(0, -1).findLast((step) => typeof step === 'string');
  if (!entry || of === undefined || !PLACES.has(of) || entry.value?.type !== 'scalar') return [];
  const was = AXES.find((a) => a === key) ?? FACES.find((f) => f === key);
  if (!was) return [];
  const axis = AXES.find((a) => a === was) ?? FACE_AXIS[was as Face].axis;
  const [low, high] = FACES.filter((f) => FACE_AXIS[f].axis === axis) as [Face, Face];
  const value = entry.value;
  return [axis, low, high]
    .filter((to) => to !== was)
    .flatMap((to) => {
      const text = said(subject, value, axis, [was, to, high]);
      if (text === undefined) return [];
      const title = to === axis ? `Count it along ${axis}: ${text}` : `Count it from ${to}: ${text}`;
      return [rewriting(subject, entry, value, { to, text, title })];
    });
}

function rewriting(
  { tree }: Subject,
  entry: MapEntry,
  value: ScalarNode,
  { to, text, title }: { readonly to: string; readonly text: string; readonly title: string },
): Rewriting {
  return {
    id: `from-${to}`,
    title,
    kind: 'refactor.rewrite',
    keeps: 'part',
    make: () =>
      new Draft(tree).make(() => [
        { span: entry.key.span, newText: to },
        { span: value.span, newText: value.quoted ? JSON.stringify(text) : text },
      ]).text,
  };
}

/** The same place as it is counted from `to`: as it is, or from the other end; undefined where it cannot be said. */
function said(
  { part }: Subject,
  { source }: ScalarNode,
  axis: Axis,
  [was, to, high]: readonly [string, string, string],
): string | undefined {
  const { value, tolerance } = cut(source);
  const size = part.size[AXES.indexOf(axis)]!;
  if (value === 'center') return tolerance === '' && size > 0 ? number(size / 2, part.units) : undefined;
  if ((was === high) === (to === high)) return value + tolerance;
  const expression = piecesOf(value)?.expression;
  if (!expression || size <= 0) return undefined;
  if (expression.type === 'number' && !expression.unit) {
    const mm = size - expression.value * (part.units === 'in' ? 25.4 : 1);
    const text = number(mm, part.units);
    return text === undefined ? undefined : text + turned(tolerance);
  }
  const whole = `body.${axis}`;
  // What was counted from the other end before is that again.
  if (expression.type === 'binary' && expression.operator === '-') {
    const { left, right } = expression;
    if (left.type === 'name' && left.name === whole)
      return value.slice(right.from, right.to).trim() + turned(tolerance);
  }
  return `${whole} - ${bracketed(value)}${turned(tolerance)}`;
}

/** As a number, where one of few digits is as good. */
function number(mm: number, units: 'mm' | 'in'): string | undefined {
  const text = writeLength(mm, units);
  return Math.abs(Number(text) * (units === 'in' ? 25.4 : 1) - mm) <= SAME ? text : undefined;
}

/** From the other end what may be more may be less. */
function turned(tolerance: string): string {
  const pair = /^ ([+-][^/]*)\/\s*([+-].*)$/.exec(tolerance);
  if (!pair) return tolerance;
  const other = (limit: string) => (limit.startsWith('-') ? `+${limit.slice(1)}` : `-${limit.slice(1)}`).trim();
  return ` ${other(pair[2]!)}/${other(pair[1]!)}`;
}
