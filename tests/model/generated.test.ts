/** The generated files are current, and the JSON Schemas say what the format says; judged by ajv, a validator not ours. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import Ajv from 'ajv';
import { parse } from 'yaml';
import { formatPage } from '../../server/generate/format-page';
import { EXAMPLES } from '../../server/generate/format-prose';
import { generated, outdated, REPOSITORY } from '../../server/generate/main';
import { FEATURE_KINDS } from '../../server/src/model/feature-kinds';
import { resolvePart } from '../../server/src/model/part';
import { resolveRecord } from '../../server/src/model/record';
import { readText } from '../../server/src/text/read';
import { block } from './read';

const KINDS = ['part', 'shop', 'job'] as const;
const OURS = ['schemas/FORMAT.md', ...KINDS.map((k) => `schemas/${k}.schema.json`)];

describe('the generated files', () => {
  it('are current', () => {
    // The rules' pages are held in rules/page.test.ts.
    const files = generated(new Map());
    for (const path of OURS) assert.ok(files.has(path), path);
    assert.deepEqual(outdated(files), [], 'run `npm run generate`');
  });

  it('that are not, are told', () => {
    assert.deepEqual(
      outdated(
        new Map([
          ['schemas/FORMAT.md', 'other'],
          ['schemas/none.json', ''],
        ]),
      ),
      ['schemas/FORMAT.md', 'schemas/none.json'],
    );
  });
});

describe('a JSON Schema', () => {
  const ajv = new Ajv({ strict: true, strictTypes: false, strictRequired: false, allowUnionTypes: true });
  ajv.addKeyword('enumDescriptions');
  const judges = new Map(
    KINDS.map((kind) => [
      kind,
      ajv.compile(JSON.parse(readFileSync(join(REPOSITORY, `schemas/${kind}.schema.json`), 'utf8'))),
    ]),
  );
  const errors = (kind: (typeof KINDS)[number], text: string) => {
    const judge = judges.get(kind)!;
    judge(parse(text));
    return (judge.errors ?? []).map((e) => `${e.instancePath} ${e.message}`);
  };

  for (const kind of KINDS) {
    it(`of a ${kind} accepts the format’s example, as written to disk`, () => {
      assert.deepEqual(errors(kind, EXAMPLES[kind]), []);
    });
  }

  const feature = (fields: string) => errors('part', block(`f: { ${fields} }`));
  const AT = 'face: top, at: { x: center, front: 8 }';

  it('accepts every kind of feature', () => {
    for (const fields of [
      `kind: hole, ${AT}, diameter: 5, depth: through, counterbore: M5, countersink: { diameter: 9 }`,
      `kind: pocket, ${AT}, size: { x: 3, y: 4 }, depth: 2, relief: corner, relief-diameter: 1, islands: { i: { diameter: 3, at: { x: 1, y: 2 } } }`,
      'kind: slot, face: top, ends: [{ x: 1, y: 2 }, { right: 1, y: 2 }], width: 3, depth: 2',
      'kind: step, face: top, along: [front, left], width: [3, 4], depth: 2',
      'kind: contour, face: top, paths: [[{ x: 1, y: 2, round: 1 }, { x: 5, y: 2 }, { x: 1, y: 9 }]], depth: through',
      'kind: chamfer, edges: [[top, left], { rim: f }, bottom], size: 0.5',
      'kind: edge-round, edges: { rim: f }, radius: 2',
      'kind: round, edges: { rim: f }, radius: 2',
      'kind: groove, in: f, below: 3, width: 1, diameter: 8',
      `kind: engraving, ${AT}, text: 12, height: 4, depth: 0.3`,
      'kind: slope, face: top, along: front, angle: 15, width: 3',
      'kind: incline, face: top, along: front, angle: 15, width: 3',
    ]) {
      assert.deepEqual(feature(fields), [], fields);
    }
  });

  it('refuses what the checker refuses, naming the field of that kind alone', () => {
    const [first] = feature(`kind: hole, ${AT}, daimeter: 5, diameter: 5, depth: 3`);
    assert.equal(first, '/features/f must NOT have additional properties');
    assert.equal(feature('kind: drill').length, 1);
    for (const fields of [
      `kind: hole, ${AT}, depth: 3`,
      `kind: pocket, ${AT}, diameter: 5, size: { x: 1, y: 1 }, depth: 3`,
      `kind: hole, face: upper, diameter: 5, depth: 3`,
      `kind: hole, ${AT}, diameter: [5], depth: 3`,
      `kind: hole, ${AT}, diameter: 5, depth: 3, pattern: { line: { x: 5, count: 2 }, places: [] }`,
    ]) {
      assert.ok(feature(fields).length > 0, fields);
      assert.ok(resolvePart(readText(block(`f: { ${fields} }`))).problems.length > 0, fields);
    }
  });
});

describe('the format’s page', () => {
  const page = formatPage();

  it('has a table for every kind of feature, and every field in it', () => {
    for (const [kind, { schema }] of Object.entries(FEATURE_KINDS)) {
      const section = page.split(`\n### \`${kind}\`\n`)[1]?.split('\n### ')[0];
      assert.ok(section, kind);
      for (const key of Object.keys(schema.shape)) assert.ok(section.includes(`| \`${key}\` |`), `${kind}.${key}`);
    }
  });

  it('shows examples that the checker takes', () => {
    const shown = [...page.matchAll(/```yaml\n([\s\S]*?)```/g)].map((m) => m[1]!);
    assert.equal(shown.length, 7);
    const [variants = '', include = '', blank = '', part = '', , , record = ''] = shown;
    const sized = `part: strut\nmaterial: aluminium-6061-t6\nbody: { x: length, y: 20, z: wall }\n${variants}`;
    assert.deepEqual(resolvePart(readText(sized)).problems, []);
    const face =
      'part: f\nparameters: { pitch: 26 }\nbody: { x: 40, y: 40, z: 8 }\nfeatures:\n  bore: { kind: hole, face: top, at: { x: 20, y: 20 }, diameter: 8, depth: 4 }\n  screws: { kind: hole, face: top, at: { x: 20, y: 20 }, pattern: { line: { x: pitch, count: 2 } }, diameter: 3, depth: 4 }\n';
    const others = new Map([['motor-face.part.yaml', { path: '/f', text: face, others: new Map() }]]);
    const bracket = resolvePart(readText(`part: p\nbody: { x: 60, y: 20, z: 50 }\n${include}`, undefined, others));
    assert.deepEqual(bracket.problems, []);
    assert.deepEqual([...bracket.featureByName.keys()], ['motor-bore', 'bolts']);
    const raw = 'part: plate-raw\nbody: { x: 12, y: 60, z: 40 }\n';
    const beside = new Map([['plate-raw.part.yaml', { path: '/r', text: raw, others: new Map() }]]);
    const plate = `part: p\nmaterial: aluminium-6061-t6\nbody: { x: 60, y: 40, z: 11 }\n${blank}`;
    assert.deepEqual(resolvePart(readText(plate, undefined, beside)).problems, []);
    assert.deepEqual(resolvePart(readText(part)).problems, []);
    assert.deepEqual(resolveRecord(readText(record)).problems, []);
  });

  it('keeps its tables whole', () => {
    const columns = (line: string) => line.replaceAll('\\|', '').split('|').length;
    let head = 0;
    for (const line of page.split('\n')) {
      if (!line.startsWith('|')) head = 0;
      else if (head === 0) head = columns(line);
      else assert.equal(columns(line), head, line);
    }
  });
});
