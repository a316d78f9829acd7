/** Completion through the whole document: wherever the cursor is, it answers, and every offer stands at the right place. */
import assert from 'node:assert/strict';
import { figuresAtHand } from '../../server/src/report/at-hand';
import { completionsAt } from '../../server/src/service/completion';
import type { Host } from '../../server/src/service/host';
import { hoverAt } from '../../server/src/service/hover';
import { lensesOf } from '../../server/src/service/lenses';
import { CompletionItemKind } from '../../server/src/service/shapes';
import { Workspace } from '../../server/src/service/workspace';

/** A world of its own: the service touches nothing but what it is handed. */
function world(files: Readonly<Record<string, string>> = {}): Host & { readonly reads: string[] } {
  const reads: string[] = [];
  return {
    reads,
    log: () => undefined,
    async read(path) {
      reads.push(path);
      return files[path];
    },
    async list(folder) {
      const below = Object.keys(files).filter((f) => f.startsWith(`${folder}/`));
      return below.map((f) => f.slice(folder.length + 1)).filter((f) => !f.includes('/'));
    },
    async documents(folder) {
      return Object.keys(files).filter((f) => f.startsWith(`${folder}/`));
    },
  };
}
const PATH = 'mem:///w/parts/a.part.yaml';

const PART =
  'part: a\nunits: mm\nmaterial: aluminium-6061-t6\nbody: { x: 60, y: 40, z: 16 }\nfeatures:\n  seat: { kind: hole, face: top, at: { x: center, y: center }, diameter: 22 H7, depth: 7, bottom: flat }\n';

describe('the service in a world of its own', () => {
  it('answers completion and hover at every place of a part', async () => {
    const workspace = new Workspace(world());
    const text = PART;
    workspace.open(PATH, text);
    const snapshot = (await workspace.snapshot(PATH))!;
    for (let offset = 0; offset <= text.length; offset += 3) {
      hoverAt(snapshot, offset);
      const items = completionsAt(snapshot, offset);
      const labels = items.map((i) => i.label);
      assert.deepEqual(labels, [...new Set(labels)], `listed twice at ${offset}`);
      for (const item of items) {
        // A reason beside every word. What is described has room in a list, the rest is said when it is looked at; what is
        // counted (pitch, drill, what the shop has) is whole, in one line.
        const reason = item.detail!.replace(/ \(needed\)$/, '');
        const isDescribed = item.kind === CompletionItemKind.Property || item.kind === CompletionItemKind.EnumMember;
        assert.ok(reason.length > 2 && reason.length <= (isDescribed ? 60 : 90), `${item.label}: ${reason}`);
        assert.equal((reason.match(/\(/g) ?? []).length, (reason.match(/\)/g) ?? []).length, reason);
        assert.equal((reason.match(/`/g) ?? []).length % 2, 0, reason);
        const edit = item.textEdit as { range: { start: { line: number }; end: { line: number; character: number } } };
        assert.deepEqual(edit.range.end, snapshot.lines.position(offset), item.label);
        assert.equal(edit.range.start.line, edit.range.end.line);
      }
    }
  });

  it('the same text gives the same snapshot; another shop gives another', async () => {
    const host = world({ 'mem:///w/a.shop.yaml': 'shop: a\ntools: { tap-m3: { kind: tap, thread: M3 } }\n' });
    const workspace = new Workspace(host, { roots: ['mem:///w'] });
    workspace.open(PATH, PART);
    const first = await workspace.snapshot(PATH);
    assert.ok(first?.kind === 'part' && first.shopPath === 'mem:///w/a.shop.yaml');
    assert.equal(await workspace.snapshot(PATH), first);
    assert.deepEqual(host.reads, ['mem:///w/a.shop.yaml'], 'a shop is read once');
    workspace.open('mem:///w/a.shop.yaml', 'shop: b\ntools: { tap-m5: { kind: tap, thread: M5 } }\n');
    const second = await workspace.snapshot(PATH);
    assert.notEqual(second, first);
    assert.ok(second?.kind === 'part' && second.checked.shop.name === 'b');
    assert.equal(second.checked.part.features[0], first.checked.part.features[0], 'what did not change is the same');
  });

  it('a shop that the user sets is read wherever it is; one that a part names, only in the open folder', async () => {
    const host = world({ 'mem:///far/a.shop.yaml': 'shop: far\n' });
    const set = new Workspace(host, { roots: ['mem:///w'], shop: 'mem:///far/a.shop.yaml' });
    set.open(PATH, PART);
    const judged = await set.snapshot(PATH);
    assert.ok(judged?.kind === 'part' && judged.checked.shop.name === 'far');
    const named = new Workspace(host, { roots: ['mem:///w'] });
    named.open(PATH, PART.replace('units:', 'shop: ../../far/a.shop.yaml\nunits:'));
    const refused = await named.snapshot(PATH);
    assert.ok(refused?.kind === 'part' && refused.checked.shop.unread === 'lies outside the open folder');
    assert.ok(refused.findings.some((f) => /outside the open folder/.test(f.message)));
  });

  it('a shop that vanishes is told, and the part is judged all the same', async () => {
    const files: Record<string, string> = { 'mem:///w/a.shop.yaml': 'shop: a\n' };
    const workspace = new Workspace(world(files), { roots: ['mem:///w'] });
    workspace.open(PATH, PART.replace('units:', 'shop: ../a.shop.yaml\nunits:'));
    assert.deepEqual(
      (await workspace.snapshot(PATH))?.findings.filter((f) => /no shop file/.test(f.message)),
      [],
    );
    delete files['mem:///w/a.shop.yaml'];
    workspace.fileChanged('mem:///w/a.shop.yaml');
    const after = await workspace.snapshot(PATH);
    assert.equal(after?.findings.filter((f) => /no shop file/.test(f.message)).length, 1);
    assert.ok(
      after?.kind === 'part' && after.checked.shop.unread === 'is not there' && after.checked.part.features.length > 0,
    );
  });

  it('a document is what an editor says it is, where its name does not tell', async () => {
    const workspace = new Workspace(world());
    workspace.open('untitled:Untitled-1', PART, 'part');
    assert.equal((await workspace.snapshot('untitled:Untitled-1'))?.kind, 'part');
    workspace.close('untitled:Untitled-1');
    assert.equal(await workspace.snapshot('untitled:Untitled-1'), undefined);
  });

  it('a part shows its mass, balance and stock (closed form, 2.70 g/cm³); a job their sum against its limit', async () => {
    const disc =
      'part: disc\nmaterial: aluminium-6061-t6\nbody: { diameter: 40, length: 10, axis: z }\nstock: { form: round-bar, diameter: 50, axis: z, extra: { top: 2 } }\n';
    const block = 'part: block\nmaterial: aluminium-6061-t6\nbody: { x: 100, y: 50, z: 20 }\n';
    const host = world({ 'mem:///w/parts/block.part.yaml': block, 'mem:///w/parts/disc.part.yaml': disc });
    const workspace = new Workspace(host, { roots: ['mem:///w'] });
    const path = 'mem:///w/g.job.yaml';
    const job = (limit: string) =>
      `job: g\nparts:\n  block: { spec: parts/block.part.yaml, quantity: 3 }\nmass-limit: ${limit}\n`;
    const title = async (of: string) =>
      (await lensesOf(workspace, (await workspace.snapshot(of))!, async (p) => figuresAtHand(p.checked))).map(
        (l) => l.command?.title,
      );
    assert.deepEqual(await title('mem:///w/parts/block.part.yaml'), [
      '270.0 g  ·  thinnest wall over 6 mm  ·  0 % cut away',
    ]);
    // 1 − (π/4 · 40² · 10) / (π/4 · 50² · 12) = 46.7 %
    assert.match(String(await title('mem:///w/parts/disc.part.yaml')), /47 % cut away/);
    workspace.open(path, job('900 g'));
    assert.deepEqual(await title(path), ['810.0 g of 900 g: 90.0 g to spare']);
    workspace.open(path, job('0.8 kg'));
    assert.deepEqual(await title(path), ['810.0 g of 0.8 kg: 10.0 g too much']);
    workspace.open(path, 'job: g\nparts:\n  a: { spec: parts/gone.part.yaml }\n');
    assert.deepEqual(await title(path), []);
  });

  it('a job tells which of its parts are not there', async () => {
    const host = world({ 'mem:///w/parts/a.part.yaml': PART });
    const workspace = new Workspace(host, { roots: ['mem:///w'] });
    workspace.open(
      'mem:///w/g.job.yaml',
      'job: g\nparts:\n  a: { spec: parts/a.part.yaml }\n  b: { spec: parts/b.part.yaml }\n',
    );
    const found = (await workspace.snapshot('mem:///w/g.job.yaml'))!.findings;
    assert.deepEqual(
      found.map((f) => f.of),
      [['b']],
    );
  });
});
