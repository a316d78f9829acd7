/** A job of parts given as texts, judged. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { type JobPiece, jobFindings } from '../../../server/src/planning/job';
import { checkJob, readPart } from '../../../server/src/rules/check';
import type { Finding } from '../../../server/src/rules/kit/rule';
import { NO_OTHERS, type Others } from '../../../server/src/text/tree';

/** `parts`: by the names that the job gives them; `others`: files that they include features of. Findings of joints and names alone. */
export function judged(
  parts: Readonly<Record<string, string>>,
  joints: string,
  head = '',
  others: Others = NO_OTHERS,
): readonly Finding[] {
  const { checked, pieces } = jobOf(parts, joints, head, others);
  return [...checked.findings, ...jobFindings(checked.job, pieces, false)];
}

export function jobOf(parts: Readonly<Record<string, string>>, joints: string, head = '', others: Others = NO_OTHERS) {
  const listed = Object.keys(parts).map((name) => `  ${name}: { spec: ${name}.part.yaml }\n`);
  const text = `job: test\n${head}parts:\n${listed.join('')}joints:\n${joints}\n`;
  const checked = checkJob(text);
  const pieces = checked.job.parts.map((entry): JobPiece => {
    const checked = readPart(parts[entry.name]!, builtinShop(), undefined, others);
    assert.deepEqual(
      checked.part.problems.map((p) => p.message),
      [],
      entry.name,
    );
    return { entry, checked, quantity: 1 };
  });
  return { checked, pieces };
}

/** A plate with features, in text. */
export function plate(features: string, { size = '{ x: 100, y: 60, z: 10 }', tolerance = '', more = '' } = {}): string {
  return `part: plate\nunits: mm\nmaterial: aluminium-6061-t6\n${tolerance && `tolerance: ${tolerance}\n`}body: ${size}\nfeatures:\n${features}${more}`;
}

export function hole(
  name: string,
  places: readonly (readonly [number, number])[],
  fields: string,
  face = 'top',
): string {
  const [u, v] =
    face === 'top' || face === 'bottom' ? ['x', 'y'] : face === 'left' || face === 'right' ? ['y', 'z'] : ['x', 'z'];
  const at = places.map(([a, b]) => `{ ${u}: ${Number(a.toFixed(6))}, ${v}: ${Number(b.toFixed(6))} }`).join(', ');
  return `  ${name}: { kind: hole, face: ${face}, pattern: { places: [${at}] }, ${fields} }\n`;
}

export function says(findings: readonly Finding[]): readonly string[] {
  return findings.map((f) => `${f.severity} ${f.rule}`);
}
