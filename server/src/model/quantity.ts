/**
 * Quantities that the dimension grammar does not know: power, torque, force, feed, mass, time, stiffness. A number and a unit,
 * `1.1 kW`, `3/4 hp`, in the usual spellings; worked out in W, N·m, N, mm/min, g, s, N/mm.
 */
import {
  G_PER_LB,
  G_PER_OZ,
  MM_PER_INCH,
  N_PER_KGF,
  N_PER_LBF,
  NM_PER_FT_LBF,
  NM_PER_IN_LBF,
  W_PER_HP,
  W_PER_PS,
} from '../tables/units';

export type QuantityKind = 'power' | 'torque' | 'force' | 'feed' | 'mass' | 'time' | 'stiffness';

interface UnitRow {
  /** As messages and fixes write it. */
  readonly name: string;
  readonly factor: number;
  /** Spellings, lower case, without spaces, dots, raised dots and dashes. */
  readonly spellings: readonly string[];
}

const unit = (name: string, factor: number, ...spellings: string[]): UnitRow => ({ name, factor, spellings });

const TABLE: Readonly<Record<QuantityKind, readonly UnitRow[]>> = {
  power: [unit('kW', 1000, 'kw'), unit('W', 1, 'w'), unit('hp', W_PER_HP, 'hp'), unit('PS', W_PER_PS, 'ps', 'cv')],
  torque: [
    unit('N·m', 1, 'nm'),
    unit('kN·m', 1000, 'knm'),
    unit('ft·lbf', NM_PER_FT_LBF, 'ftlbf', 'lbfft', 'ftlb', 'lbft', 'ftlbs'),
    unit('in·lbf', NM_PER_IN_LBF, 'inlbf', 'lbfin', 'inlb', 'lbin', 'inlbs'),
  ],
  force: [
    unit('kN', 1000, 'kn'),
    unit('N', 1, 'n'),
    unit('lbf', N_PER_LBF, 'lbf', 'lb', 'lbs'),
    unit('kgf', N_PER_KGF, 'kgf', 'kp'),
  ],
  feed: [
    unit('mm/min', 1, 'mm/min', 'mmpm'),
    unit('m/min', 1000, 'm/min'),
    unit('in/min', MM_PER_INCH, 'in/min', 'ipm', 'inch/min'),
    unit('mm/s', 60, 'mm/s'),
  ],
  mass: [unit('g', 1, 'g'), unit('kg', 1000, 'kg'), unit('lb', G_PER_LB, 'lb', 'lbs'), unit('oz', G_PER_OZ, 'oz')],
  stiffness: [
    unit('N/µm', 1000, 'n/µm', 'n/μm', 'n/um'),
    unit('kN/mm', 1000, 'kn/mm'),
    unit('N/mm', 1, 'n/mm'),
    unit('lbf/in', N_PER_LBF / MM_PER_INCH, 'lbf/in', 'lb/in'),
  ],
  time: [unit('s', 1, 's', 'sec', 'seconds'), unit('min', 60, 'min', 'minutes'), unit('h', 3600, 'h', 'hr', 'hours')],
};

type ReadQuantity =
  | { readonly ok: true; readonly value: number }
  | {
      readonly ok: false;
      readonly message: string;
      /** True where the number is fine and only its unit is missing or unknown. */
      readonly unit: boolean;
      /** What it could be written as. */
      readonly instead?: string;
    };

/**
 * Reads a quantity. `bare` is the unit a number alone is taken in; where it is left out, a number alone is an error
 * that offers the first unit of its kind.
 */
export function readQuantity(source: string, kind: QuantityKind, bare?: string): ReadQuantity {
  const text = source.trim().replaceAll('−', '-');
  const found = /^(?:(\d+)\s+)?(\d+(?:\.\d*)?|\.\d+)(?:\s*\/\s*(\d+))?\s*(.*)$/.exec(text);
  const units = TABLE[kind];
  const known = units.map((u) => `\`${u.name}\``).join(', ');
  const misread = `This cannot be read as a ${kind}. Write a number and a unit, like \`12 ${units[0]!.name}\`.`;
  if (/^\d+,\d/.test(text)) {
    return {
      ok: false,
      message: 'A comma is in this number. Write decimals with a point, like `3.5`.',
      unit: false,
      instead: text.replace(',', '.'),
    };
  }
  if (!found) {
    const message = text.startsWith('-') ? `This ${kind} is negative. Make it 0 or more.` : misread;
    return { ok: false, message, unit: false };
  }
  const [, whole, top, under, written] = found;
  if (under === '0' || (whole !== undefined && under === undefined)) {
    return { ok: false, message: misread, unit: false };
  }
  const value = Number(whole ?? 0) + Number(top) / Number(under ?? 1);
  const spelling = (written ?? '').toLowerCase().replace(/[\s·.*⋅-]/g, '');
  if (spelling === '') {
    const row = units.find((u) => u.name === bare);
    if (row) return { ok: true, value: value * row.factor };
    const message = `This ${kind} has no unit. Add one: ${known}.`;
    return { ok: false, message, unit: true, instead: `${text} ${units[0]!.name}` };
  }
  const row = units.find((u) => u.spellings.includes(spelling));
  if (row) return { ok: true, value: value * row.factor };
  return { ok: false, message: `\`${written}\` is not a unit of ${kind} here. Write ${known}.`, unit: true };
}
