/** A surface finish as it is noted on drawings, as the Ra in µm that the format has. */
import type { ValueText } from './reading';

/** Roughness grades in µm Ra by ISO 1302:1992, annex (from memory). */
const GRADES: Readonly<Record<string, string>> = {
  N4: '0.2',
  N5: '0.4',
  N6: '0.8',
  N7: '1.6',
  N8: '3.2',
  N9: '6.3',
  N10: '12.5',
};
const PREFERRED = [0.1, 0.2, 0.4, 0.8, 1.6, 3.2, 6.3, 12.5, 25];

/** What is asked for in a word: the two grades of it (common practice, no source). */
const WORDS: Readonly<Record<string, readonly [string, string]>> = {
  polished: ['0.2', '0.4'],
  poliert: ['0.2', '0.4'],
  smooth: ['0.8', '1.6'],
  fine: ['0.8', '1.6'],
  geschlichtet: ['0.8', '1.6'],
  rough: ['3.2', '6.3'],
  geschruppt: ['3.2', '6.3'],
};

/** Rz is about four times as much as Ra (common practice, no source). */
const RZ_TO_RA = 4;
const MICRO_INCH = 0.0254;

/** `Ra 1.6`, `1,6 µm`, `N7`, `Rz 6,3`, `63 µin`, `polished`. */
export function finishText(source: string): ValueText | undefined {
  const text = source.trim();
  const why = 'A finish is its Ra in µm, as a number.';
  const word = WORDS[text.toLowerCase()];
  if (word) return { text: word[0], alternatives: [word[1]], why, rule: 'form/unit' };
  const [, sign = '', number, unit = ''] =
    /^(ra|rz|r\s*max)?\s*[:=]?\s*(\d*[.,]?\d+)\s*(µm|μm|um|µin|μin|uin|micro-?inch(?:es)?)?(?:\s*max\.?)?$/i.exec(
      text,
    ) ?? [];
  const value = Number(number?.replace(',', '.'));
  const isRz = /^r(?:z|\s*max)/i.test(sign);
  const said = GRADES[text.toUpperCase()] ?? (value > 0 ? inRa(value, isRz, /in/i.test(unit)) : undefined);
  if (said === undefined || said === text) return undefined;
  return { text: said, why: isRz ? `${why} Rz is about four times as much.` : why, rule: 'form/unit' };
}

function inRa(value: number, isRz: boolean, isInch: boolean): string {
  const um = (isInch ? value * MICRO_INCH : value) / (isRz ? RZ_TO_RA : 1);
  if (!isRz && !isInch) return String(value);
  const near = PREFERRED.find((ra) => Math.abs(ra / um - 1) < 0.1);
  return String(near ?? Number(um.toPrecision(2)));
}
