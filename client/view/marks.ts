/** What is marked on the part: findings where they are, zero with its axes, the measure that was taken. Plain data. */
import type {
  Measured,
  Moment,
  PictureCutter,
  PictureFinding,
  PicturePass,
  PictureSetup,
  PictureWords,
} from '../../server/src/service/view/protocol';
import type { Point } from './orbit';

export interface Mark {
  /** Places, or for a line its two ends. */
  readonly at: readonly Point[];
  readonly line: boolean;
  readonly text: string;
  /** `error`, `warning`, `hint`, `measure`, `size`, `length`, `zero`, `axis`, `centre`, `around`: the style sheet's class. */
  readonly kind: string;
  /** Has no number of its own to tell: its text is shown when it is chosen. */
  readonly quiet?: true;
  readonly about?: string;
  /** The finding's place in the picture's list. */
  readonly finding?: number;
  /** Which of the chosen feature's sizes, and how it is written where it is. */
  readonly size?: number;
  readonly typed?: string;
}

const WEIGHT: Readonly<Record<string, number>> = { error: 0, warning: 1, hint: 2 };

/** The weightiest first: their labels have the first choice of room. `chosen`: features whose cutters are shown. */
export function marksOf(
  picture: PictureWords | undefined,
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
    ...lengthMarks(picture),
    ...cutterMarks(picture, chosen),
    ...aroundMarks(picture),
  );
  return marks;
}

/** In a set-up: what is said of its own cuts and of itself, as far as it is cut by then. */
function isOfMoment({ moment, setups, uncut = [], planned }: PictureWords, { of, range }: PictureFinding): boolean {
  const setup = moment && setups[moment.setup];
  if (!setup) return true;
  const names = of.map((name) => name.replace(/\[\d+\]$/, ''));
  if (names.some((name) => uncut.includes(name))) return false;
  const { start, end } = setup.range;
  const inside = !planned && range.start.line >= start.line && range.end.line <= end.line;
  return inside || names.some((name) => setup.cuts.includes(name));
}

/** Zero of the set-up that is shown, with a short line along each axis of the machine. */
function zeroMarks({ moment, setups, body }: PictureWords): readonly Mark[] {
  const { zero, frame = PART_AXES } = (moment && setups[moment.setup]) ?? {};
  if (!zero) return [];
  const size = Math.hypot(...[0, 1, 2].map((i) => body.max[i]! - body.min[i]!));
  const axes = (['X', 'Y', 'Z'] as const).map((text, axis): Mark => {
    const end = zero.map((c, i) => c + 0.16 * size * frame[axis]![i]!) as unknown as Point;
    return { at: [zero, end], line: true, text, kind: 'axis' };
  });
  return [{ at: [zero], line: false, text: 'zero', kind: 'zero' }, ...axes];
}
const PART_AXES = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
] as const;

/** How much of the work is held, and how far it stands out. */
function lengthMarks({ moment, setups }: PictureWords): readonly Mark[] {
  const lengths = (moment && setups[moment.setup]?.lengths) ?? [];
  return lengths.map(({ at, text }): Mark => ({ at, line: true, text, kind: 'length' }));
}

/** What each thing round the work is, once for each kind, on its side away from the part. */
function aroundMarks({ moment, setups, body }: PictureWords): readonly Mark[] {
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

/** The tools that stand in a picture: of the pass that is shown, else those of chosen features. */
export function standing({ moment, setups }: PictureWords, chosen: ReadonlySet<string>): readonly PictureCutter[] {
  const setup = moment && setups[moment.setup];
  if (!setup) return [];
  const pass = passShown(setup, moment);
  if (pass) return pass.cutter ? [pass.cutter] : [];
  return (setup.cutters ?? []).filter((c) => chosen.has(c.feature));
}

export function passShown(setup: PictureSetup | undefined, moment: Moment | undefined): PicturePass | undefined {
  return moment?.pass === undefined ? undefined : setup?.passes?.[moment.pass - 1];
}

/** The names of the tools that are shown, where their cutting ends: in sight with the work, as holders are long. */
function cutterMarks(picture: PictureWords, chosen: ReadonlySet<string>): readonly Mark[] {
  return standing(picture, chosen).map(({ tool, tip, towards, parts }): Mark => {
    const top = parts.findLast((p) => p.what === 'cut')?.toMm ?? 0;
    return {
      at: [tip.map((c, i) => c + towards[i]! * top) as unknown as Point],
      line: false,
      text: tool,
      kind: 'around',
    };
  });
}
