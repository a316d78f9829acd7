/** One part in many sizes, in an editor and in a job. */
import assert from 'node:assert/strict';
import { completionsAt } from '../../server/src/service/completion';
import type { Host } from '../../server/src/service/host';
import { hoverAt } from '../../server/src/service/hover';
import { lensesOf } from '../../server/src/service/lenses';
import { answerTo } from '../../server/src/service/questions';
import { Workspace } from '../../server/src/service/workspace';

const bar = (units: string, length: string) => `part: bar
units: ${units}
material: aluminium-6061-t6
parameters:
  length: ${length}
variants:
  short: { length: ${length} / 2 }
body: { x: length, y: 0.4 in, z: 0.4 in }
`;
const JOB = `job: two
units: mm
parts:
  one: { spec: bar.part.yaml, variant: short }
  two: { spec: bar.part.yaml }
  three: { spec: inch.part.yaml }
`;
function open(job: string) {
  const files: Record<string, string> = {
    'mem:///w/two.job.yaml': job,
    'mem:///w/bar.part.yaml': bar('mm', '60'),
    'mem:///w/inch.part.yaml': bar('in', '3'),
  };
  const host: Host = {
    log: () => undefined,
    read: async (path) => files[path],
    list: async () => [],
    documents: async () => Object.keys(files),
  };
  return new Workspace(host, { roots: ['mem:///w'] });
}
async function jobOf(job: string) {
  const snapshot = await open(job).snapshot('mem:///w/two.job.yaml');
  assert.ok(snapshot?.kind === 'job');
  return snapshot;
}
async function partOf() {
  const snapshot = await open(JOB).snapshot('mem:///w/bar.part.yaml');
  assert.ok(snapshot?.kind === 'part');
  return snapshot;
}

describe('variants in an editor', () => {
  it('makes the row that a job names', async () => {
    const { pieces, findings } = await jobOf(JOB);
    assert.deepEqual(
      pieces.map(({ checked }) => [checked.part.name, Number(checked.part.size[0].toFixed(9))]),
      [
        ['bar-short', 30],
        ['bar', 60],
        ['bar', 76.2],
      ],
    );
    assert.deepEqual(
      findings.filter((f) => f.severity === 'error'),
      [],
    );
  });

  it('shares a length among parts in whatever units they are written', async () => {
    const { pieces, findings } = await jobOf(`${JOB}parameters: { base: 20 mm, length: base * 2 + 0.8 mm }\n`);
    for (const { checked } of pieces) assert.ok(Math.abs(checked.part.size[0] - 40.8) < 1e-9);
    assert.deepEqual(
      findings.map((f) => f.message),
      ['No part of this job has a parameter `base`. Delete it, or correct its name.'],
    );
  });

  it('says what a job asks of its parts in vain', async () => {
    const { findings } = await jobOf(
      JOB.replace('variant: short', 'variant: shrot').concat('parameters: { length: 40 }\n'),
    );
    assert.deepEqual(
      findings.map((f) => f.message),
      [
        '`bar.part.yaml` has no variant `shrot`. Write one of short.',
        '`length` has no unit, and three is written in `in`: there it is left as it is. Write its unit, like `40 mm`.',
      ],
    );
  });

  it('completes rows, and parameters in a row', async () => {
    const job = JOB.replace('variant: short', 'variant: s');
    const items = completionsAt(await jobOf(job), job.indexOf('variant: ') + 'variant: s'.length);
    assert.deepEqual(
      items.map((i) => i.label),
      ['short'],
    );
    const workspace = open(JOB);
    const text = bar('mm', '60').replace('{ length: 60 / 2 }', '\n    ');
    workspace.open('mem:///w/bar.part.yaml', text);
    const part = (await workspace.snapshot('mem:///w/bar.part.yaml'))!;
    const keys = completionsAt(part, text.indexOf('\n    \n') + 5).map((i) => i.label);
    assert.deepEqual(keys, ['length']);
  });

  it('tells on a row, and above it, what that part weighs', async () => {
    const part = await partOf();
    const hover = hoverAt(part, part.text.indexOf('short'));
    assert.match(hover!.contents.value, /`bar-short`\n\n- mass: 8\\\.4 g/);
    const lenses = await lensesOf(open(JOB), part, async (p) => answerTo('figures', p, {}));
    assert.deepEqual(
      lenses.map((l) => [l.range.start.line, l.command?.title.split(' ', 2).join(' ')]),
      [
        [0, '16.7 g'],
        [6, '8.4 g'],
      ],
    );
  });
});
