/** Where a text has what a difference names. */

/** `body x` and `stock form` stand under the first word; what has a name of more words, under its own field. */
export function partPath(what: string): readonly string[] {
  const [first = ''] = what.split(' ');
  if (
    [
      'body',
      'stock',
      'title',
      'revision',
      'material',
      'quantity',
      'shop',
      'treatment',
      'coating',
      'deburr',
      'notes',
    ].includes(first)
  )
    return [first];
  if (what === 'name') return ['part'];
  if (what === 'general tolerance') return ['tolerance'];
  if (first === 'variant') return ['variants'];
  return first === 'datum' ? ['datums'] : ['tolerances'];
}

/** `set-up first: hold grip`. */
export function setupPath(what: string): readonly string[] {
  const name = /^set-up ([^:]+)/.exec(what)?.[1];
  return name === undefined ? ['setups'] : ['setups', name];
}

/** `mass limit`, `saw kerf` and `parameter pitch` stand under fields of the job. */
export function jobPath(what: string): readonly string[] {
  const [first = '', ...rest] = what.split(' ');
  if (first === 'parameter') return ['parameters', ...rest];
  if (first === 'saw') return ['saw', ...rest];
  return [what === 'name' ? 'job' : what.replaceAll(' ', '-')];
}
