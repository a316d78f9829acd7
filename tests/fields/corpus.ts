/** The documents in which fields are changed: examples of the rules, the gimbal, and small ones of our own. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

import { RULES } from '../../server/src/rules/registry';
import type { Files } from './shown';

export const REPOSITORY = join(__dirname, '../..');

export interface World {
  readonly files: Files;
  /** Which of them is asked about; a shop is asked about by a part. */
  readonly asked: string;
}

export function corpus(): readonly World[] {
  const rules = RULES.filter((r) => r.when !== 'job' && r.when !== 'plan').flatMap(({ bad, good, shop }) =>
    [bad, good].map(
      (text): World => ({
        files: { 'a.part.yaml': text, ...(shop !== undefined && { 'a.shop.yaml': shop }) },
        asked: 'a.part.yaml',
      }),
    ),
  );
  return [...ours(), ...gimbal(), ...rules].filter(({ files, asked }) => files[asked] !== '');
}

function read(...path: string[]): string {
  return readFileSync(join(REPOSITORY, ...path), 'utf8');
}

function gimbal(): readonly World[] {
  const shop = read('examples/gimbal/campus.shop.yaml');
  const parts = Object.fromEntries(
    readdirSync(join(REPOSITORY, 'examples/gimbal/parts'))
      .filter((name) => name.endsWith('.part.yaml'))
      .map((name) => [`parts/${name}`, read('examples/gimbal/parts', name)]),
  );
  const files = { 'campus.shop.yaml': shop, ...parts };
  const job = read('examples/gimbal/gimbal.job.yaml');
  return [
    ...Object.keys(parts).map((asked) => ({ files, asked })),
    { files: { ...files, 'gimbal.job.yaml': job }, asked: 'gimbal.job.yaml' },
  ];
}

/** Each folder of `worlds` is one: its first job, else its first part is asked about. */
function ours(): readonly World[] {
  const folder = join(REPOSITORY, 'tests/fields/worlds');
  if (!existsSync(folder)) return [];
  return readdirSync(folder).flatMap((name) => {
    const files = Object.fromEntries(
      readdirSync(join(folder, name)).map((file) => [file, readFileSync(join(folder, name, file), 'utf8')]),
    );
    const names = Object.keys(files).sort();
    const job = names.find((n) => n.endsWith('.job.yaml'));
    const parts = job ? [job] : names.filter((n) => n.endsWith('.part.yaml'));
    return parts.map((asked) => ({ files, asked }));
  });
}
