/** Parallel pins: diameters, lengths and classes by ISO 8734 (hardened, m6) and ISO 2338 (m6 or h8), from memory. */

const PIN_STANDARDS = {
  'ISO 8734': 'hardened, m6',
  'ISO 2338': 'unhardened, m6 or h8',
} as const;
type PinStandard = keyof typeof PIN_STANDARDS;

export const PIN_DIAMETERS_MM: readonly number[] = [1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20];
export const PIN_LENGTHS_MM: readonly number[] = [
  4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30, 32, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100,
];

export interface Pin {
  readonly standard: PinStandard;
  readonly diameterMm: number;
  readonly letter: string;
  readonly grade: number;
  readonly lengthMm?: number;
}

type ReadPin = { readonly ok: true; readonly pin: Pin } | { readonly ok: false; readonly why: string };

/** `4x16`, `4`, `ISO 8734 4x16`, `ISO 2338 4 h8 x 16`. */
export function readPin(text: string): ReadPin {
  const plain = text.trim().replaceAll('×', 'x');
  const found =
    /^(?:(ISO|DIN)\s*(?:EN\s*)?(?:ISO\s*)?(\d+)\s*[-–]?\s+)?(\d+(?:\.\d+)?)\s*(?:([a-wyz])(\d{1,2}))?\s*(?:x\s*(\d+(?:\.\d+)?))?$/i.exec(
      plain,
    );
  if (!found) return { ok: false, why: 'is not a pin. Write it like `4x16` or `ISO 8734 4x16`' };
  const standard = found[2] === undefined ? 'ISO 8734' : `${found[1]!.toUpperCase()} ${found[2]}`;
  if (!(standard in PIN_STANDARDS))
    return { ok: false, why: `names no standard that is known: ${Object.keys(PIN_STANDARDS).join(' or ')}` };
  const diameterMm = Number(found[3]);
  if (!PIN_DIAMETERS_MM.includes(diameterMm))
    return { ok: false, why: `is no diameter of ${standard}: ${PIN_DIAMETERS_MM.join(', ')} mm` };
  const [letter, grade] = [found[4]?.toLowerCase() ?? 'm', Number(found[5] ?? 6)];
  const classes = standard === 'ISO 8734' ? ['m6'] : ['m6', 'h8'];
  if (!classes.includes(`${letter}${grade}`))
    return { ok: false, why: `is not made by ${standard}: ${classes.join(' or ')}` };
  return {
    ok: true,
    pin: {
      standard: standard as PinStandard,
      diameterMm,
      letter,
      grade,
      ...(found[6] !== undefined && { lengthMm: Number(found[6]) }),
    },
  };
}

/** `ISO 8734 4 m6 × 16`. */
export function pinText({ standard, diameterMm, letter, grade }: Pin, lengthMm: number | undefined): string {
  return `${standard} ${diameterMm} ${letter}${grade}${lengthMm === undefined ? '' : ` × ${lengthMm}`}`;
}

/** As it was written, with another length. */
export function pinWritten(source: string, mm: number): string {
  return source.replace(/\d+(?:\.\d+)?(\s*)$/, `${mm}$1`);
}
