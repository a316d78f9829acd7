/** The server's life: it may die or be started again, and the findings are there afterwards. */
import { strict as assert } from 'node:assert';
import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { commands } from 'vscode';
import { findings, ofRule, putAway, show } from './editor';
import { present, screenshot, sees } from './person';

const RULE = 'corner/inside-radius';

interface Process {
  readonly id: number;
  readonly parent: number;
  readonly command: string;
}

/** From Linux's own list, since a bare machine may have no `ps`. */
function processes(): Process[] {
  if (process.platform === 'linux') {
    return readdirSync('/proc')
      .filter((name) => /^\d+$/.test(name))
      .flatMap((name) => {
        try {
          const parent = /^PPid:\s+(\d+)$/m.exec(readFileSync(`/proc/${name}/status`, 'utf8'))?.[1];
          const command = readFileSync(`/proc/${name}/cmdline`, 'utf8').replaceAll('\0', ' ');
          return [{ id: Number(name), parent: Number(parent), command }];
        } catch {
          return []; // It ended meanwhile.
        }
      });
  }
  return execFileSync('ps', ['-eo', 'pid=,ppid=,args='], { encoding: 'utf8' })
    .split('\n')
    .map((line) => /^\s*(\d+)\s+(\d+)\s+(.*)$/.exec(line))
    .flatMap((found) => (found ? [{ id: Number(found[1]), parent: Number(found[2]), command: found[3]! }] : []));
}

/** Ids of the running language servers that this editor started from the installed package. */
function servers(): number[] {
  return processes()
    .filter((p) => p.parent === process.pid && /scribeline\S*[\\/]dist[\\/]server\.js/.test(p.command))
    .map((p) => p.id);
}

describe('the language server', () => {
  afterEach(putAway);

  it('answers after it was started again', async () => {
    const { document } = await show('camera-tray.part.yaml');
    await findings(document, (d) => ofRule(d, RULE).length > 0, `no ${RULE}`);
    await commands.executeCommand('scribeline.restartServer');
    await findings(document, (d) => ofRule(d, RULE).length > 0, `no ${RULE} after the restart`);
  });

  it('comes back when it is killed, is the only one, and says so', async function () {
    if (process.platform === 'win32') this.skip();
    const { document } = await show('camera-tray.part.yaml');
    await findings(document, (d) => ofRule(d, RULE).length > 0, `no ${RULE}`);
    const [first, ...more] = servers();
    assert.ok(first !== undefined, 'no language server is running');
    assert.deepEqual(more, []);
    process.kill(first, 'SIGKILL');
    const end = Date.now() + 15_000;
    while (servers().length !== 1 || servers()[0] === first) {
      assert.ok(Date.now() < end, 'the server did not come back');
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
    await findings(document, (d) => ofRule(d, RULE).length > 0, `no ${RULE} after the crash`);
    if (present) {
      await commands.executeCommand('notifications.showList');
      await sees('.notifications-center', /stopped unexpectedly and was started again/);
      await screenshot('after-a-crash');
    }
    await commands.executeCommand('notifications.clearAll');
  });
});
