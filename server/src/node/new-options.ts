/** What `new` is told. */
import { TEMPLATES, type Template } from '../service/starter/protocol';
import { oneOf, parse, UsageError } from './options';

export interface NewCommand {
  readonly name: 'new';
  readonly part: string;
  /** Words for a piece of the rack. */
  readonly stock?: string;
  readonly like?: Template;
  readonly shop?: string;
  /** Of a shop: entries that are not there. Of a job: the parts that are made together. */
  readonly without?: readonly string[];
  readonly parts?: readonly string[];
}

const ALIKE = Object.keys(TEMPLATES) as [Template, ...Template[]];

export function readNew(words: readonly string[]): NewCommand {
  const { values, positionals } = parse('new', words, {
    stock: { type: 'string' },
    like: { type: 'string' },
    shop: { type: 'string' },
    without: { type: 'string' },
    parts: { type: 'string' },
  });
  const [part, second] = positionals;
  if (part === undefined || second !== undefined)
    throw new UsageError('new needs a name, such as yoke, campus.shop or flight-set.job.');
  const { stock, shop, without, parts } = values;
  return {
    name: 'new',
    part,
    ...(stock !== undefined && { stock }),
    ...(values.like !== undefined && { like: oneOf('--like', values.like, ALIKE) }),
    ...(shop !== undefined && { shop }),
    ...(without !== undefined && { without: listedIn(without) }),
    ...(parts !== undefined && { parts: listedIn(parts) }),
  };
}

/** `a, b` and `a,b` name two. */
function listedIn(words: string): readonly string[] {
  return words
    .split(',')
    .map((word) => word.trim())
    .filter((word) => word !== '');
}
