/**
 * Words of the format that have a new name: the one table from which reading, the change that is offered, schemas, pages
 * and reports follow. An old word is read for ever as the new one. Nothing is taken out of here.
 */

/** Rules, by the name that they had first. */
export const RENAMED_RULES: Readonly<Record<string, string>> = {
  'access/buried': 'access/covered',
  'cost/over-bar': 'cost/bar-too-short',
  'form/swallowed-comment': 'form/hash-comment',
  'hold/let-go': 'hold/cut-free',
  'hold/pries': 'hold/tips-out',
  'hole/entry': 'hole/sloped-start',
  'hole/stacked': 'hole/screw-head',
  'setup/flip': 'setup/opposite-zero',
  'setup/one-zero': 'setup/zero-per-piece',
  'stock/known-face': 'stock/already-to-size',
  'tol/fit-side': 'tol/shaft-or-hole',
};

/** One word of a document by its old name and its new one. */
export interface Renamed {
  /** The keys that lead to it, `*` for any name and for each item of a list; of a key its own map, of a value its key too. */
  readonly path: readonly string[];
  readonly is: 'key' | 'value';
  readonly was: string;
  readonly now: string;
}

const WORDS: readonly Renamed[] = [
  { path: ['features', '*', 'kind'], is: 'value', was: 'round', now: 'edge-round' },
  { path: ['features', '*', 'kind'], is: 'value', was: 'incline', now: 'slope' },
  { path: ['tolerances', '*'], is: 'key', was: 'at', now: 'material-condition' },
  { path: ['machines', '*'], is: 'key', was: 'locates', now: 'zero-error' },
  { path: ['machines', '*', 'spindle'], is: 'key', was: 'set', now: 'speed-set-by' },
  { path: ['machines', '*', 'spindle', 'speed-set-by'], is: 'value', was: 'no-read-out', now: 'unmarked' },
];

/** Every word of a document that has a new name: of the format, and of rules where a document names one. */
export const RENAMED: readonly Renamed[] = [
  ...WORDS,
  ...Object.entries(RENAMED_RULES).flatMap(([was, now]): Renamed[] => [
    { path: ['accept', '*', 'rule'], is: 'value', was, now },
    { path: ['limits'], is: 'key', was, now },
  ]),
];

/** Options and commands of the command line, by their old names. */
export const RENAMED_OPTIONS: Readonly<Record<string, string>> = { 'max-warnings': 'allow-warnings' };
export const RENAMED_COMMANDS: Readonly<Record<string, string>> = { explain: 'why' };

const FIRST = new Map(Object.entries(RENAMED_RULES).map(([was, now]) => [now, was]));

/** What a kind of feature was called first. */
export function firstKind(now: string): string {
  return WORDS.find((w) => w.path.at(-1) === 'kind' && w.now === now)?.was ?? now;
}

/** What a rule is called now, by this name or one that it had. */
export function currentRule(name: string): string {
  return Object.hasOwn(RENAMED_RULES, name) ? RENAMED_RULES[name]! : name;
}

/** What a rule was called first: what programs that read reports know it by. */
export function firstRule(name: string): string {
  return FIRST.get(name) ?? name;
}
