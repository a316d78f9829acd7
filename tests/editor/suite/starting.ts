/** Starting a shop and a job from nothing, and what the editor's settings leave beside the text and in hovers. */
import { strict as assert } from 'node:assert';
import {
  commands,
  type Diagnostic,
  DiagnosticSeverity,
  type InlayHint,
  Range,
  type TextDocument,
  window,
  workspace,
} from 'vscode';
import { endOf, file, findings, hoverText, ofPages, putAway, settled, show } from './editor';
import { answers, present, press, read, screenshot, sees } from './person';

const LINE = '.quick-input-widget';

/** The document of that name, once it is in view. */
async function begun(name: string): Promise<TextDocument> {
  const found = await settled(
    async () => window.activeTextEditor?.document,
    (document) => document?.uri.path.endsWith(`/${name}`) === true,
  );
  assert.ok(found, `${name} was not opened`);
  assert.ok(found.uri.path.endsWith(`/${name}`), `${found.uri.path} is in view, not ${name}`);
  assert.equal(found.isDirty, false, `${name} asks to be saved`);
  return found;
}

/** Nothing weighs on it: a letter too many is told, and when it is taken back nothing more than a hint or a note stands. */
async function isSound(document: TextDocument, key: string): Promise<void> {
  const at = endOf(document, key);
  await window.activeTextEditor!.edit((edit) => edit.insert(at, 'x'));
  await findings(document, (found) => found.some(weighs), `an x after ${key} is not told`);
  await commands.executeCommand('undo');
  await findings(document, (found) => !found.some(weighs), 'it does not begin sound');
}

const weighs = ({ severity }: Diagnostic) => severity <= DiagnosticSeverity.Warning;

describe('starting', () => {
  before(function () {
    // Only a browser has somebody to answer.
    if (!present) this.skip();
  });
  afterEach(putAway);

  ofPages('a job: its parts are those of the folder, and it is sound as it stands', async () => {
    await show('bearing-block.part.yaml');
    await sees('.statusbar', /cut away/);
    const asked = commands.executeCommand('scribeline.newJob', file('.'));
    await answers(/What the parts are made for/, 'flight-set');
    await sees(LINE, /Which parts are made together[\s\S]*bearing-block\.part\.yaml/);
    await press('Enter');
    await asked;
    const document = await begun('flight-set.job.yaml');
    // Figures are a part's: of anything else there are none.
    const bar = await settled(
      () => read('.statusbar'),
      (words) => !/cut away/.test(words),
    );
    assert.doesNotMatch(bar, /cut away/);
    for (const spec of ['bearing-block', 'camera-tray'])
      assert.match(
        document.getText(),
        new RegExp(`^ {2}${spec}: \\{ spec: ${spec}\\.part\\.yaml, quantity: 1 \\}$`, 'm'),
      );
    await isSound(document, '\nparts:');
    await workspace.fs.delete(document.uri);
  });

  ofPages('a shop: asked for what is there, by its sections', async () => {
    await show('bearing-block.part.yaml');
    const asked = commands.executeCommand('scribeline.newShop', file('.'));
    await answers(/Name of the workshop/, 'cellar');
    await sees(LINE, /What is there\? Untick what is not/);
    await screenshot('new-shop');
    await press('Enter');
    await asked;
    const document = await begun('cellar.shop.yaml');
    for (const section of ['shop: cellar', 'machines:', 'vises:', 'tools:', 'rack:'])
      assert.ok(document.getText().includes(`\n${section}`) || document.getText().startsWith(section), section);
    await isSound(document, '\nvises:');
    await workspace.fs.delete(document.uri);
  });
});

describe('beside the text', () => {
  const settings = () => workspace.getConfiguration('scribeline');
  const NAMES = ['besideText.values', 'besideText.sizes', 'besideText.cutting'] as const;
  afterEach(async () => {
    for (const name of NAMES) await settings().update(name, undefined, true);
    await putAway();
  });

  const hints = async (document: TextDocument, wanted: (found: readonly string[]) => boolean) =>
    settled(async () => {
      const range = new Range(0, 0, document.lineCount, 0);
      const all = await commands.executeCommand<InlayHint[]>('vscode.executeInlayHintProvider', document.uri, range);
      return (all ?? []).map(({ label }) => (typeof label === 'string' ? label : label.map((l) => l.value).join('')));
    }, wanted);

  it('stands what each setting asks for: off, on hover, on', async () => {
    const editor = await show('bearing-block.part.yaml');
    const { document } = editor;
    await editor.edit((edit) => edit.replace(document.validateRange(rangeOf(document, 'depth: 7')), 'depth: 14 / 2'));
    const worked = /^= 7/;
    const usual = await hints(document, (found) => found.some((l) => worked.test(l)));
    assert.ok(
      usual.some((l) => worked.test(l)),
      usual.join(' | '),
    );
    assert.ok(!usual.some((l) => /em-10/.test(l)), 'what cuts it comes on hover');
    const at = endOf(document, 'bearing-sea');
    assert.match(await hoverText(document, at), /Cut with/);

    await settings().update('besideText.cutting', 'on', true);
    const more = await hints(document, (found) => found.some((l) => /em-10/.test(l)));
    assert.ok(
      more.some((l) => /em-10/.test(l)),
      more.join(' | '),
    );

    await settings().update('besideText.values', 'hover', true);
    const fewer = await hints(document, (found) => !found.some((l) => worked.test(l)));
    assert.ok(!fewer.some((l) => worked.test(l)), fewer.join(' | '));
    const sum = endOf(document, '14 /');
    assert.match(await hoverText(document, sum), /\b7 mm/);

    for (const name of NAMES) await settings().update(name, 'off', true);
    assert.deepEqual(await hints(document, (found) => found.length === 0), []);
    const silent = await settled(
      () => hoverText(document, at),
      (text) => !/Cut with/.test(text),
    );
    assert.doesNotMatch(silent, /Cut with/);
    assert.match(silent, /bearing-seat/);
    assert.doesNotMatch(await hoverText(document, sum), /\b7 mm/);
  });
});

function rangeOf(document: TextDocument, text: string): Range {
  const end = endOf(document, text);
  return new Range(end.translate(0, -text.length), end);
}
