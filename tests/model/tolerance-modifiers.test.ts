/** Projected and common zones, between two, datum targets: read, printed behind the value (ISO 1101), or refused in words. */
import assert from 'node:assert/strict';
import { resolvePart } from '../../server/src/model/part';
import { toleranceFrame } from '../../server/src/sheet/part/frames';
import { readText } from '../../server/src/text/read';

const text = (tolerance: string, datums = '{ A: bottom }') =>
  `part: plate\nbody: { x: 40, y: 30, z: 12 }\nfeatures:\n  holes: { kind: hole, face: top, at: { x: center, y: center }, pattern: { line: { x: 20, count: 2 } }, diameter: 6, depth: through }\ndatums: ${datums}\ntolerances:\n  - { ${tolerance} }\n`;
const read = (...of: Parameters<typeof text>) => resolvePart(readText(text(...of)));
const said = (...of: Parameters<typeof text>) =>
  read(...of)
    .problems.map((p) => p.message)
    .join();

describe('what stands behind a geometric tolerance', () => {
  it('is read', () => {
    const [t] = read('position: 0.1, of: holes, datums: [A], projected: 12, note: with the pin').tolerances;
    assert.equal(t?.projected?.mm, 12);
    assert.equal(t?.note, 'with the pin');
    assert.equal(read('flatness: 0.1, of: [top, bottom], zone: common').tolerances[0]?.commonZone, true);
    const [profile] = read('profile: 0.1, of: front, between: [left, right]').tolerances;
    assert.deepEqual(
      profile?.between?.map((n) => n.name),
      ['left', 'right'],
    );
  });

  it('is in its frame', () => {
    const width = (tolerance: string) => {
      const part = read(tolerance);
      return toleranceFrame(part.tolerances[0]!, part)!.w;
    };
    const bare = width('position: 0.1, of: holes, datums: [A]');
    assert.ok(width('position: 0.1, of: holes, datums: [A], projected: 12') > bare + 2);
    assert.ok(width('position: 0.1, of: holes, datums: [A], zone: common') > bare + 2);
  });

  it('is refused where it means nothing', () => {
    assert.match(said('flatness: 0.1, of: top, projected: 3'), /Only the zone of a `position`/);
    assert.match(said('flatness: 0.1, of: top, zone: common'), /One face has one zone/);
    assert.match(said('flatness: 0.1, of: top, between: [left, right]'), /limits a `profile`/);
    assert.match(said('profile: 0.1, of: front, between: [left]'), /between two things/);
    assert.match(
      said('flatness: 0.1, of: top', '{ A: { on: bottom, targets: [1] } }'),
      /Datum targets are not understood/,
    );
  });
});
