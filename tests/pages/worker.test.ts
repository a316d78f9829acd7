/**
 * The browser's language server says what the command line says: findings of every part of the gimbal, hover, a fix, a plan,
 * a picture, a file to export, and a shop that is found in the folder above. `npm run build` first.
 */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Browser } from 'playwright-core';
import { version } from '../../package.json';
import { bytesOf } from '../../server/src/geometry/mesh/base64';
import { markOf } from '../../server/src/node/mark';
import { WRITERS } from '../../server/src/node/writers';
import { checkPart, checkShop } from '../../server/src/rules/check';
import { ruleByName } from '../../server/src/rules/registry';
import { COMPARE, type CompareAnswer } from '../../server/src/service/compare-protocol';
import { formatsOf } from '../../server/src/service/export';
import { EXPORT, type ExportAnswer, FORMATS, type Format } from '../../server/src/service/export-protocol';
import { PLAN } from '../../server/src/service/plan/answer';
import { NO_GIT } from '../../server/src/service/revisions';
import { SHEET } from '../../server/src/service/sheet-protocol';
import { type PartPicture, PICTURE } from '../../server/src/service/view/protocol';
import { getBrowser } from '../editor/host';
import { launch } from './page';
import { WebServer } from './worker';

const GIMBAL = resolve(__dirname, '../../examples/gimbal');
const AT = 'vscode-vfs://host/team/gimbal';
const FOLDERS = ['.', 'parts', 'faulty'];
const files = new Map(
  FOLDERS.flatMap((folder) =>
    readdirSync(join(GIMBAL, folder))
      .filter((name) => name.endsWith('.yaml'))
      .map((name): [string, string] => [
        `${AT}/${folder === '.' ? '' : `${folder}/`}${name}`,
        readFileSync(join(GIMBAL, folder, name), 'utf8'),
      ]),
  ),
);
const campus = checkShop(files.get(`${AT}/campus.shop.yaml`)!).shop;
const parts = [...files.keys()].filter((file) => file.endsWith('.part.yaml'));
const BLOCK = `${AT}/parts/bearing-block.part.yaml`;

/** What a file of each format begins with. */
const BEGINS: Readonly<Record<string, RegExp>> = {
  step: /^ISO-10303-21;/,
  stl: /^[\s\S]{84}/,
  '3mf': /^PK/,
  dxf: /^\s*(?:0|999)\r?\n/,
  svg: /^<(?:\?xml|svg)/,
  html: /^<!DOCTYPE html>/,
  pdf: /^%PDF-1\.7/,
};

interface Diagnostic {
  readonly code: string;
  readonly message: string;
  readonly range: object;
}

describe('the language server in a browser', function () {
  this.timeout(300_000);
  let browser: Browser;
  let server: WebServer;
  before(async () => {
    browser = await launch(await getBrowser(() => {}));
    server = await WebServer.start(browser, files);
    const told = await server.request<{ readonly serverInfo: { readonly name: string } }>('initialize', {
      processId: null,
      rootUri: null,
      capabilities: {},
      workspaceFolders: [{ uri: AT, name: 'gimbal' }],
    });
    assert.equal(told.serverInfo.name, 'scribeline');
    await server.notify('initialized', {});
  });
  after(() => browser?.close());

  const open = (uri: string, text = files.get(uri)!) =>
    server.notify('textDocument/didOpen', { textDocument: { uri, languageId: 'scribeline-part', version: 1, text } });
  const found = async (uri: string) =>
    (
      await server.request<{ readonly items: readonly Diagnostic[] }>('textDocument/diagnostic', {
        textDocument: { uri },
      })
    ).items;
  const placeOf = (text: string, words: string) => {
    const before = text.slice(0, text.indexOf(words)).split('\n');
    return { line: before.length - 1, character: before.at(-1)!.length };
  };

  for (const uri of parts)
    it(`finds in ${uri.slice(AT.length + 1)} what the command line finds`, async () => {
      await open(uri);
      const told = (await found(uri)).map((d) => `${d.code}: ${d.message}`).sort();
      const own = checkPart(files.get(uri)!, campus)
        .findings.map((f) => `${f.rule}: ${f.message}`)
        .sort();
      // What the planner or a job finds besides is not asked of the rules alone.
      const besides = told.filter((line) => !own.includes(line));
      assert.deepEqual(
        besides.filter((line) => !['plan', 'job'].includes(ruleByName(line.split(':')[0]!)?.when ?? '')),
        [],
      );
      assert.equal(told.length - besides.length, own.length, told.join('\n'));
    });

  it('says on hover what a fit allows', async () => {
    const position = placeOf(files.get(BLOCK)!, '22 H7');
    const hover = await server.request<{ readonly contents: { readonly value: string } }>('textDocument/hover', {
      textDocument: { uri: BLOCK },
      position,
    });
    assert.match(hover.contents.value, /22\.021 mm/);
  });

  it('offers fixes that were tried', async () => {
    const uri = `${AT}/faulty/thin-walls.part.yaml`;
    const wall = (await found(uri)).find((d) => d.code === 'wall/thin')!;
    const actions = await server.request<readonly { readonly title: string }[]>('textDocument/codeAction', {
      textDocument: { uri },
      range: wall.range,
      context: { diagnostics: [wall] },
    });
    assert.ok(
      actions.some((a) => a.title === 'Make under-cell 5.2 mm deep'),
      actions.map((a) => a.title).join('; '),
    );
  });

  it('plans set-ups', async () => {
    const plan = await server.request<unknown>(PLAN, { uri: BLOCK });
    assert.match(JSON.stringify(plan), /3 set-ups/);
  });

  it('draws the part, the latest text', async () => {
    const draw = () => server.request<PartPicture>(PICTURE, { uri: BLOCK, since: undefined });
    const picture = await draw();
    const positions = new Float32Array(bytesOf(picture.mesh!.positions));
    const widest = (values: readonly number[]) => Math.max(...values) - Math.min(...values);
    const along = (axis: number) => widest([...positions].filter((_, i) => i % 3 === axis));
    for (const [axis, size] of [60, 40, 16].entries()) assert.ok(Math.abs(along(axis) - size) < 1e-3, `${along(axis)}`);
  });

  it('plans and draws in workers of their own', () => {
    assert.ok(server.workers >= 3, `${server.workers}: the server, the questions beside it, the meshes`);
  });

  it('writes every format that the editor on a desktop writes', async () => {
    const formats = await server.request<readonly Format[]>(FORMATS, null);
    assert.deepEqual(formats, formatsOf(WRITERS));
    const own = { checked: checkPart(files.get(BLOCK)!, campus), creator: 'test', when: new Date() };
    const exact = await WRITERS[0]!.write(own);
    const dataOf = (step: string) => step.slice(step.indexOf('DATA;'));
    for (const { extensions, drawing } of formats) {
      const answer = await server.request<ExportAnswer>(EXPORT, {
        uri: BLOCK,
        name: `block.${extensions[0]}`,
        drawing,
      });
      assert.ok('base64' in answer, `${extensions[0]}: ${JSON.stringify(answer).slice(0, 200)}`);
      const text = Buffer.from(answer.base64, 'base64').toString('latin1');
      assert.match(text, BEGINS[extensions[0]!]!, extensions[0]);
      // The header tells the hour.
      if (extensions[0] === 'step') assert.equal(dataOf(text), dataOf(new TextDecoder().decode(exact.bytes)));
    }
  });

  it('prints the sheet as a PDF, under the mark that the command line prints', async () => {
    const asked = { uri: BLOCK, paper: 'a4', language: 'en' };
    const pdf = await server.request<{ readonly base64?: string }>(SHEET, { ...asked, as: 'pdf' });
    assert.match(Buffer.from(pdf.base64!, 'base64').toString('latin1'), /^%PDF-1\.7[\s\S]*%%EOF\s*$/);
    const drawn = await server.request<{ readonly data: readonly string[] }>(SHEET, { ...asked, as: 'svg' });
    const mark = markOf([version, files.get(BLOCK)!, files.get(`${AT}/campus.shop.yaml`)!]);
    assert.ok(drawn.data.join('').includes(mark), `no ${mark}`);
  });

  it('compares two files that are there, and says why it has no revisions of git', async () => {
    const after = { uri: BLOCK, title: 'now' };
    const other = `${AT}/faulty/thin-walls.part.yaml`;
    const two = await server.request<CompareAnswer>(COMPARE, { before: { uri: other, title: 'other' }, after });
    assert.ok('compared' in two && two.compared.changes.length > 0, JSON.stringify(two).slice(0, 200));
    const before = { uri: BLOCK, revision: 'HEAD', title: 'then' };
    const old = await server.request<CompareAnswer>(COMPARE, { before, after, trusted: true });
    assert.deepEqual(old, { trouble: NO_GIT });
  });

  it('works as well where a browser lets no worker start another, but for STEP, which it refuses in a sentence', async () => {
    const alone = await WebServer.start(browser, files, false);
    try {
      await alone.request('initialize', {
        processId: null,
        rootUri: null,
        capabilities: {},
        workspaceFolders: [{ uri: AT, name: 'gimbal' }],
      });
      await alone.notify('initialized', {});
      const plan = await alone.request<unknown>(PLAN, { uri: BLOCK });
      assert.match(JSON.stringify(plan), /3 set-ups/);
      const picture = await alone.request<PartPicture>(PICTURE, { uri: BLOCK, since: undefined });
      assert.ok(picture.mesh);
      assert.equal(alone.workers, 1);
      const step = await alone.request<ExportAnswer>(EXPORT, { uri: BLOCK, name: 'block.step' });
      assert.match(
        'trouble' in step ? step.trouble : '',
        /^STEP is made in a worker of its own, and this browser allows none/,
      );
    } finally {
      await alone.close();
    }
  });

  it('read nothing but documents of the folder, and asked no address', () => {
    assert.deepEqual(server.asked, []);
    assert.ok(server.read.includes(`${AT}/campus.shop.yaml`));
    assert.deepEqual(
      server.read.filter((name) => !name.startsWith(AT)),
      [],
    );
    assert.deepEqual(
      server.logged.filter((line) => /failure|worker:|page:|Error/.test(line)),
      [],
    );
  });
});
