/** What may stand at a place: keys, words, names and units, following each `kind`. */
import assert from 'node:assert/strict';
import { EXAMPLES } from '../../server/generate/format-prose';
import { KINDS } from '../../server/src/model/feature-kinds';
import { DOCUMENTS, type DocumentKind, type SchemaInfo, schemaAt } from '../../server/src/model/lookup';
import { pick } from '../../server/src/model/schema/pick';
import { type Shape, shapeOf } from '../../server/src/model/schema/shape';
import { readText } from '../../server/src/text/read';
import type { TextNode } from '../../server/src/text/tree';

const ROOT = readText(`${EXAMPLES.part}\nextra:\n`.trimStart()).root!;
const info = (...path: PropertyKey[]): SchemaInfo => {
  const found = schemaAt('part', path, ROOT);
  assert.ok(found, path.join('/'));
  return found;
};
const keys = (...path: PropertyKey[]) => info(...path).keys?.map((k) => k.key + (k.required ? '!' : ''));
const values = (...path: PropertyKey[]) => info(...path).values?.map((v) => v.value);

describe('what may stand at a place', () => {
  it('of the document: its fields, the needed ones marked', () => {
    assert.deepEqual(keys()?.slice(0, 2), ['part!', 'title']);
    assert.ok(keys()?.includes('body!'));
    assert.equal(info('features').type, 'map');
    assert.equal(info('features').keys, undefined);
  });

  it('of a feature: the fields of its kind', () => {
    assert.ok(keys('features', 'mount')?.includes('thread-depth'));
    assert.ok(!keys('features', 'lightening')?.includes('thread-depth'));
    assert.ok(keys('features', 'lightening')?.includes('islands'));
  });

  it('of a feature whose kind is not written yet: first the kind, which may be any', () => {
    assert.deepEqual(keys('features', 'new'), ['kind!']);
    assert.deepEqual(values('features', 'new', 'kind'), KINDS);
    assert.deepEqual(values('features', 'mount', 'kind'), KINDS, 'also where one is written');
    for (const v of info('features', 'new', 'kind').values!) assert.ok(v.description.length > 10, v.value);
  });

  it('of a map that may be several: all of them at first, then the one begun', () => {
    assert.ok(keys('setups', 'third', 'hold')?.includes('tabs'));
    const inVise = [
      'vise!',
      'jaws!',
      'grip!',
      'parallels',
      'stop',
      'overhang',
      'v-block',
      'apart',
      'pieces',
      'gap',
      'pad',
    ];
    assert.deepEqual(keys('setups', 'first', 'hold'), inVise);
    assert.deepEqual(
      schemaAt('part', ['body'])?.keys?.map((k) => k.key),
      ['x', 'y', 'z', 'diameter', 'length', 'axis'],
    );
    assert.deepEqual(keys('body'), ['x!', 'y!', 'z!']);
  });

  it('of a scalar: its unit, its words, what it names', () => {
    assert.deepEqual(
      [info('features', 'mount', 'depth').unit, values('features', 'mount', 'depth')],
      ['length', ['through']],
    );
    assert.deepEqual(values('features', 'mount', 'at', 'x'), ['center']);
    assert.equal(info('features', 'mount', 'point').unit, 'angle');
    assert.equal(info('features', 'mount', 'pattern', 'line', 'count').unit, 'number');
    assert.deepEqual(values('units'), ['mm', 'in']);
    assert.deepEqual(values('features', 'mount', 'face'), ['left', 'right', 'front', 'back', 'bottom', 'top']);
    const names = (...path: PropertyKey[]) => info(...path).names;
    assert.deepEqual(
      [
        names('features', 'mount', 'thread'),
        names('features', 'mount', 'from'),
        names('features', 'mount', 'counterbore'),
        names('material'),
        names('shop'),
        names('setups', 'first', 'hold', 'vise'),
        names('setups', 'first', 'cuts', 0),
        names('setups', 'first', 'zero', 'z'),
        names('setups', 'first', 'tools', 'mount'),
        names('tolerances', 0, 'datums', 1),
        names('tolerances', 0, 'of'),
        names('datums', 'A'),
        names('accept', 0, 'rule'),
      ],
      [
        'thread',
        'feature',
        'cap-screw',
        'material',
        'file',
        'vise',
        'cut',
        'zero',
        'tool',
        'datum',
        'cut',
        'cut',
        'rule',
      ],
    );
  });

  it('says what holds when it is left out', () => {
    assert.equal(info('quantity').fallback, '1');
    assert.equal(info('features', 'mount', 'point').fallback, '118');
  });

  it('of nothing is nothing', () => {
    assert.equal(schemaAt('part', ['nothing'], ROOT), undefined);
    assert.equal(schemaAt('part', ['features', 'mount', 'corner-radius'], ROOT), undefined);
    assert.equal(schemaAt('part', ['units', 'deeper'], ROOT), undefined);
    assert.equal(schemaAt('part', ['tolerances', 'no-index'], ROOT), undefined);
  });

  it('of a shop and a job too', () => {
    const tools = schemaAt('shop', ['tools', 't'])!;
    assert.deepEqual(
      tools.keys?.map((k) => k.key),
      ['kind'],
    );
    assert.ok(schemaAt('shop', ['tools', 't', 'kind'])!.values!.some((v) => v.value === 'end-mill'));
    assert.equal(schemaAt('job', ['parts', 'yoke', 'spec'])?.names, 'file');
  });
});

describe('the schemas', () => {
  /** Every shape below one, with the way to it. */
  function* all(shape: Shape, way: string): Generator<[string, Shape]> {
    yield [way, shape];
    if (shape.type === 'map') for (const [key, field] of shape.keys) yield* all(field.shape, `${way}.${key}`);
    if (shape.type === 'record') yield* all(shape.value, `${way}.NAME`);
    if (shape.type === 'list') yield* all(shape.item, `${way}[]`);
    if (shape.type === 'choice') for (const [i, option] of shape.options.entries()) yield* all(option, `${way}(${i})`);
  }

  it('describe every field, kind and word', () => {
    for (const kind of Object.keys(DOCUMENTS) as DocumentKind[]) {
      for (const [way, shape] of all(shapeOf(DOCUMENTS[kind]), kind)) {
        if (/\(\d\)$/.test(way) && shape.type !== 'map') continue;
        assert.ok(shape.meta.description, `${way} has no description`);
        if (shape.type === 'scalar')
          for (const word of shape.words ?? []) assert.ok(shape.meta.values?.[word], `${way}: ${word}`);
      }
    }
  });

  it('give examples that they accept themselves', () => {
    for (const kind of Object.keys(DOCUMENTS) as DocumentKind[]) {
      for (const [way, shape] of all(shapeOf(DOCUMENTS[kind]), kind)) {
        const { example } = shape.meta;
        if (example === undefined) continue;
        const node = readText(`v: ${example}\n`).root?.entries[0]?.value as TextNode;
        const meant = pick(shape, node);
        assert.ok(meant, `${way}: ${example}`);
        assert.equal(meant.type === 'record' ? 'map' : meant.type, node.type, `${way}: ${example}`);
        if (meant.type !== 'map' || node.type !== 'map') continue;
        for (const e of node.entries) assert.ok(meant.keys.has(String(e.key.value)), `${way}: ${example}`);
      }
    }
  });
});
