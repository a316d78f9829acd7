/**
 * The first part, with keys alone: from an empty file, every word of the format taken from the list by Enter or Tab; typed are
 * names, numbers and the letters that find a word in the list. Nothing is asked of the editor's own interface but the text.
 */
import { strict as assert } from 'node:assert';
import { type TextDocument, workspace } from 'vscode';
import { file, findings, putAway, settled, show } from './editor';
import { accept, present, press, screenshot, type } from './person';

const FOCUSED = '.suggest-widget.visible .monaco-list-row.focused .label-name';

/** Types until the list stands at the word, and takes it. */
async function take(letters: string, word: string): Promise<void> {
  if (letters) await type(letters);
  await accept(FOCUSED, word);
}

/** A key and its word, on the line where the cursor is; then a new line. */
async function entry(letters: string, key: string, value: string, word = value): Promise<void> {
  await take(letters, key);
  await take(value, word);
  await press('Enter');
}

/** A starter: its name, its face from the list, then what its stops ask for in order; the cursor ends behind it. */
async function starter(letters: string, label: string, name: string, stops: readonly (string | undefined)[]) {
  await take(letters, label);
  await type(name);
  for (const stop of stops) {
    await press('Tab');
    if (stop === undefined) continue;
    await type(stop);
    if (!/^[a-z]/.test(stop)) continue;
    await accept(FOCUSED, stop);
  }
  await press('Escape');
  await press('Escape');
}

/** To a new line at the end, as far in as asked. */
async function endLine(indent: number): Promise<void> {
  await press('Control+End');
  await press('Enter');
  await press('Shift+Home');
  if (indent === 0) await press('Delete');
  else await type(' '.repeat(indent));
}

const textOf = (document: TextDocument, wanted: RegExp) =>
  settled(
    async () => document.getText(),
    (text) => wanted.test(text),
  );

describe('a first part', () => {
  afterEach(async function () {
    if (this.currentTest?.state === 'failed') await screenshot('first-part-failed');
    await putAway();
  });

  it('is written from an empty file with keys alone, twelve features on three faces, and held', async function () {
    if (!present) this.skip();
    this.timeout(120_000);
    const uri = file('first.part.yaml');
    await workspace.fs.writeFile(uri, new Uint8Array());
    const { document } = await show('first.part.yaml');
    await press('Control+Space');
    await take('', 'part');
    await type('camera-tray');
    await press('Enter');
    await entry('un', 'units', '', 'mm');
    await entry('mat', 'material', '6061-t6', 'aluminium-6061-t6');
    await take('bod', 'body');
    for (const size of ['80', '50', '16']) {
      await type(size);
      await press('Tab');
    }
    await press('Enter');
    await take('fea', 'features');
    await press('Enter');
    await screenshot('first-part-features');
    // Its own lines, key by key.
    await type('seat:');
    await press('Enter');
    await entry('ki', 'kind', 'ho', 'hole');
    await entry('fa', 'face', 'to', 'top');
    await take('at', 'at');
    await press('Tab');
    await press('Tab');
    await press('Enter');
    await take('dia', 'diameter');
    await type('22 H7');
    await press('Enter');
    await take('dep', 'depth');
    await type('7');
    await press('Enter');
    await entry('bo', 'bottom', 'fl', 'flat');
    // And starters, filled in.
    const holes = [
      ['mount-a', 'top', '8', '8'],
      ['mount-b', 'top', '72', '42'],
      ['cable-a', 'front', '15', '8'],
      ['cable-b', 'front', '65', '8'],
      ['sensor-a', 'right', '12', '8'],
      ['sensor-b', 'right', '38', '8'],
    ] as const;
    for (const [name, face, a, b] of holes) {
      await endLine(2);
      await starter('new tap', 'new tapped hole', name, [face === 'top' ? undefined : face, a, b]);
    }
    for (const [name, x] of [
      ['vent-a', '26'],
      ['vent-b', '54'],
    ] as const) {
      await endLine(2);
      await starter('new dri', 'new drilled hole', name, [undefined, x, '8']);
    }
    await endLine(2);
    await starter('new slot', 'new slot', 'slot', [undefined, '30', '43', '50', '43']);
    await endLine(2);
    await starter('new scr', 'new screw hole', 'post', [undefined, '8', '42']);
    await endLine(2);
    await starter('new cha', 'new chamfer', 'rim', []);
    await screenshot('first-part-twelve');
    const text = await textOf(document, /rim:\n(?:.*\n)*.*size: 0\.5/);
    assert.match(text, /at: \{ x: 15, z: 8 \}/);
    assert.match(text, /at: \{ y: 12, z: 8 \}/);
    // How it is held, from the list.
    await endLine(0);
    await take('setu', 'setups');
    await press('Enter');
    await type('first:');
    await press('Enter');
    await entry('up', 'up', 'to', 'top');
    await take('ho', 'hold');
    await press('Control+End');
    await press('Enter');
    await take('ze', 'zero');
    await press('Control+End');
    await press('Enter');
    await take('cu', 'cuts');
    await take('', '[seat, mount-a, mount-b, vent-a, vent-b, slot, post, rim]');
    await screenshot('first-part-held');
    const found = await findings(
      document,
      (d) => d.every((one) => !/^form\//.test(String(codeOf(one.code)))),
      'unread',
    );
    assert.deepEqual(
      found.filter((d) => /^form\//.test(String(codeOf(d.code)))).map((d) => d.message),
      [],
    );
    const names = [...document.getText().matchAll(/^ {2}([a-z-]+):$/gm)].map((m) => m[1]);
    assert.equal(names.length, 13, names.join(', '));
    assert.doesNotMatch(document.getText(), /\t|mmm|: [a-z-]+:[a-z]/);
    await press('ControlOrMeta+S');
    await settled(
      async () => document.isDirty,
      (dirty) => !dirty,
    );
    await workspace.fs.delete(uri);
  });
});

function codeOf(code: unknown): unknown {
  return typeof code === 'object' && code !== null && 'value' in code ? code.value : code;
}
