/** What is marked on the part: findings where they are, zero with its axes, the measure that was taken. Plain data. */
import type { Measured, PartPicture, PictureFinding } from '../../server/src/service/view/protocol';
import type { Point } from './orbit';

export interface Mark {
  /** Places, or for a line its two ends. */
  readonly at: readonly Point[];
  readonly line: boolean;
  readonly text: string;
  /** `error`, `warning`, `hint`, `measure`, `zero`, `axis`, `around`: the style sheet's class. */
  readonly kind: string;
  /** Has no number of its own to tell: its text is shown when it is chosen. */
  readonly quiet?: true;
  readonly about?: string;
  /** The finding's place in the picture's list. */
  readonly finding?: number;
}

const WEIGHT: Readonly<Record<string, number>> = { error: 0, warning: 1, hint: 2 };

/** The weightiest first: their labels have the first choice of room. `chosen`: features whose cutters are shown. */
export function marksOf(
  picture: PartPicture | undefined,
  measured: Measured | null | undefined,
  chosen: ReadonlySet<string> = new Set(),
): readonly Mark[] {
  const marks: Mark[] = [];
  if (measured?.at) marks.push({ at: measured.at, line: true, text: measured.text, kind: 'measure' });
  if (!picture) return marks;
  const found = picture.findings.flatMap((f, finding): Mark[] => {
    const { at, gap, label, rule, severity, message } = f;
    if (at.length === 0 || !isOfMoment(picture, f)) return [];
    const about = `${rule}: ${message.replaceAll('`', '')}`;
    const text = label ?? rule;
    return [{ at, line: gap === true, text, kind: severity, about, finding, ...(label ? {} : { quiet: true }) }];
  });
  marks.push(
    ...found.sort((a, b) => WEIGHT[a.kind]! - WEIGHT[b.kind]!),
    ...zeroMarks(picture),
    ...cutterMarks(picture, chosen),
    ...aroundMarks(picture),
  );
  return marks;
}

/** In a set-up: what is said of its own cuts and of itself. */
function isOfMoment({ moment, setups }: PartPicture, { of, range }: PictureFinding): boolean {
  const setup = moment && setups[moment.setup];
  if (!setup) return true;
  const { start, end } = setup.range;
  const inside = range.start.line >= start.line && range.end.line <= end.line;
  return inside || of.some((name) => setup.cuts.includes(name.replace(/\[\d+\]$/, '')));
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

/** What each thing round the work is, once for each kind, on its side away from the part. */
function aroundMarks({ moment, setups, body }: PartPicture): readonly Mark[] {
  const seen = new Set<string>();
  return ((moment && setups[moment.setup]?.around) ?? []).flatMap(({ what, min, max }): Mark[] => {
    if (seen.has(what)) return [];
    seen.add(what);
    const middle = min.map((c, i) => {
      const at = (c + max[i]!) / 2;
      return at > body.max[i]! ? max[i]! : at < body.min[i]! ? c : at;
    }) as unknown as Point;
    return [{ at: [middle], line: false, text: what, kind: 'around' }];
  });
}

/** The names of the tools that are shown, where their cutting ends: in sight with the work, as holders are long. */
function cutterMarks({ moment, setups }: PartPicture, chosen: ReadonlySet<string>): readonly Mark[] {
  return ((moment && setups[moment.setup]?.cutters) ?? [])
    .filter((c) => chosen.has(c.feature))
    .map(({ tool, tip, towards, parts }): Mark => {
      const top = parts[0]?.toMm ?? 0;
      return {
        at: [tip.map((c, i) => c + towards[i]! * top) as unknown as Point],
        line: false,
        text: tool,
        kind: 'around',
      };
    });
}
