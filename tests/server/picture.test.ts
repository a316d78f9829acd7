/** The part view's side of the built server: pictures made by the worker thread, and measures between their faces. */
import assert from 'node:assert/strict';
import type { Measured, PartPicture } from '../../server/src/service/view/protocol';
import { Client } from './client';

const URI = 'file:///nowhere/plate.part.yaml';
const PART = `part: plate
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  seat: { kind: hole, face: top, at: { x: 20, y: 20 }, diameter: 22, depth: 7, bottom: flat }
  pin: { kind: hole, face: top, at: { x: 48, y: 20 }, diameter: 5, depth: through }
  edges: { kind: chamfer, face: top, edges: [top], size: 0.5 }
`;

describe('pictures over a connection', () => {
  let client: Client;
  before(async () => {
    client = await Client.start();
  });
  beforeEach(() => client.open(URI, PART));
  after(async () => {
    assert.equal(await client.stop(), 0);
    assert.equal(client.stderr, '');
  });

  const picture = () => client.connection.sendRequest<PartPicture | null>('scribeline/picture', { uri: URI });
  const named = (p: PartPicture, name: string) => {
    const at = p.surfaces.findIndex((s) => s.name === name);
    assert.ok(at >= 0, `no ${name} among ${p.surfaces.map((s) => s.name).join(', ')}`);
    return at;
  };

  it('shows the part with named faces', async () => {
    const p = await picture();
    assert.ok(p);
    assert.equal(p.version, 1);
    assert.deepEqual(
      p.features.map((f) => f.name),
      ['seat', 'pin', 'edges'],
    );
    for (const name of ['top', 'bottom', 'wall of seat', 'floor of seat', 'wall of pin', 'chamfer of edges'])
      named(p, name);
    const triangles = Buffer.from(p.mesh.triangles, 'base64').length / 12;
    assert.ok(triangles > 100);
    assert.equal(Buffer.from(p.mesh.surfaceOf, 'base64').length / 4, triangles);
    assert.match(p.summary, /3 features: 2 holes and chamfer|3 features/);
  });

  it('follows an edit, and measures in the version that was shown', async () => {
    const before = (await picture())!;
    client.replace(URI, 'x: 48', 'x: 50');
    const after = (await picture())!;
    assert.equal(after.version, 2);
    const measure = (p: PartPicture) =>
      client.connection.sendRequest<Measured | null>('scribeline/measure', {
        uri: URI,
        version: p.version,
        a: named(p, 'wall of seat'),
        atA: [31, 20, 12],
        b: named(p, 'wall of pin'),
        atB: [50.5, 20, 12],
      });
    assert.equal((await measure(before))?.text, 'axes 28 mm apart, 14.5 mm between the walls');
    assert.equal((await measure(after))?.text, 'axes 30 mm apart, 16.5 mm between the walls');
  });

  it('shows a part whose text was swallowed by a quotation mark, name and all', async () => {
    const uri = 'file:///nowhere/swallowed.part.yaml';
    client.open(
      uri,
      "body: { x: 96, y: 72, z: 16 }\nfeatures:\n  seat-0: # bearing\n  '  kind: hole\n\n    depth: through",
    );
    const shown = await client.connection.sendRequest<PartPicture>('scribeline/picture', { uri });
    assert.equal(shown.surfaces.length, 6);
    assert.ok(shown.findings.length > 0);
  });

  it('answers null where there is nothing to show', async () => {
    client.replace(URI, 'body: { x: 60, y: 40, z: 16 }', '');
    assert.equal(await picture(), null);
  });
});
