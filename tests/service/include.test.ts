/** A part that includes features of another file, in an editor: which file is read, when again, and where its names lead. */
import assert from 'node:assert/strict';
import { AsideAnswers } from '../../server/src/service/beside/answers';
import { completionsAt } from '../../server/src/service/completion';
import type { Host } from '../../server/src/service/host';
import { hoverAt } from '../../server/src/service/hover';
import { definitionAt, referencesAt, renameAt } from '../../server/src/service/names';
import { linksOf } from '../../server/src/service/navigation';
import { sizesAnswer, typedAnswer } from '../../server/src/service/view/typed';
import { Workspace } from '../../server/src/service/workspace';
import { applyEdits } from '../../server/src/text/edit';
import { linesOf } from '../../server/src/text/lines';

const FACE =
  'part: face\nparameters: { d: 22 }\nbody: { x: 40, y: 40, z: 9 }\nfeatures:\n  bore: { kind: hole, face: top, at: { x: center, y: center }, diameter: d, depth: 4, bottom: flat }\n';
const YOKE =
  'part: yoke\nbody: { x: 60, y: 40, z: 16 }\ninclude:\n  motor: { from: face.part.yaml, features: [bore], prefix: m-, parameters: { d: 20 } }\nfeatures:\n  own: { kind: hole, face: top, from: m-bore, at: { x: 20, y: 20 }, diameter: 5, depth: through }\n';
const group = (from: string) => `part: p\nbody: { x: 60, y: 40, z: 16 }\ninclude:\n  g: { from: ${from} }\n`;

function world(files: Record<string, string>, roots = ['mem:///w']): Workspace {
  const host: Host = {
    log: () => undefined,
    read: async (path) => files[path],
    list: async () => [],
    documents: async () => Object.keys(files),
  };
  return new Workspace(host, { roots });
}

async function part(workspace: Workspace, path = 'mem:///w/yoke.part.yaml') {
  const snapshot = await workspace.snapshot(path);
  assert.ok(snapshot?.kind === 'part');
  return snapshot;
}

const both = () => world({ 'mem:///w/yoke.part.yaml': YOKE, 'mem:///w/face.part.yaml': FACE });

describe('a part that includes features of another', () => {
  it('has them as the editor holds that text, and again when it changes', async () => {
    const workspace = both();
    const first = await part(workspace);
    assert.deepEqual([...first.checked.part.featureByName.keys()], ['own', 'm-bore']);
    assert.equal(await part(workspace), first);
    assert.ok(workspace.isIncluded('mem:///w/face.part.yaml'));
    workspace.open('mem:///w/face.part.yaml', FACE.replace('depth: 4', 'depth: 3'));
    const second = await part(workspace);
    assert.equal(second.checked.part.featureByName.get('own')?.startMm, 3);
  });

  it('says in one sentence at the file’s name why it is not there', async () => {
    const files = {
      'mem:///w/self.part.yaml': group('self.part.yaml'),
      'mem:///w/a.part.yaml': group('b.part.yaml'),
      'mem:///w/b.part.yaml': group('a.part.yaml'),
      'mem:///w/gone.part.yaml': group('none.part.yaml'),
      'mem:///w/shop.part.yaml': group('x.shop.yaml'),
      'mem:///w/out.part.yaml': group('../far/face.part.yaml'),
      'mem:///w/broken.part.yaml': group('torn.part.yaml'),
      'mem:///w/torn.part.yaml': 'part: torn\nbody: { x: 1\n',
      'mem:///far/face.part.yaml': FACE,
    };
    const says: Readonly<Record<string, RegExp>> = {
      self: /is this part itself/,
      a: /in a circle/,
      gone: /There is no part file `none\.part\.yaml`/,
      shop: /is not a part file/,
      out: /lies outside the open folder/,
      broken: /cannot be read/,
    };
    for (const [name, expected] of Object.entries(says)) {
      const { findings, checked } = await part(world(files), `mem:///w/${name}.part.yaml`);
      const errors = findings.filter((f) => f.severity === 'error');
      assert.equal(errors.length, 1, JSON.stringify(errors.map((f) => f.message)));
      assert.match(errors[0]!.message, expected);
      const { start, end } = checked.tree.locate(errors[0]!.span);
      assert.match(checked.tree.text.slice(start, end), /yaml$/);
    }
  });

  it('ends a long row of files, and a wide one', async () => {
    const files: Record<string, string> = { 'mem:///w/p12.part.yaml': FACE };
    for (let i = 0; i < 12; i++) files[`mem:///w/p${i}.part.yaml`] = group(`p${i + 1}.part.yaml`);
    const { findings } = await part(world(files), 'mem:///w/p0.part.yaml');
    assert.match(findings.map((f) => f.message).join(), /row of more than 8 files/);
  });

  it('leads to where they stand, from their name here and there, and from the file’s name', async () => {
    const workspace = both();
    const snapshot = await part(workspace);
    for (const word of ['m-bore', 'bore]']) {
      const at = await definitionAt(workspace, snapshot, YOKE.indexOf(word) + 1);
      assert.equal(at?.uri, 'mem:///w/face.part.yaml');
      assert.deepEqual(at?.range.start, { line: 4, character: 2 });
    }
    const file = await definitionAt(workspace, snapshot, YOKE.indexOf('face.part') + 1);
    assert.equal(file?.uri, 'mem:///w/face.part.yaml');
    assert.ok((await linksOf(workspace, snapshot)).some((l) => l.target === 'mem:///w/face.part.yaml'));
    assert.match(hoverAt(snapshot, YOKE.indexOf('motor') + 1)!.contents.value, /`m-bore` \(`bore` there\): .*20/);
  });

  /** Texts after a rename at a word of one of them. */
  async function renamed(files: Record<string, string>, at: readonly [file: string, word: string], to: string) {
    const key = (name: string) => `mem:///w/${name}.part.yaml`;
    const workspace = world(Object.fromEntries(Object.entries(files).map(([name, text]) => [key(name), text])));
    const answer = await renameAt(workspace, await part(workspace, key(at[0])), files[at[0]]!.indexOf(at[1]) + 1, to);
    if (typeof answer === 'string') return answer;
    return Object.fromEntries(
      Object.entries(files).map(([name, text]) => {
        const lines = linesOf(text);
        const edits = (answer.changes![key(name)] ?? []).map(({ range, newText }) => ({
          start: lines.offset(range.start),
          end: lines.offset(range.end),
          newText,
        }));
        return [name, applyEdits(text, edits)];
      }),
    );
  }

  it('changes a name in every file that says it, and what it is called after it', async () => {
    const top = group('yoke.part.yaml').replace('from: yoke.part.yaml', 'from: yoke.part.yaml, rename: { own: mine }');
    const files = { yoke: YOKE, face: FACE, top };
    const all = await renamed(files, ['face', 'bore'], 'seat');
    assert.ok(typeof all !== 'string', String(all));
    assert.equal(all.face, FACE.replace('bore', 'seat'));
    assert.equal(all.yoke, YOKE.replace('[bore]', '[seat]').replace('from: m-bore', 'from: m-seat'));
    assert.equal(all.top, top);
    assert.deepEqual(await renamed(files, ['yoke', 'bore]'], 'seat'), all);
    const parameter = await renamed(files, ['face', 'd: 22'], 'wide');
    assert.ok(typeof parameter !== 'string', String(parameter));
    assert.equal(parameter.face, FACE.replace('d: 22', 'wide: 22').replace('diameter: d', 'diameter: wide'));
    assert.equal(parameter.yoke, YOKE.replace('{ d: 20 }', '{ wide: 20 }'));
    const own = await renamed(files, ['yoke', 'own:'], 'pin');
    assert.ok(typeof own !== 'string', String(own));
    assert.equal(own.top, top.replace('own: mine', 'pin: mine'));
    for (const texts of [all, parameter, own]) {
      const keyed = Object.entries(texts).map(([name, text]) => [`mem:///w/${name}.part.yaml`, text] as const);
      const { findings } = await part(world(Object.fromEntries(keyed)));
      assert.deepEqual(
        findings.filter((f) => f.rule.startsWith('form/')),
        [],
      );
    }
  });

  it('writes another name for what is included into its entry', async () => {
    const once = await renamed({ yoke: YOKE, face: FACE }, ['yoke', 'm-bore'], 'seat');
    assert.ok(typeof once !== 'string', String(once));
    assert.equal(once.face, FACE);
    assert.match(once.yoke!, /parameters: \{ d: 20 \}, rename: \{ bore: seat \} \}/);
    assert.match(once.yoke!, /from: seat,/);
    const twice = await renamed({ yoke: once.yoke!, face: FACE }, ['yoke', 'seat }'], 'hub');
    assert.ok(typeof twice !== 'string', String(twice));
    assert.equal(twice.yoke, once.yoke!.replaceAll('seat', 'hub'));
    assert.match(String(await renamed({ yoke: YOKE, face: FACE }, ['yoke', 'm-bore'], 'own')), /`own` already/);
    const taken = { yoke: YOKE.replace('own:', 'm-seat:'), face: FACE };
    assert.match(String(await renamed(taken, ['face', 'bore'], 'seat')), /yoke.* has `m-seat` already/);
  });

  it('ends a rename where files go in a circle', async () => {
    const files = { a: group('b.part.yaml'), b: `${group('a.part.yaml')}features:\n  own: { kind: hole }\n` };
    assert.ok(typeof (await renamed(files, ['b', 'own'], 'mine')) !== 'string');
  });

  it('finds every place that says a name, from any of them', async () => {
    const workspace = both();
    const yoke = await part(workspace);
    const face = await part(workspace, 'mem:///w/face.part.yaml');
    const at = async (snapshot: typeof yoke, word: string, all = true) =>
      (await referencesAt(workspace, snapshot, snapshot.text.indexOf(word) + 1, all))
        .map(({ uri, range }) => `${uri.slice(9, 13)} ${range.start.line}:${range.start.character}`)
        .sort();
    const places = ['face 4:2', 'yoke 3:44', 'yoke 5:38'];
    for (const [snapshot, word] of [
      [yoke, 'm-bore'],
      [yoke, 'bore]'],
      [face, 'bore'],
    ] as const)
      assert.deepEqual(await at(snapshot, word), places);
    assert.deepEqual(await at(face, 'bore', false), places.slice(1));
    assert.deepEqual(await at(face, 'd: 22'), ['face 1:14', 'face 4:73', 'yoke 3:77']);
  });

  it('offers the names there, each with what it is, less what is named already', async () => {
    const two = `${FACE}  tap: { kind: hole, face: top, at: { x: 5, y: 5 }, thread: M3, depth: 4 }\n`;
    const offered = async (entry: string) => {
      const text = `part: yoke\nbody: { x: 60, y: 40, z: 16 }\ninclude:\n  motor: { from: face.part.yaml, ${entry}\n`;
      const workspace = world({ 'mem:///w/yoke.part.yaml': text.replace('|', ''), 'mem:///w/face.part.yaml': two });
      const items = completionsAt(await part(workspace), text.indexOf('|'));
      return items.map(({ label, detail }) => `${label}: ${detail}`);
    };
    const bore = 'bore: hole on top, 22 mm, 4 mm deep';
    const tap = 'tap: hole on top, M3, 4 mm deep';
    assert.deepEqual(await offered('features: [|] }'), [bore, tap]);
    assert.deepEqual(await offered('features: [bore, |] }'), [tap]);
    assert.deepEqual(await offered('features: [bore, |'), [tap]);
    assert.deepEqual(await offered('rename: { | } }'), [bore, tap]);
    assert.deepEqual(await offered('rename: { bore: seat, | } }'), [tap]);
    assert.deepEqual(await offered('parameters: { | } }'), ['d: 22 there']);
    assert.deepEqual(await offered('place: { at: { x: center, y: 5 }, by: | } }'), [bore, tap]);
  });

  it('says what a name there is, whether it is taken or not, and leads to it', async () => {
    const two = `${FACE}  tap: { kind: hole, face: top, at: { x: 5, y: 5 }, thread: M3, depth: 4 }\n`;
    const text = YOKE.replace(
      'prefix: m-',
      'prefix: m-, rename: { tap: screw }, place: { at: { x: 9, y: 9 }, by: tap }',
    );
    const workspace = world({ 'mem:///w/yoke.part.yaml': text, 'mem:///w/face.part.yaml': two });
    const snapshot = await part(workspace);
    const on = (word: string) => hoverAt(snapshot, text.indexOf(word) + 1)!.contents.value;
    assert.match(on('bore]'), /`bore`: hole on top, 22 mm, .*`m-bore` here/);
    assert.match(on('tap }'), /`tap`: hole on top, M3, .*not taken/);
    assert.match(on('d: 20'), /`d` is `22` in face/);
    const line = async (word: string) => {
      const at = await definitionAt(workspace, snapshot, text.indexOf(word) + 1);
      return at && `${at.uri} ${at.range.start.line}`;
    };
    assert.equal(await line('tap }'), 'mem:///w/face.part.yaml 5');
    assert.equal(await line('tap: s'), 'mem:///w/face.part.yaml 5');
    assert.equal(await line('d: 20'), 'mem:///w/face.part.yaml 1');
  });

  it('is not worked out anew in the thread beside where the other file is the same', async () => {
    const { checked, path, text } = await part(both());
    const beside = new AsideAnswers(() => false);
    const { others } = checked.tree;
    const order = { path, text, shop: checked.shop, question: 'rule', told: { name: 'hole/depth-ratio' } } as const;
    const first = beside.to({ number: 1, ...order, others: structuredClone(others) });
    assert.ok(Array.isArray(first.reply));
    const second = beside.to({ number: 2, ...order, others: structuredClone(others) });
    assert.equal(second.reply, first.reply);
  });

  it('does not type over what stands in the other file', async () => {
    const snapshot = await part(both());
    const { sizes } = sizesAnswer(snapshot, 'm-bore', 1)!;
    const size = sizes.findIndex((s) => s.what === 'diameter');
    const answer = typedAnswer(snapshot, { uri: snapshot.path, feature: 'm-bore', size, text: '30', version: 1 }, 1);
    assert.deepEqual(answer, { why: 'It stands in face.part.yaml. Change it there.' });
  });
});
