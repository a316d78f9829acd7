/** What `import` is told. */
import { oneOf, parse, UsageError } from './options';

export interface ImportCommand {
  readonly name: 'import';
  readonly paths: readonly string[];
  /** The shop that gets them, or that they are compared with. */
  readonly shop?: string;
  readonly write: boolean;
  readonly format: 'text' | 'json';
}

export function readImport(words: readonly string[]): ImportCommand {
  const { values, positionals } = parse('import', words, {
    shop: { type: 'string' },
    write: { type: 'boolean' },
    format: { type: 'string' },
  });
  if (positionals.length === 0)
    throw new UsageError('import needs a list of cutters: scribeline import cutters.csv --shop campus.shop.yaml');
  const write = values.write ?? false;
  if (write && values.shop === undefined)
    throw new UsageError('import --write needs the shop to write into: --shop campus.shop.yaml');
  return {
    name: 'import',
    paths: positionals,
    write,
    format: oneOf('--format', values.format, ['text', 'json']),
    ...(values.shop !== undefined && { shop: values.shop }),
  };
}
