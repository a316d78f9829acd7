/** The command line's words: what may be asked for, and a clear refusal for what may not. */
import { FACES, type Face } from '../model/faces';
import type { DrawingPrint } from '../sheet/drawing/printed';
import { LANGUAGES, type Language } from '../sheet/language/names';
import { PAPERS, type Paper } from '../sheet/page';
import { currentRule, RENAMED_COMMANDS, RENAMED_OPTIONS } from '../text/renamed';
import { type ImportCommand, readImport } from './import-options';
import { type NewCommand, readNew } from './new-options';
import { oneOf, parse, UsageError } from './options';

const FORMATS = ['text', 'json', 'sarif', 'github', 'junit', 'comments'] as const;
const DRAWING_PAPERS = ['a4', 'a3', 'letter', 'tabloid'] as const;
const SHEETS_OF: Readonly<Record<(typeof DRAWING_PAPERS)[number], DrawingPrint>> = {
  a4: { paper: 'a4', size: 'small' },
  a3: { paper: 'a4', size: 'large' },
  letter: { paper: 'letter', size: 'small' },
  tabloid: { paper: 'letter', size: 'large' },
};

type CheckFormat = (typeof FORMATS)[number];
const SEVERITIES = ['error', 'warning', 'hint'] as const;
type Severity = (typeof SEVERITIES)[number];

export type Command =
  | {
      readonly name: 'check';
      readonly paths: readonly string[];
      readonly format: CheckFormat;
      readonly shop?: string;
      /** A revision of git. */
      readonly since?: string;
      /** A report's file. */
      readonly known?: string;
      readonly variant?: string;
      readonly failAt: Severity;
      readonly fix: boolean;
      readonly facts: boolean;
      readonly maxWarnings?: number;
      readonly color: boolean;
    }
  | {
      readonly name: 'plan';
      readonly paths: readonly string[];
      readonly write: boolean;
      readonly format: 'text' | 'json';
      readonly shop?: string;
      readonly variant?: string;
    }
  | {
      readonly name: 'export';
      readonly paths: readonly string[];
      readonly to: string;
      readonly face?: Face;
      readonly drawing: boolean;
      readonly print: DrawingPrint;
      readonly variant?: string;
      readonly shop?: string;
    }
  | {
      readonly name: 'sheet';
      readonly paths: readonly string[];
      readonly to: string;
      readonly paper: Paper;
      readonly language: Language;
      readonly shop?: string;
      readonly variant?: string;
    }
  | {
      readonly name: 'job';
      readonly path: string;
      readonly to?: string;
      readonly shop?: string;
      readonly paper: Paper;
      readonly language: Language;
    }
  | { readonly name: 'git'; readonly on: boolean }
  | { readonly name: 'tell'; readonly path: string }
  | { readonly name: 'merge'; readonly base: string; readonly ours: string; readonly theirs: string }
  | { readonly name: 'record'; readonly path: string; readonly format: 'text' | 'json'; readonly shop?: string }
  | {
      readonly name: 'compare';
      readonly before: string;
      readonly after: string;
      readonly format: CompareFormat;
      readonly to?: string;
    }
  | { readonly name: 'tables'; readonly table?: string; readonly format: 'text' | 'json' }
  | { readonly name: 'why'; readonly rule: string }
  | NewCommand
  | ImportCommand
  | { readonly name: 'serve' }
  | { readonly name: 'help'; readonly of?: string }
  | { readonly name: 'version' };

type CompareFormat = 'text' | 'json' | 'md' | 'html';
/** By how a file's name ends. */
const COMPARE_FORMATS: Readonly<Record<string, CompareFormat>> = { txt: 'text', json: 'json', md: 'md', html: 'html' };

export function readArguments(words: readonly string[]): Command {
  const [first, ...rest] = words;
  if (first !== undefined && rest.some((word) => word === '--help' || word === '-h'))
    return { name: 'help', of: first };
  switch (first) {
    case undefined:
      throw new UsageError('What is to be done? Try: scribeline check PATH');
    case 'help':
    case '--help':
    case '-h':
      return { name: 'help', ...(rest[0] !== undefined && { of: rest[0] }) };
    case '--version':
      return { name: 'version' };
    case 'check':
      return readCheck(rest);
    case 'plan':
      return readPlan(rest);
    case 'export':
      return readExport(rest);
    case 'sheet':
      return readSheet(rest);
    case 'job':
      return readJob(rest);
    case 'git':
      return readGit(rest);
    case 'tell':
      return readOne('tell', rest, 'a part file, such as yoke.part.yaml', (path) => ({ name: 'tell', path }));
    case 'merge':
      return readMerge(rest);
    case 'record':
      return readRecord(rest);
    case 'compare':
      return readCompare(rest);
    case 'tables':
      return readTables(rest);
    case 'why':
    case 'explain':
      return readOne(first, rest, 'the name of a rule, such as wall/thin', (rule) => ({ name: 'why', rule }));
    case 'new':
      return readNew(rest);
    case 'import':
      return readImport(rest);
    case 'serve':
      if (rest.filter((word) => word !== '--no-color').join() !== '--stdio')
        throw new UsageError('The language server uses standard input and output only: scribeline serve --stdio');
      return { name: 'serve' };
    default:
      throw new UsageError(
        `There is no command \`${first}\`. The commands are check, plan, export, sheet, job, record, compare, git, tell, merge, tables, why, new, import, serve and help.`,
      );
  }
}

const TEXT = { type: 'string' } as const;
const FLAG = { type: 'boolean' } as const;

function readCheck(words: readonly string[]): Command {
  const { values, positionals } = parse('check', words, {
    format: TEXT,
    shop: TEXT,
    fix: FLAG,
    facts: FLAG,
    variant: TEXT,
    since: TEXT,
    known: TEXT,
    'fail-at': TEXT,
    'allow-warnings': TEXT,
    'max-warnings': TEXT,
  });
  if (positionals.length === 0)
    throw new UsageError('check needs at least one file, folder or glob: scribeline check parts');
  const format = oneOf('--format', values.format, FORMATS);
  const failAt = oneOf('--fail-at', values['fail-at'], SEVERITIES);
  const most = values['allow-warnings'] ?? values['max-warnings'];
  if (most !== undefined && !/^\d+$/.test(most))
    throw new UsageError(`--allow-warnings is a whole number, not \`${most}\`.`);
  return {
    name: 'check',
    paths: positionals,
    format,
    failAt,
    ...(values.since !== undefined && { since: values.since }),
    ...(values.known !== undefined && { known: values.known }),
    ...variantIn(values),
    fix: values.fix ?? false,
    facts: values.facts ?? false,
    color: !values['no-color'],
    ...(values.shop === undefined ? {} : { shop: values.shop }),
    ...(most === undefined ? {} : { maxWarnings: Number(most) }),
  };
}

function readPlan(words: readonly string[]): Command {
  const { values, positionals } = parse('plan', words, { write: FLAG, format: TEXT, shop: TEXT, variant: TEXT });
  if (positionals.length === 0) throw new UsageError('plan needs a part: scribeline plan yoke.part.yaml');
  return {
    name: 'plan',
    paths: positionals,
    write: values.write ?? false,
    format: oneOf('--format', values.format, ['text', 'json']),
    ...variantIn(values),
    ...(values.shop !== undefined && { shop: values.shop }),
  };
}

function readExport(words: readonly string[]): Command {
  const { values, positionals } = parse('export', words, {
    to: TEXT,
    face: TEXT,
    drawing: FLAG,
    paper: TEXT,
    language: TEXT,
    shop: TEXT,
    variant: TEXT,
  });
  if (positionals.length === 0 || !values.to)
    throw new UsageError('export needs a part and what to make of it: scribeline export yoke.part.yaml --to yoke.step');
  const { face } = values;
  if (face !== undefined && !isFace(face))
    throw new UsageError(`--face is one of ${FACES.join(', ')}, not \`${face}\`.`);
  const drawing = values.drawing ?? false;
  if (drawing && face !== undefined)
    throw new UsageError('--face is for an outline; a drawing has all faces with features. Delete one of the two.');
  const paper = values.paper === undefined ? undefined : oneOf('--paper', values.paper, DRAWING_PAPERS);
  const language = values.language === undefined ? undefined : oneOf('--language', values.language, LANGUAGES);
  return {
    name: 'export',
    paths: positionals,
    to: values.to,
    drawing,
    print: { ...(paper && SHEETS_OF[paper]), ...(language && { language }) },
    ...(face !== undefined && { face }),
    ...variantIn(values),
    ...(values.shop !== undefined && { shop: values.shop }),
  };
}

function readSheet(words: readonly string[]): Command {
  const { values, positionals } = parse('sheet', words, {
    to: TEXT,
    paper: TEXT,
    language: TEXT,
    shop: TEXT,
    variant: TEXT,
  });
  if (positionals.length === 0 || !values.to)
    throw new UsageError('sheet needs a part and a file to write: scribeline sheet yoke.part.yaml --to yoke.pdf');
  return {
    name: 'sheet',
    paths: positionals,
    to: values.to,
    paper: oneOf('--paper', values.paper, PAPERS),
    language: oneOf('--language', values.language, LANGUAGES),
    ...(values.shop !== undefined && { shop: values.shop }),
    ...variantIn(values),
  };
}

function readJob(words: readonly string[]): Command {
  const { values, positionals } = parse('job', words, { to: TEXT, shop: TEXT, paper: TEXT, language: TEXT });
  const [path, second] = positionals;
  if (path === undefined || second !== undefined)
    throw new UsageError('job needs one job file: scribeline job gimbal.job.yaml --to gimbal.md');
  return {
    name: 'job',
    path,
    paper: oneOf('--paper', values.paper, PAPERS),
    language: oneOf('--language', values.language, LANGUAGES),
    ...(values.to !== undefined && { to: values.to }),
    ...(values.shop !== undefined && { shop: values.shop }),
  };
}

function readGit(words: readonly string[]): Command {
  return readOne('git', words, '`on` or `off`', (word) => ({
    name: 'git',
    on: oneOf('git', word, ['on', 'off']) === 'on',
  }));
}

function readMerge(words: readonly string[]): Command {
  const { positionals } = parse('merge', words, {});
  const [base, ours, theirs, more] = positionals;
  if (base === undefined || ours === undefined || theirs === undefined || more !== undefined)
    throw new UsageError('merge needs three files: scribeline merge BASE OURS THEIRS');
  return { name: 'merge', base, ours, theirs };
}

function readRecord(words: readonly string[]): Command {
  const { values, positionals } = parse('record', words, { format: TEXT, shop: TEXT });
  const [path, second] = positionals;
  if (path === undefined || second !== undefined)
    throw new UsageError('record needs one record: scribeline record yoke.record.yaml');
  return {
    name: 'record',
    path,
    format: oneOf('--format', values.format, ['text', 'json']),
    ...(values.shop !== undefined && { shop: values.shop }),
  };
}

function readCompare(words: readonly string[]): Command {
  const options = { format: TEXT, since: TEXT, to: TEXT } as const;
  const { values, positionals } = parse('compare', words, options);
  const { since, to } = values;
  const ending = to === undefined ? 'txt' : to.slice(to.lastIndexOf('.') + 1).toLowerCase();
  const format = values.format === undefined ? COMPARE_FORMATS[ending] : values.format;
  if (format === undefined)
    throw new UsageError(
      `\`${to}\` is no format that a comparison is written in. The name ends in one of ${Object.keys(COMPARE_FORMATS)
        .map((e) => `.${e}`)
        .join(', ')}.`,
    );
  if (format !== 'text' && format !== 'json' && format !== 'md' && format !== 'html')
    throw new UsageError(`--format is text, json, md or html, not \`${format}\`.`);
  const [first, second, third] = positionals;
  if (first === undefined || third !== undefined || (since === undefined) === (second === undefined))
    throw new UsageError(
      'compare needs an old and a new file, folder or job: scribeline compare old.part.yaml new.part.yaml, or compare yoke.part.yaml --since HEAD',
    );
  const [before, after] = since === undefined ? [first, second!] : [`${since}:${first}`, first];
  return { name: 'compare', before, after, format, ...(to !== undefined && { to }) };
}

function readTables(words: readonly string[]): Command {
  const { values, positionals } = parse('tables', words, { format: TEXT });
  const [table, second] = positionals;
  if (second !== undefined) throw new UsageError('tables takes one name: scribeline tables threads');
  return {
    name: 'tables',
    format: oneOf('--format', values.format, ['text', 'json']),
    ...(table !== undefined && { table }),
  };
}

/** One row of a part's table of variants. */
function variantIn({ variant }: { readonly variant?: string | undefined }): { readonly variant?: string } {
  return variant === undefined ? {} : { variant };
}

function isFace(word: string): word is Face {
  return (FACES as readonly string[]).includes(word);
}

/** What is said beside the answer to words that have a new name. */
export function renamed(words: readonly string[]): readonly string[] {
  const [command = '', rule = ''] = words;
  const isWhy = (RENAMED_COMMANDS[command] ?? command) === 'why';
  const options = words.flatMap((w) => (w.startsWith('--') ? [w.slice(2).split('=', 1)[0]!] : []));
  return [
    ...(RENAMED_COMMANDS[command] ? [`${command} is now called ${RENAMED_COMMANDS[command]}.`] : []),
    ...(isWhy && currentRule(rule) !== rule ? [`${rule} is now called ${currentRule(rule)}.`] : []),
    ...options.flatMap((o) => (RENAMED_OPTIONS[o] ? [`--${o} is now called --${RENAMED_OPTIONS[o]}.`] : [])),
  ];
}

/** A command that takes one word, and `what` that is. */
function readOne(command: string, words: readonly string[], what: string, made: (word: string) => Command): Command {
  const { positionals } = parse(command, words, {});
  const [word, second] = positionals;
  if (word === undefined || second !== undefined) throw new UsageError(`${command} needs ${what}.`);
  return made(word);
}
