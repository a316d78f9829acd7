/** The door between panel and extension: sound messages pass as they are, nothing else does. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { eyeFrom, fromHost, fromPanel, uriFrom } from '../../../client/view/messages';
import { pictureOfText } from '../../service/view/support';

const range = { start: { line: 3, character: 2 }, end: { line: 3, character: 9 } };
const SOUND_FROM_PANEL = [
  { type: 'ready' },
  { type: 'reveal', range },
  { type: 'moment' },
  { type: 'moment', moment: { setup: 1, when: 'after' } },
  { type: 'moment', moment: { setup: 1, when: 'after', pass: 3 }, planned: true },
  { type: 'measure', version: 4, a: 0, atA: [1, 2, 3], b: 7, atB: [0, 0, 0] },
  { type: 'sizes', feature: 'a' },
  { type: 'typed', feature: 'a', size: 2, text: '22 H7', version: 4 },
  { type: 'drawn', version: 4, ms: 12.5, triangles: 900 },
];

describe('messages of the part view', () => {
  it('sound ones pass both doors unchanged', async () => {
    for (const message of SOUND_FROM_PANEL) assert.deepEqual(fromPanel(message), message);
    const edges = { type: 'measure', version: 4, a: 0, atA: [1, 2, 3], b: 7, atB: [0, 0, 0], edgeA: 3, edgeB: 4 };
    assert.deepEqual(fromPanel(edges), edges);
    assert.equal(fromPanel({ ...edges, edgeA: 'x' }), undefined);
    assert.deepEqual(fromPanel({ type: 'drawing', more: 1 }), { type: 'drawing' });
    const { picture, pictures, snapshot } = (await pictureOfText('part: a\nbody: { x: 10, y: 10, z: 10 }\n'))!;
    for (const message of [
      { type: 'picture', picture },
      { type: 'told', told: await pictures.told(snapshot, 1, {}, '') },
      { type: 'stale', why: 'x' },
      { type: 'cursor', feature: 'a' },
      { type: 'cursor' },
      { type: 'measured', measured: null },
      { type: 'measured', measured: { text: '1 mm' } },
      { type: 'sizes', sizes: null },
      { type: 'sizes', sizes: { feature: 'a', version: 1, sizes: [] } },
      { type: 'refused', why: 'x' },
      { type: 'drawing', svg: '<svg/>' },
    ])
      assert.deepEqual(fromHost(message), message);
  });

  it('what was added to a message is left at the door', () => {
    assert.deepEqual(fromPanel({ type: 'ready', command: 'x' }), { type: 'ready' });
    assert.deepEqual(fromPanel({ type: 'reveal', range, uri: 'file:///etc/passwd' }), { type: 'reveal', range });
  });

  it('anything with a field missing, or of another kind, is no message', () => {
    for (const message of SOUND_FROM_PANEL.slice(1))
      for (const key of Object.keys(message)) {
        if (message.type === 'moment' && (key === 'moment' || key === 'planned')) continue;
        const broken: Record<string, unknown> = { ...message };
        delete broken[key];
        assert.equal(fromPanel(broken), undefined, `${message.type} without ${key}`);
        assert.equal(fromPanel({ ...message, [key]: {} }), undefined, `${message.type} with an empty ${key}`);
        assert.equal(fromPanel({ ...message, [key]: Number.NaN }), undefined);
      }
    assert.equal(fromPanel({ type: 'moment', moment: { setup: 1, when: 'during' } }), undefined);
    assert.equal(fromHost({ type: 'picture', picture: { version: 1 } }), undefined);
    assert.equal(fromHost({ type: 'told', told: { id: 'a', version: 1, lists: {} } }), undefined);
    assert.equal(fromHost({ type: 'measured', measured: { text: 4 } }), undefined);
  });

  it('nothing at all makes the doors fail', () => {
    fc.assert(
      fc.property(fc.anything(), (message) => {
        for (const answer of [fromPanel(message), fromHost(message)])
          assert.ok(answer === undefined || typeof answer.type === 'string');
        assert.ok(eyeFrom(message, 'u') === undefined);
        assert.ok(uriFrom(message) === undefined || typeof uriFrom(message) === 'string');
      }),
      { seed: 20261125, numRuns: 500 },
    );
  });

  it('the eye comes back for the part it was kept for, and only whole', () => {
    const eye = { aroundDeg: 10, aboveDeg: 20, reachMm: 30, at: [1, 2, 3] };
    assert.deepEqual(eyeFrom({ uri: 'u', eye }, 'u'), eye);
    assert.equal(eyeFrom({ uri: 'u', eye }, 'v'), undefined);
    assert.equal(eyeFrom({ uri: 'u', eye: { ...eye, reachMm: 0 } }, 'u'), undefined);
    assert.equal(eyeFrom({ uri: 'u', eye: { ...eye, at: [1, 2] } }, 'u'), undefined);
    assert.equal(uriFrom({ uri: 'u', eye }), 'u');
  });
});
