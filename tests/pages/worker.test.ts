/**
 * The browser's language server says what the command line says: findings of every part of the gimbal, hover, a fix, a plan,
 * a picture, a file to export, and a shop that is found in the folder above. `npm run build` first.
 */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Browser } from 'playwright-core';
import { bytesOf } from '../../server/src/geometry/mesh/base64';
import { checkPart, checkShop } from '../../server/src/rules/check';
import { ruleByName } from '../../server/src/rules/registry';
import { EXPORT, type ExportAnswer } from '../../server/src/service/export-protocol';
import { PLAN } from '../../server/src/service/plan/answer';
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

  it('writes a file of triangles, and no format that it lacks', async () => {
    const answer = await server.request<ExportAnswer>(EXPORT, { uri: BLOCK, name: 'block.stl' });
    assert.ok('base64' in answer && answer.base64.length > 10_000, JSON.stringify(answer).slice(0, 200));
    const step = await server.request<ExportAnswer>(EXPORT, { uri: BLOCK, name: 'block.pdf' });
    assert.ok('trouble' in step, 'a PDF was made without fonts');
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
