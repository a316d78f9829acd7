/** The manifest says what the code does, no more and no less: commands, languages, settings, the package's content. */
import { strict as assert } from 'node:assert';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { LANGUAGES } from '../../client/src/documents';
import { kindOf } from '../../server/src/service/documents';

const ROOT = join(__dirname, '../..');
const read = (path: string) => readFileSync(join(ROOT, path), 'utf8');
const manifest = JSON.parse(read('package.json'));
const { contributes } = manifest;
const source = readdirSync(join(ROOT, 'client/src'), { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts'))
  .map((name) => read(`client/src/${name}`))
  .join('\n');

describe('the manifest', () => {
  const declared: string[] = contributes.commands.map((c: { command: string }) => c.command).sort();

  it('declares every command that is registered, and no other', () => {
    const registered = [...source.matchAll(/registerCommand\('([^']+)'/g)].map((m) => m[1]!).sort();
    assert.ok(registered.length > 3, 'the registrations were found');
    assert.deepEqual(declared, registered);
  });

  it('puts only declared commands into menus', () => {
    const inMenus = Object.values(contributes.menus as Record<string, { command: string }[]>)
      .flat()
      .map((entry) => entry.command);
    assert.ok(inMenus.length > 0);
    for (const command of inMenus) assert.ok(declared.includes(command), command);
  });

  it('has each of our languages once, with a grammar and a configuration that are there', () => {
    const ids = contributes.languages.map((l: { id: string }) => l.id);
    assert.deepEqual(ids, [...LANGUAGES]);
    assert.deepEqual(
      contributes.grammars.map((g: { language: string }) => g.language),
      [...LANGUAGES],
    );
    for (const { configuration } of contributes.languages) assert.ok(existsSync(join(ROOT, configuration)));
    for (const { path, scopeName } of contributes.grammars) {
      assert.equal(JSON.parse(read(path)).scopeName, scopeName);
    }
  });

  it('calls a file by the same kind as the language server does', () => {
    for (const { id, filenamePatterns } of contributes.languages as { id: string; filenamePatterns: string[] }[]) {
      for (const pattern of filenamePatterns) {
        assert.equal(`scribeline-${kindOf(pattern.replace('*', 'yoke'))}`, id, pattern);
      }
    }
  });

  it('declares every setting that is read', () => {
    const settings = Object.keys(contributes.configuration.properties);
    const asked = [...source.matchAll(/\.(?:get|inspect)<[^>]+>\('([^']+)'/g)].map((m) => `scribeline.${m[1]}`);
    const own = [
      'besideText.cutting',
      'besideText.sizes',
      'besideText.values',
      'sheet.language',
      'sheet.paper',
      'shop',
    ];
    assert.deepEqual(
      [...new Set(asked)].sort(),
      own.map((name) => `scribeline.${name}`),
    );
    // The trace setting is the language client's own, by its id.
    assert.deepEqual(settings.sort(), [...new Set(asked), 'scribeline.trace.server'].sort());
  });

  it('leads a new user step by step: every step has a picture or a page, and presses what there is', () => {
    const [walk] = contributes.walkthroughs;
    assert.equal(contributes.walkthroughs.length, 1);
    const pressed: string[] = [];
    for (const { id, description, media, completionEvents = [] } of walk.steps) {
      const path: string = media.markdown ?? media.image;
      assert.ok(existsSync(join(ROOT, path)), `${id}: ${path}`);
      assert.ok(media.markdown || media.altText.length > 20, `${id}: no words for the picture`);
      const links = [...description.matchAll(/\]\(command:([^)]+)\)/g)].map((m) => m[1] as string);
      const ends = completionEvents.map((e: string) => e.replace(/^onCommand:/, ''));
      // A step is ticked off by what it asks to press.
      assert.deepEqual(ends, links, id);
      for (const command of links) assert.ok(declared.includes(command), `${id}: ${command}`);
      pressed.push(...links);
    }
    // From a part to its picture and its plan, by way of the shop; then the job.
    assert.deepEqual(
      pressed,
      ['newPart', 'newShop', 'showPartView', 'planSetups', 'newJob'].map((c) => `scribeline.${c}`),
    );
  });

  it('turns off what gets in the way of lists of our own words', () => {
    for (const language of LANGUAGES) {
      const defaults = contributes.configurationDefaults[`[${language}]`];
      assert.equal(defaults['editor.wordBasedSuggestions'], 'off', language);
      // Enter at what is written already ends the line.
      assert.equal(defaults['editor.acceptSuggestionOnEnter'], 'smart', language);
    }
  });

  it('sets editor defaults for our languages only', () => {
    const { 'workbench.editorAssociations': pages, ...ours } = contributes.configurationDefaults;
    assert.deepEqual(Object.keys(ours).sort(), LANGUAGES.map((id) => `[${id}]`).sort());
    // And shows the rules' pages as pages, wherever this extension is installed; nobody else's Markdown.
    const { publisher, name } = manifest;
    assert.deepEqual(Object.keys(pages), [`**/${publisher}.${name}-*/schemas/rules/**/*.md`]);
  });

  it('says what works in folders that are not trusted or not on a disk', () => {
    const { untrustedWorkspaces } = manifest.capabilities;
    assert.equal(untrustedWorkspaces.supported, 'limited');
    assert.ok(untrustedWorkspaces.description.length > 20);
    assert.deepEqual(untrustedWorkspaces.restrictedConfigurations, ['scribeline.shop']);
    assert.equal(manifest.capabilities.virtualWorkspaces.supported, 'limited');
    assert.ok(manifest.capabilities.virtualWorkspaces.description.length > 20);
  });
});

describe('the package', () => {
  const lines = read('.vscodeignore').split('\n');

  it('keeps everything out but what is named', () => {
    assert.ok(lines.includes('**'));
    const kept = lines.filter((line) => line.startsWith('!')).map((line) => line.slice(1));
    assert.ok(kept.includes('dist/extension.js') && kept.includes('dist/server.js'));
    assert.ok(kept.includes('dist/THIRD-PARTY-NOTICES.txt') && kept.includes('LICENSE'));
    for (const path of kept) assert.ok(!/^(node_modules|tests|server|client\/src)/.test(path), path);
  });

  it('keeps what the manifest points at', () => {
    const kept = lines.filter((line) => line.startsWith('!')).map((line) => line.slice(1).replace(/\*\*$/, ''));
    const pointed = [
      manifest.main,
      manifest.icon,
      ...contributes.languages.map((l: { configuration: string }) => l.configuration),
      ...contributes.grammars.map((g: { path: string }) => g.path),
      ...contributes.walkthroughs.flatMap((w: { steps: readonly { media: { markdown?: string; image?: string } }[] }) =>
        w.steps.map(({ media }) => media.markdown ?? media.image),
      ),
    ].filter((path): path is string => typeof path === 'string');
    for (const path of pointed) {
      const plain = path.replace(/^\.\//, '');
      assert.ok(
        kept.some((k) => plain === k || (k.endsWith('/') && plain.startsWith(k))),
        path,
      );
    }
  });
});
