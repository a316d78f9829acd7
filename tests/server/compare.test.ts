/** Comparing over a real connection: revisions of a repository, and what git may not do. */
import assert from 'node:assert/strict';
import { chmodSync, existsSync, mkdirSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import {
  COMPARE,
  type CompareAnswer,
  type CompareParams,
  type CompareSide,
  REVISIONS,
  type RevisionsAnswer,
} from '../../server/src/service/compare-protocol';
import { HAS_GIT, ownFolder } from '../cli/folder';
import { Client } from './client';

const seat = (diameter: string, more = '') =>
  `part: seat\n${more}material: aluminium-6061-t6\nbody: { x: 60, y: 40, z: 16 }\nfeatures:\n  seat: { kind: hole, face: top, at: { x: center, y: center }, diameter: ${diameter}, depth: 7, bottom: flat }\n`;

const JOB = (quantity: string, limit: string) =>
  `job: set\nmass-limit: ${limit}\nparts:\n  a: { spec: parts/a.part.yaml, quantity: ${quantity} }\n  b: { spec: parts/b.part.yaml }\n`;

(HAS_GIT ? describe : describe.skip)('comparing over a connection', function () {
  this.timeout(60_000);
  const { at, write, git } = ownFolder('compare-server');
  let client: Client;
  before(async () => {
    client = await Client.start();
  });
  after(() => client.stop());

  const uri = () => pathToFileURL(at('a.part.yaml')).href;
  const side = (revision?: string): CompareSide => ({
    uri: uri(),
    title: 'a',
    ...(revision !== undefined && { revision }),
  });
  const ask = (before: CompareSide, after: CompareSide, trusted = true) =>
    client.connection.sendRequest<CompareAnswer>(COMPARE, { before, after, trusted } satisfies CompareParams);
  const history = (trusted = true) =>
    client.connection.sendRequest<RevisionsAnswer>(REVISIONS, { uri: uri(), trusted });
  const texts = (answer: CompareAnswer) => {
    assert.ok('compared' in answer, JSON.stringify(answer));
    return answer.compared.changes.filter((c) => c.section === 'Features').map((c) => `${c.word}: ${c.text}`);
  };

  const committed = () => {
    git('init', '-q', '-b', 'main');
    write('a.part.yaml', seat('32 H7'));
    git('add', '.');
    git('commit', '-qm', 'one');
    write('a.part.yaml', seat('30 H7'));
    git('commit', '-qam', 'two');
    write('a.part.yaml', seat('28 H7'));
    git('add', '.');
  };

  it('lists the revisions, and compares with one, with what is staged, and with what is typed', async () => {
    committed();
    const listed = await history();
    assert.ok('revisions' in listed, JSON.stringify(listed));
    assert.deepEqual(
      listed.revisions.map((r) => r.title),
      ['two', 'one'],
    );
    assert.match(listed.revisions[0]!.when, /^\d{4}-\d\d-\d\dT/);
    client.open(uri(), seat('26 H7'));
    const resized = (from: number) => new RegExp(`^resized: hole seat: diameter ${from} mm → 26 mm`);
    assert.match(texts(await ask(side(listed.revisions[1]!.id), side()))[0]!, resized(32));
    assert.match(texts(await ask(side('HEAD'), side()))[0]!, resized(30));
    assert.match(texts(await ask(side(''), side()))[0]!, resized(28));
    const answer = await ask(side('HEAD~1'), side('HEAD'));
    assert.ok('compared' in answer);
    assert.deepEqual(answer.texts, { before: { newText: seat('32 H7') }, after: { newText: seat('30 H7') } });
    const { before, after, went, came, changes } = answer.compared;
    assert.ok(before && after && went && came);
    // What lies between 30 and 32 mm, 7 mm deep: closed form, within what chords take off.
    const ring = (Math.PI / 4) * (32 ** 2 - 30 ** 2) * 7;
    assert.ok(Math.abs(came.volumeMm3 - ring) < 0.02 * ring, `${came.volumeMm3} of ${ring}`);
    assert.equal(went.volumeMm3, 0);
    assert.equal(changes.find((c) => c.section === 'Features')!.line?.range.start.line, 4);
  });

  it('compares a job with its revision: the job in words, and each of its parts that is another to be gone to', async () => {
    git('init', '-q', '-b', 'main');
    write('set.job.yaml', JOB('2', '300 g'));
    write('parts/a.part.yaml', seat('32 H7'));
    write('parts/b.part.yaml', seat('20'));
    git('add', '.');
    git('commit', '-qm', 'one');
    write('set.job.yaml', JOB('3', '250 g'));
    write('parts/a.part.yaml', seat('30 H7'));
    const job = { uri: pathToFileURL(at('set.job.yaml')).href, title: 'set' };
    const answer = await ask({ ...job, revision: 'HEAD' }, job);
    assert.ok('compared' in answer, JSON.stringify(answer));
    const { changes, verdict, before } = answer.compared;
    assert.equal(verdict, '2 changes; 1 of its parts is changed');
    assert.equal(before, undefined, 'a job has no picture');
    const said = changes.map(({ section, word, text, line }) => `${section}|${word}|${text}|${line?.range.start.line}`);
    assert.ok(said.includes('Job||mass limit 300 g → 250 g|1'), said.join('\n'));
    assert.ok(said.includes('Parts|changed|part a: quantity 2 → 3|3'), said.join('\n'));
    const parts = changes.filter((c) => c.opens);
    assert.deepEqual(
      parts.map((c) => c.text),
      ['part a: 1 change'],
    );
    const { opens } = parts[0]!;
    assert.equal(opens!.before.uri, pathToFileURL(at('parts/a.part.yaml')).href);
    assert.equal(opens!.before.revision, 'HEAD');
    assert.match(texts(await ask(opens!.before, opens!.after))[0]!, /^resized: hole seat: diameter 32 mm → 30 mm/);
    const odd = await ask(side(), job);
    assert.match('trouble' in odd ? odd.trouble : '', /a part and a job: compare two of a kind|a\.part\.yaml|^a: /);
  });

  it('an unknown revision, another disk and a file that was not there are told in a sentence', async () => {
    committed();
    const why = async (params: Promise<CompareAnswer>) => JSON.stringify(await params);
    assert.match(await why(ask(side('v9'), side())), /there is no revision `v9`/);
    assert.match(await why(ask(side('--output=x'), side())), /there is no revision/);
    const elsewhere = { uri: 'vscode-vfs://github/a/a.part.yaml', title: 'a', revision: 'HEAD' };
    assert.match(await why(ask(elsewhere, side())), /not on this machine’s disk/);
    write('b.part.yaml', seat('3'));
    const late = { uri: pathToFileURL(at('b.part.yaml')).href, title: 'b', revision: 'HEAD' };
    assert.match(await why(ask(late, side())), /^\{"trouble":"b: /);
  });

  it('git is not asked in a folder that nobody trusts; where it is, no hook, watcher or checker of signatures runs', async () => {
    committed();
    const trace = at('.git/ran');
    mkdirSync(at('.git/hooks'), { recursive: true });
    write('.git/hooks/ran', `#!/bin/sh\ntouch ${trace}\n`);
    chmodSync(at('.git/hooks/ran'), 0o755);
    for (const name of ['core.fsmonitor', 'core.pager', 'gpg.program', 'diff.external', 'core.sshCommand'])
      git('config', name, at('.git/hooks/ran'));
    git('config', 'log.showSignature', 'true');
    const sentence = /Git is not asked in a folder that is not trusted/;
    assert.match(JSON.stringify(await ask(side('HEAD'), side(), false)), sentence);
    assert.match(JSON.stringify(await history(false)), sentence);
    assert.ok('revisions' in (await history()));
    assert.ok('compared' in (await ask(side('HEAD'), side(''))));
    assert.ok(!existsSync(trace));
    // A request that says nothing of it is not trusted.
    const silent = { before: side('HEAD'), after: side() };
    assert.match(JSON.stringify(await client.connection.sendRequest(COMPARE, silent)), sentence);
  });
});
