/** What is marked on the part: findings where they are, zero with its axes, the measure that was taken. Plain data. */
import type { Measured, PartPicture } from '../../server/src/service/view/protocol';
import type { Point } from './orbit';

export interface Mark {
  /** Places, or for a line its two ends. */
  readonly at: readonly Point[];
  readonly line: boolean;
  readonly text: string;
  /** `error`, `warning`, `hint`, `measure`, `zero`, `axis`: the style sheet's class. */
  readonly kind: string;
  readonly about?: string;
  /** The finding's place in the picture's list. */
  readonly finding?: number;
}

const WEIGHT: Readonly<Record<string, number>> = { error: 0, warning: 1, hint: 2 };

/** The weightiest first: their labels have the first choice of room. */
export function marksOf(picture: PartPicture | undefined, measured: Measured | null | undefined): readonly Mark[] {
  const marks: Mark[] = [];
  if (measured?.at) marks.push({ at: measured.at, line: true, text: measured.text, kind: 'measure' });
  if (!picture) return marks;
  const found = picture.findings.flatMap(({ at, gap, label, rule, severity, message }, finding): Mark[] =>
    at.length === 0
      ? []
      : [{ at, line: gap === true, text: label ?? rule, kind: severity, about: `${rule}: ${message}`, finding }],
  );
  marks.push(...found.sort((a, b) => WEIGHT[a.kind]! - WEIGHT[b.kind]!), ...zeroMarks(picture));
  return marks;
}

/** Zero of the set-up that is shown, with a short line along each axis of the part. */
function zeroMarks({ moment, setups, body }: PartPicture): readonly Mark[] {
  const zero = moment && setups[moment.setup]?.zero;
  if (!zero) return [];
  const size = Math.hypot(...[0, 1, 2].map((i) => body.max[i]! - body.min[i]!));
  const axes = (['x', 'y', 'z'] as const).map((text, axis): Mark => {
    const end = zero.map((c, i) => (i === axis ? c + 0.14 * size : c)) as unknown as Point;
    return { at: [zero, end], line: true, text, kind: 'axis' };
  });
  return [{ at: [zero], line: false, text: 'zero', kind: 'zero' }, ...axes];
}
