/** The outside of a part to start from, by the piece it is cut from, and what is left around it for the saw's ends. */
import type { Units } from '../../model/model';
import { writeLength } from '../../text/format';
import type { AtHand } from './at-hand';

/** Left at a sawn end, to be cut down to the body, mm; in inches a sixteenth. */
const EXTRA_MM = 1.5;
const EXTRA_IN_MM = 25.4 / 16;

/** A body and its stock: sizes in mm, and its lines. */
export interface Outside {
  readonly sizeMm: readonly [number, number, number];
  readonly isRound: boolean;
  readonly units: Units;
  readonly lines: readonly string[];
}

/** Of a section along x, its wider side along y: where it is open. */
const OPEN: Partial<Readonly<Record<AtHand['form'], string>>> = {
  angle: ', open: [back, top]',
  channel: ', open: [top]',
  tee: ', open: [top]',
};

/** Undefined where the piece is too short for anything. */
export function outsideOf(
  { form, acrossMm: [wide, thick], longestMm = 1000, isRound, wallMm, flangeMm }: AtHand,
  units: Units,
): Outside | undefined {
  const extra = units === 'in' ? EXTRA_IN_MM : EXTRA_MM;
  const grid = gridOf(units);
  const write = (mm: number) => writeLength(mm, units);
  const room = Math.floor((longestMm - 2 * extra) / grid) * grid;
  const of = (likely: number) => Math.min(Math.round(likely / grid) * grid, room);
  const sawn = (...faces: readonly string[]) =>
    `sawn: [${faces.join(', ')}], extra: { ${faces.map((f) => `${f}: ${write(extra)}`).join(', ')} }`;
  const walls = [
    ...(wallMm === undefined ? [] : [`, wall: ${write(wallMm)}`]),
    ...(flangeMm === undefined ? [] : [`, flange: ${write(flangeMm)}`]),
    OPEN[form] ?? '',
  ].join('');
  if (isRound) {
    const long = of(Math.min(Math.max(0.5 * wide, 12), 40));
    if (long < 5) return undefined;
    return {
      sizeMm: [wide, wide, long],
      isRound: true,
      units,
      lines: [
        `body: { diameter: ${write(wide)}, length: ${write(long)} } # the finished part’s outside; its axis is z`,
        '',
        `stock: { form: ${form}, diameter: ${write(wide)}${walls}, ${sawn('bottom', 'top')} } # both ends come from the saw, and are cut down to the body`,
      ],
    };
  }
  if (form === 'plate' || form === 'block') {
    const [long, across] = [of(80), Math.min(of(50), Math.floor(wide / grid) * grid)];
    if (long < 10 || across < 5) return undefined;
    return {
      sizeMm: [long, across, thick],
      isRound: false,
      units,
      lines: [
        body(write, [long, across, thick]),
        '',
        `stock: { form: ${form} } # cut to size by whoever sells it; \`sawn\` and \`extra\` say where it is not`,
      ],
    };
  }
  const long = of(Math.min(Math.max(1.5 * wide, 40), 120));
  if (long < 10) return undefined;
  return {
    sizeMm: [long, wide, thick],
    isRound: false,
    units,
    lines: [
      body(write, [long, wide, thick]),
      '',
      `stock: { form: ${form}${walls}, ${sawn('left', 'right')} } # both ends come from the saw, and are cut down to the body`,
    ],
  };
}

function body(write: (mm: number) => string, [x, y, z]: Outside['sizeMm']): string {
  return `body: { x: ${write(x)}, y: ${write(y)}, z: ${write(z)} } # the finished part’s outside`;
}

/** Where nothing is at hand: a block of exactly the body’s size. */
export function blockOf(units: Units): Outside {
  const sizeMm: Outside['sizeMm'] = units === 'in' ? [63.5, 38.1, 15.875] : [60, 40, 16];
  return {
    sizeMm,
    isRound: false,
    units,
    lines: [body((mm) => writeLength(mm, units), sizeMm)],
  };
}

/** Half a millimetre, a sixteenth of an inch: what sizes of a first part are whole numbers of. */
export function gridOf(units: Units): number {
  return units === 'in' ? EXTRA_IN_MM : 0.5;
}
