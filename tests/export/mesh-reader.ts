/** Readers of mesh files for the tests, written from the formats' descriptions; nothing of the writers is used. */
import assert from 'node:assert/strict';
import { inflateRawSync } from 'node:zlib';

export type Point = readonly [number, number, number];

export interface ReadMesh {
  readonly points: readonly Point[];
  readonly triangles: readonly (readonly [number, number, number])[];
}

/** Every edge is walked as often one way as the other, and only twice. */
export function assertWatertight({ points, triangles }: ReadMesh): void {
  const edges = new Map<string, [number, number]>();
  const name = (i: number) => points[i]!.join(' ');
  for (const t of triangles) {
    for (let k = 0; k < 3; k++) {
      const [a, b] = [name(t[k]!), name(t[(k + 1) % 3]!)];
      assert.notEqual(a, b, 'a triangle without area');
      const key = a < b ? `${a} | ${b}` : `${b} | ${a}`;
      const [there, back] = edges.get(key) ?? [0, 0];
      edges.set(key, a < b ? [there + 1, back] : [there, back + 1]);
    }
  }
  const bad = [...edges].filter(([, [there, back]]) => there !== back);
  assert.deepEqual(bad.slice(0, 3), [], `${bad.length} of ${edges.size} edges are open`);
}

/** By the divergence theorem: a sixth of the sum of the corners' triple products. */
export function volumeOf({ points, triangles }: ReadMesh): number {
  let six = 0;
  for (const [i, j, k] of triangles) {
    const [a, b, c] = [points[i]!, points[j]!, points[k]!];
    six += a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
  }
  return six / 6;
}

/** A zip archive by its central directory (PKWARE APPNOTE 4.3.12). */
export function readZip(bytes: Uint8Array): Map<string, string> {
  const b = Buffer.from(bytes);
  const end = b.lastIndexOf(Buffer.from([0x50, 0x4b, 5, 6]));
  assert.ok(end >= 0, 'no end of central directory');
  const files = new Map<string, string>();
  let at = b.readUInt32LE(end + 16);
  for (let n = b.readUInt16LE(end + 10); n > 0; n--) {
    assert.equal(b.readUInt32LE(at), 0x02014b50);
    const [method, packed, nameLength] = [b.readUInt16LE(at + 10), b.readUInt32LE(at + 20), b.readUInt16LE(at + 28)];
    const local = b.readUInt32LE(at + 42);
    const name = b.toString('utf8', at + 46, at + 46 + nameLength);
    const start = local + 30 + b.readUInt16LE(local + 26) + b.readUInt16LE(local + 28);
    const raw = b.subarray(start, start + packed);
    files.set(name, (method === 0 ? raw : inflateRawSync(raw)).toString('utf8'));
    at += 46 + nameLength + b.readUInt16LE(at + 30) + b.readUInt16LE(at + 32);
  }
  return files;
}

interface Read3mf extends ReadMesh {
  readonly unit: string;
  readonly metadata: ReadonlyMap<string, string>;
  readonly name: string;
  readonly material: string | undefined;
}

/** The one object that the build of a 3MF package asks for (3MF Core Specification 1.3, chapters 2 to 4). */
export function read3mf(bytes: Uint8Array): Read3mf {
  const files = readZip(bytes);
  const target =
    /<Relationship [^>]*Target="\/([^"]+)"[^>]*Type="[^"]*3dmodel"|Type="[^"]*3dmodel"[^>]*Target="\/([^"]+)"/.exec(
      files.get('_rels/.rels')!,
    )!;
  const xml = files.get((target[1] ?? target[2])!)!;
  const said = (text: string) =>
    text.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&quot;', '"').replaceAll('&amp;', '&');
  const wanted = /<item objectid="(\d+)"/.exec(xml)![1];
  const object = new RegExp(`<object id="${wanted}"([^>]*)>([\\s\\S]*?)</object>`).exec(xml)!;
  const points = [...object[2]!.matchAll(/<vertex x="([^"]+)" y="([^"]+)" z="([^"]+)"/g)].map(
    (m): Point => [Number(m[1]), Number(m[2]), Number(m[3])],
  );
  const triangles = [...object[2]!.matchAll(/<triangle v1="(\d+)" v2="(\d+)" v3="(\d+)"/g)].map(
    (m): [number, number, number] => [Number(m[1]), Number(m[2]), Number(m[3])],
  );
  return {
    points,
    triangles,
    unit: /<model unit="([^"]+)"/.exec(xml)![1]!,
    metadata: new Map([...xml.matchAll(/<metadata name="([^"]+)">([^<]*)</g)].map((m) => [m[1]!, said(m[2]!)])),
    name: said(/name="([^"]*)"/.exec(object[1]!)![1]!),
    material: /<base name="([^"]*)"/.exec(xml)?.[1],
  };
}
