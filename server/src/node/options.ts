/** The options of a command line: read by the runtime, refused in our words. */
import { type ParseArgsConfig, parseArgs } from 'node:util';
import { RENAMED_OPTIONS } from '../text/renamed';

export class UsageError extends Error {}

/** The first where nothing is said. */
export function oneOf<T extends string>(option: string, word: string | undefined, all: readonly [T, ...T[]]): T {
  const found = word === undefined ? all[0] : all.find((a) => a === word);
  if (found === undefined) throw new UsageError(`${option} is one of ${all.join(', ')}, not \`${word}\`.`);
  return found;
}

/** Every command takes these. */
const COMMON = { 'no-color': { type: 'boolean' } } as const;

export function parse<T extends Exclude<ParseArgsConfig['options'], undefined>>(
  command: string,
  words: readonly string[],
  options: T,
) {
  try {
    return parseArgs({ args: [...words], allowPositionals: true, options: { ...options, ...COMMON } });
  } catch (error) {
    throw new UsageError(refusal(command, words, { ...options, ...COMMON }) ?? (error as Error).message);
  }
}

/** Which word could not be read, in our words; the runtime speaks of positional arguments. */
function refusal(
  command: string,
  words: readonly string[],
  options: Exclude<ParseArgsConfig['options'], undefined>,
): string | undefined {
  const named = Object.keys(options).filter((name) => !(name in RENAMED_OPTIONS));
  const has = `It has ${listed(named.map((name) => `--${name}`))}.`;
  for (const [i, word] of words.entries()) {
    if (word === '--') return undefined;
    if (!word.startsWith('-') || word === '-') continue;
    const [name = '', value] = word.replace(/^--?/, '').split('=', 2);
    const option = word.startsWith('--') ? options[name] : undefined;
    if (!option) return `${command} has no option ${word.split('=', 1)[0]}. ${has}`;
    if (option.type === 'boolean' && value !== undefined) return `--${name} takes no value.`;
    const next = words[i + 1];
    if (option.type === 'string' && value === undefined && (next === undefined || next.startsWith('-')))
      return `--${name} needs a value.`;
  }
  return undefined;
}

function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}
