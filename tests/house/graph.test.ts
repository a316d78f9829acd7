/** What may know what: no circle of files, folders one above the other, doors where the world comes in. */
import assert from 'node:assert/strict';
import { type Import, theSource } from './source';

const HOME = 'server/src/';

/**
 * Inside a floor too, folders stand one on the other: each may use those before it. Files beside the folders are free: they
 * are what the folders share, or what asks them all.
 */
const FOLDERS: Readonly<Record<string, readonly string[]>> = {
  geometry: ['2d', 'solid', 'distance', 'walls', 'mesh'],
  process: [
    'stock',
    'cutting',
    'tilted',
    'operations',
    'workholding',
    'access',
    'tolerances',
    'stackup',
    'joints',
    'passes',
  ],
};

/** Folders whose parts still go round among themselves. The list may only become shorter. */
const STILL_ROUND: readonly string[] = ['model', 'service', 'sheet'];

/** Imports that still close a circle. The list may only become shorter. */
const STILL_CLOSING: readonly string[] = [];

const named = (i: Import) => `${i.file.slice(HOME.length)} → ${i.target.slice(HOME.length)}`;

/** The ways round: each a set of files that reach one another (Tarjan's strongly connected components). */
function circles(edges: readonly (readonly [string, string])[]): string[][] {
  const next = new Map<string, Set<string>>();
  for (const [from, to] of edges) next.set(from, (next.get(from) ?? new Set()).add(to));
  const found: string[][] = [];
  const index = new Map<string, number>();
  const low = new Map<string, number>();
  const open: string[] = [];
  const visit = (v: string): void => {
    index.set(v, index.size);
    low.set(v, index.get(v)!);
    open.push(v);
    for (const w of next.get(v) ?? []) {
      if (!index.has(w)) visit(w);
      if (open.includes(w)) low.set(v, Math.min(low.get(v)!, low.get(w)!));
    }
    if (low.get(v) !== index.get(v)) return;
    const ring = open.splice(open.indexOf(v));
    if (ring.length > 1 || next.get(v)?.has(v)) found.push(ring.sort());
  };
  for (const v of next.keys()) if (!index.has(v)) visit(v);
  return found;
}

/** The folders that a file lies in, below `HOME`. */
function above(file: string): string[] {
  const parts = file.slice(HOME.length).split('/').slice(0, -1);
  return [HOME.slice(0, -1), ...parts.map((_, i) => HOME + parts.slice(0, i + 1).join('/'))];
}

/** What the parts of a folder take of one another. */
function within(folder: string, imports: readonly Import[]): (readonly [string, string])[] {
  const part = (file: string) => file.slice(folder.length + 1).split('/')[0]!;
  const own = imports.filter((i) => [i.file, i.target].every((file) => file.startsWith(`${folder}/`)));
  return own.map((i) => [part(i.file), part(i.target)] as const).filter(([from, to]) => from !== to);
}

describe('who imports whom', function () {
  this.timeout(120_000);
  let inside: readonly Import[] = [];
  before(() => {
    inside = theSource().imports.filter((i) => i.file.startsWith(HOME) && i.target.startsWith(HOME));
    assert.ok(inside.length > 2000, 'the imports were read');
  });

  it('goes round in no circle, not by types either', () => {
    const edges = inside.filter((i) => !STILL_CLOSING.includes(named(i)));
    assert.deepEqual(circles(edges.map((i) => [i.file, i.target])), []);
  });

  it('knows a circle when it sees one', () => {
    const edges = ['ab', 'bc', 'ca', 'cd', 'ee'].map((e) => [e[0]!, e[1]!] as const);
    assert.deepEqual(circles(edges), [['a', 'b', 'c'], ['e']]);
  });

  it('has no exception that is needed no more', () => {
    const there = new Set(inside.map(named));
    const gone = STILL_CLOSING.filter((e) => !there.has(e));
    assert.deepEqual(gone, [], 'take these out of STILL_CLOSING');
  });

  it('goes down the folders of a floor', () => {
    const wrong = inside.filter((i) => {
      const [floor, from] = i.file.slice(HOME.length).split('/');
      const [target, to] = i.target.slice(HOME.length).split('/');
      const order = floor === target ? FOLDERS[floor!] : undefined;
      return order?.includes(from!) && order.indexOf(to!) > order.indexOf(from!);
    });
    assert.deepEqual(wrong.map(named), []);
  });

  it('goes round in no circle of folders either: in each folder, its files and its folders taken as one each', () => {
    const folders = new Set(inside.flatMap((i) => above(i.file)));
    assert.ok(folders.size > 20);
    const round = [...folders].filter((folder) => circles(within(folder, inside)).length > 0);
    assert.deepEqual(round.sort(), STILL_ROUND.map((f) => `${HOME}${f}`).sort());
  });

  it('has a place in the order for every folder', () => {
    for (const [floor, order] of Object.entries(FOLDERS)) {
      const files = theSource().files.filter((f) => f.startsWith(`${HOME}${floor}/`));
      const folders = files.map((f) => f.split('/')).flatMap((p) => (p.length > 4 ? [p[3]!] : []));
      assert.deepEqual([...new Set(folders)].sort(), [...order].sort());
    }
  });

  it('reads a dimension once: behind the model nobody parses its text again', () => {
    const parsers = new Set(['parseDimension', 'cutTolerance', 'toleranceLimits', 'evaluate']);
    const wrong = inside.filter(
      (i) => i.names.some((name) => parsers.has(name)) && !/^(?:text|model)\//.test(i.file.slice(HOME.length)),
    );
    assert.deepEqual(wrong.map(named), []);
  });

  it('tests nothing through a test: the server knows none', () => {
    const wrong = theSource().imports.filter(
      (i) => /^(?:server|client)\//.test(i.file) && i.target.startsWith('tests/'),
    );
    assert.deepEqual(wrong, []);
  });
});
