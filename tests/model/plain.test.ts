/** The bundles' stand-in for zod gives the same shapes as zod, for every document. */
import assert from 'node:assert/strict';
import { createRequire } from 'node:module';
import { buildSync } from 'esbuild';
import { DOCUMENTS } from '../../server/src/model/lookup';
import { shapeOf } from '../../server/src/model/schema/shape';

const ENTRY = `
  export { DOCUMENTS } from './server/src/model/lookup';
  export { shapeOf } from './server/src/model/schema/shape';
  export { KINDS } from './server/src/model/feature-kinds';
`;

describe('what the bundles have in zod’s place', () => {
  const built = buildSync({
    stdin: { contents: ENTRY, resolveDir: process.cwd(), loader: 'ts' },
    alias: { zod: './server/src/model/schema/plain.ts' },
    bundle: true,
    platform: 'node',
    format: 'cjs',
    write: false,
    metafile: true,
  });

  it('leaves zod out', () => {
    assert.deepEqual(
      Object.keys(built.metafile!.inputs).filter((file) => file.includes('node_modules/zod')),
      [],
    );
  });

  it('has the same shape for every document', () => {
    const module = { exports: {} as Record<string, unknown> };
    new Function('module', 'exports', 'require', built.outputFiles![0]!.text)(
      module,
      module.exports,
      createRequire(__filename),
    );
    const other = module.exports as { DOCUMENTS: typeof DOCUMENTS; shapeOf: typeof shapeOf };
    for (const kind of ['part', 'shop', 'job'] as const) {
      const [theirs, ours] = [shapeOf(DOCUMENTS[kind]), other.shapeOf(other.DOCUMENTS[kind])];
      assert.equal(ours.type, 'map');
      assert.ok(count(theirs) > 8, `${kind} has ${count(theirs)} places`);
      assert.deepEqual(plain(ours), plain(theirs));
    }
  });
});

/** As plain data: maps of keys as lists, in their order. */
function plain(value: unknown): unknown {
  if (value instanceof Map) return [...value].map(plain);
  if (Array.isArray(value)) return value.map(plain);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([k, v]) => [k, plain(v)]));
}

function count(value: unknown): number {
  if (value instanceof Map) return [...value.values()].reduce((sum: number, v) => sum + count(v), value.size);
  if (Array.isArray(value)) return value.reduce((sum: number, v) => sum + count(v), 0);
  if (typeof value !== 'object' || value === null) return 0;
  return Object.values(value).reduce((sum: number, v) => sum + count(v), 0);
}
