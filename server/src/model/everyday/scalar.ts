/** One number or dimension as it is noted down, wherever one stands: `2x`, `4 pcs`, `Ø40`, `-10` of a depth, `H7 10`. */
import { plainDimension } from './dimension';
import { doubled } from './reading';

/** What it means, each as it is written here, and what was written otherwise. */
interface PlainScalar {
  readonly texts: readonly string[];
  readonly why: string;
}

const NUMBER_WORDS = ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'twelve'];
const GERMAN_NUMBERS = ['ein', 'zwei', 'drei', 'vier', 'fünf', 'sechs', 'sieben', 'acht', 'neun', 'zehn', 'zwölf'];
const COUNTED =
  /^(?:qty\.?|no\.?|n\s*=|x|×)?\s*(\d+)\s*(?:[x×]|off|pcs?\.?|pieces?|pl(?:aces|cs)\.?|ea\.?|each|holes?|times|units?|parts?|st(?:k|ck)?\.?|stück|stueck|teile|mal|bohrungen)?\.?$/i;

/** `2x`, `4 pcs`, `four`: how many. */
export function plainCount(source: string): string | undefined {
  const text = source.trim();
  const found = COUNTED.exec(text)?.[1];
  if (found !== undefined) return found === text ? undefined : found;
  const at = [NUMBER_WORDS, GERMAN_NUMBERS].map((words) => words.indexOf(text.toLowerCase())).find((i) => i >= 0);
  return at === undefined ? undefined : String(at === 10 ? 12 : at + 1);
}

/** A length or an angle that cannot be read, by what its key says that it is. */
export function plainLength(source: string, key: string): PlainScalar | undefined {
  const text = source.trim();
  const plain = plainDimension(text, { through: false, angle: false });
  if (plain) return { ...plain, texts: plain.radius && key === 'diameter' ? plain.texts.map(doubled) : plain.texts };
  // A class before its value, or in brackets after it.
  const [, fit, first] = /^([a-zA-Z]{1,2}\d{1,2})\s+(\d[\d.,]*(?:\s*(?:mm|in|"))?)$/.exec(text) ?? [];
  const [, second, bracketed] = /^(\d[\d.,]*(?:\s*(?:mm|in|"))?)\s*[([]\s*([^()[\]]+?)\s*[)\]]$/.exec(text) ?? [];
  const [value, tolerance] = fit ? [first, fit] : [second, bracketed];
  if (value && tolerance && /^(?:[a-zA-Z]{1,2}\d{1,2}|±.*|\+.*\/.*)$/.test(tolerance))
    return { texts: [`${value.replace(',', '.')} ${tolerance}`], why: 'A tolerance comes after its value.' };
  const about = /^(?:~|≈|ca\.?|approx\.?|about)\s*(\d.*)$/i.exec(text)?.[1];
  return about === undefined ? undefined : { texts: [about], why: 'A size is said as it is to be.' };
}

/** A size that comes out below 0: its sign counts into the material already, or it was two limits. */
export function plainSize(source: string, key: string): PlainScalar | undefined {
  const text = source.trim();
  const positive = /^[-−–]\s*(\d.*)$/.exec(text)?.[1];
  if (positive !== undefined)
    return { texts: [positive], why: key === 'depth' ? 'A depth counts into the material.' : 'A size has no sign.' };
  const limits = /^(\d+(?:\.\d+)?)\s*[-–]\s*(\d+(?:\.\d+)?)(\s*(?:mm|in|"))?$/.exec(text);
  if (!limits) return undefined;
  const [low, high] = [Number(limits[1]), Number(limits[2])];
  if (!(low < high) || (high - low) / high > MOST_BETWEEN) return undefined;
  const by = (mm: number) => String(Number(mm.toFixed(6)));
  const middle = `${by((low + high) / 2)}${limits[3] ?? ''}`;
  return {
    texts: [`${middle} ±${by((high - low) / 2)}`],
    why: 'Two limits are written as the middle and half of what is between.',
  };
}
/** Limits of one size are nearer to each other than this part of it (common practice, no source). */
const MOST_BETWEEN = 0.1;
