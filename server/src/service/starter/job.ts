/** A job to start from: the parts that are there. */

/** A job of parts: `specs` are their files from the job's own folder. */
export function starterJob(name: string, specs: readonly string[]): string {
  const nameOf = (spec: string) =>
    spec
      .replace(/^.*\//, '')
      .replace(/\.part\.ya?ml$/i, '')
      .replace(/[^\w-]+/g, '-');
  const entries = specs.map((spec) => `  ${nameOf(spec)}: { spec: ${quoted(spec)}, quantity: 1 }`);
  return [
    '# The parts that are made together. `mass-limit`, `hours` and `evening` may stand here too.',
    `job: ${name.replaceAll('-', ' ')}`,
    'parts:',
    ...(entries.length > 0 ? entries : ['  first: { spec: parts/first.part.yaml, quantity: 1 }']),
    '',
  ].join('\n');
}

function quoted(spec: string): string {
  return /^[\w./-]+$/.test(spec) ? spec : JSON.stringify(spec);
}
