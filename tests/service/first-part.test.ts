/**
 * A first part without a manual: from an empty file, each line chosen from what completion offers there. Nothing is typed
 * but names, numbers where a place asks for one, and the ends of lines.
 */
import assert from 'node:assert/strict';
import { completionsAt } from '../../server/src/service/completion';
import type { CompletionItem } from '../../server/src/service/shapes';
import type { Snapshot } from '../../server/src/service/snapshot';
import { Workspace } from '../../server/src/service/workspace';
import { applyEdits } from '../../server/src/text/edit';

const PATH = 'mem:///w/a.part.yaml';

/** An editor as far as lines are written in it: the cursor stands at the end of the text. */
class Writing {
  text = '';
  private readonly workspace = new Workspace({
    log: () => undefined,
    read: async () => undefined,
    list: async () => [],
    documents: async () => [],
  });

  async snapshot(): Promise<Snapshot> {
    this.workspace.open(PATH, this.text);
    return (await this.workspace.snapshot(PATH))!;
  }

  async offered(): Promise<readonly CompletionItem[]> {
    return completionsAt(await this.snapshot(), this.text.length);
  }

  /** Takes an item; `fill` are the values of its stops in order, the offered ones where there are none. */
  async take(label: string, ...fill: readonly string[]): Promise<void> {
    const items = await this.offered();
    const item = items.find((i) => i.label === label);
    assert.ok(item, `${label} is not among: ${items.map((i) => i.label).join(', ')}\n${this.text}`);
    assert.equal(items.filter((i) => i.label === label).length, 1, `${label} is offered twice`);
    const { range, newText } = item.textEdit!;
    const lines = this.text.split('\n');
    const start =
      lines.slice(0, range.start.line).join('\n').length + (range.start.line > 0 ? 1 : 0) + range.start.character;
    const indent = /^ */.exec(lines.at(-1)!)![0];
    const plain = newText
      .replace(/\$\{(\d+):([^}]*)\}/g, (_, n, value) => fill[Number(n) - 1] ?? value)
      .replaceAll('$0', '');
    this.text = this.text.slice(0, start) + plain.split('\n').join(`\n${item.insertTextMode ? indent : ''}`);
  }

  type(text: string): void {
    this.text += text;
  }

  line(indent = 0): void {
    this.text = `${this.text.trimEnd()}\n${' '.repeat(indent)}`;
  }

  /** A key and its value, on a line. */
  async entry(indent: number, key: string, value?: string, ...fill: readonly string[]): Promise<void> {
    this.line(indent);
    await this.take(key, ...fill);
    if (value !== undefined) await this.take(value);
  }
}

const KINDS =
  /^(part|title|revision|shop|units|material|quantity|tolerance|treatment|coating|deburr|notes|parameters|variants|body|stock|features|include|datums|tolerances|setups|accept)$/;

describe('a first part', () => {
  it('of twelve features on three faces with a set-up is written by completion alone', async () => {
    const w = new Writing();
    assert.ok((await w.offered()).every((i) => KINDS.test(i.label)));
    await w.take('part');
    w.type('camera-tray');
    await w.entry(0, 'units', 'mm');
    await w.entry(0, 'material', 'aluminium-6061-t6');
    await w.entry(0, 'body', undefined, '80', '50', '16');
    assert.ok(w.text.endsWith('body: { x: 80, y: 50, z: 16 }'), w.text);
    await w.entry(0, 'stock');
    assert.match(w.text, /stock: \{ form: flat-bar, sawn: \[left, right\], extra: \{ left: 1\.5, right: 1\.5 \} \}$/);
    await w.entry(0, 'features');

    /** One by its lines: kind, face, place, then sizes that are typed. */
    const hole = async (
      name: string,
      face: string,
      place: readonly string[],
      ...sizes: readonly (readonly [string, string])[]
    ) => {
      w.line(2);
      w.type(`${name}:`);
      await w.entry(4, 'kind', 'hole');
      await w.entry(4, 'face', face);
      await w.entry(4, 'at', undefined, ...place);
      for (const [key, value] of sizes) {
        await w.entry(4, key);
        const offered = await w.offered();
        if (offered.some((i) => i.label === value)) await w.take(value);
        else w.type(value);
      }
    };
    await hole('seat', 'top', ['center', 'center'], ['diameter', '22 H7'], ['depth', '7'], ['bottom', 'flat']);
    for (const [i, [x, y]] of [
      ['8', '8'],
      ['72', '8'],
      ['8', '42'],
      ['72', '42'],
    ].entries())
      await hole(`mount-${i + 1}`, 'top', [x!, y!], ['thread', 'M5'], ['depth', 'through'], ['thread-depth', '10']);
    await hole('cable-1', 'front', ['15', '8'], ['diameter', '4.2'], ['depth', '12']);
    await hole('cable-2', 'front', ['65', '8'], ['diameter', '4.2'], ['depth', '12']);
    await hole('sensor-1', 'right', ['15', '8'], ['diameter', '3.3'], ['depth', '10']);
    await hole('sensor-2', 'right', ['35', '8'], ['diameter', '3.3'], ['depth', '10']);
    assert.ok(w.text.includes('at: { x: 15, z: 8 }') && w.text.includes('at: { y: 35, z: 8 }'), w.text);
    for (const label of ['new pocket', 'new slot', 'new chamfer']) {
      w.line(2);
      await w.take(label);
    }

    await w.entry(0, 'setups');
    w.line(2);
    w.type('first:');
    await w.entry(4, 'up', 'top');
    await w.entry(4, 'hold');
    assert.match(w.text, /hold: \{ vise: [a-z0-9-]+, jaws: \[front, back\], grip: 6 \}$/);
    await w.entry(4, 'zero');
    assert.ok(w.text.endsWith('zero: { x: left, y: front, z: top }'), w.text);
    w.line(4);
    await w.take('cuts');
    const lists = (await w.offered()).map((i) => i.label).filter((l) => l.startsWith('['));
    assert.equal(lists.length, 2);
    assert.match(lists[0]!, /^\[seat, mount-1, mount-2, mount-3, mount-4, /);
    assert.match(lists[1]!, /sensor-2/);
    await w.take(lists[0]!);

    const { checked } = await w.snapshot();
    assert.ok('part' in checked);
    const unread = checked.findings.filter((f) => /^form\/(schema|unit|unknown-name)$/.test(f.rule));
    assert.deepEqual(
      unread.map((f) => f.message),
      [],
      w.text,
    );
    assert.equal(checked.part.features.length, 12);
    assert.deepEqual([...new Set(checked.part.features.map((f) => f.face))].sort(), ['front', 'right', 'top']);
  });

  it('a pattern is laid out along the axis of its face, and may be another kind of row', async () => {
    for (const [face, at, axis] of [
      ['top', 'x: center, y: center', 'x'],
      ['right', 'y: center, z: center', 'y'],
    ] as const) {
      const w = new Writing();
      w.text = `part: a\nunits: mm\nbody: { x: 80, y: 50, z: 30 }\nfeatures:\n  mount:\n    kind: hole\n    face: ${face}\n    at: { ${at} }\n    diameter: 5\n    depth: 10`;
      await w.entry(4, 'pattern');
      assert.ok(w.text.endsWith(`pattern: { line: { ${axis}: 36, count: 2 } }`), w.text);
      const { checked } = await w.snapshot();
      assert.ok('part' in checked);
      assert.deepEqual(
        checked.findings.filter((f) => f.rule.startsWith('form/') && f.severity === 'error').map((f) => f.message),
        [],
      );
      w.text = w.text.replace(/pattern: .*/, 'pattern: { ');
      const rows = (await w.offered()).map((i) => i.label);
      assert.deepEqual([...rows].sort(), ['bolt-circle', 'grid', 'line', 'places']);
    }
  });

  it('a word that has two reasons stands once, with both', async () => {
    const w = new Writing();
    w.text = 'part: a\nbody: { x: 80, y: 50, z: 30 }\nfeatures:\n  a: { kind: hole, face: top, diameter: ';
    const three = (await w.offered()).filter((i) => i.label === '3');
    assert.deepEqual(
      three.map((i) => i.detail),
      ['drill in the shop: dr-3; reamer in the shop: rm-3'],
    );
  });

  it('a face that is chosen anew turns the axes of its feature', async () => {
    const w = new Writing();
    const feature = (face: string, at: string, line: string) => `part: a
body: { x: 80, y: 50, z: 30 }
features:
  mount:
    kind: hole
    face: ${face}
    at: { ${at} }
    pattern: { line: { ${line}, count: 2 } }
    thread: M5
    depth: 14
`;
    const cases = [
      ['front', 'x: 10, y: 20', 'y: 4', 'x: 10, z: 20', 'z: 4'],
      ['right', 'x: 10, y: 20', 'x: 4', 'z: 10, y: 20', 'y: 4'],
      ['left', 'front: 10, top: 5', 'y: 4', 'front: 10, top: 5', 'y: 4'],
      ['right', 'x: center, y: center', 'x: 4', 'y: center, z: center', 'y: 4'],
      ['bottom', 'x: 10, y: 20', 'y: 4', 'x: 10, y: 20', 'y: 4'],
    ] as const;
    for (const [face, at, line, ...becomes] of cases) {
      w.text = feature('t', at, line);
      const from = w.text.indexOf('face: t') + 'face: t'.length;
      const item = completionsAt(await w.snapshot(), from).find((i) => i.label === face)!;
      const edits = [item.textEdit!, ...(item.additionalTextEdits ?? [])];
      const lines = w.text.split('\n');
      const offset = ({ line: l, character }: { line: number; character: number }) =>
        lines.slice(0, l).reduce((sum, one) => sum + one.length + 1, 0) + character;
      const after = applyEdits(
        w.text,
        edits.map(({ range, newText }) => ({ start: offset(range.start), end: offset(range.end), newText })),
      );
      assert.equal(after, feature(face, becomes[0], becomes[1]));
    }
  });

  it('the name of what is there already is no starter, and gets no second colon', async () => {
    const w = new Writing();
    w.text = 'part: a\nbody: { x: 80, y: 50, z: 30 }\nfeatures:\n  slot:\n    kin: slot\n    fac: top\n';
    const at = async (after: string) => completionsAt(await w.snapshot(), w.text.indexOf(after) + after.length);
    assert.deepEqual(await at('\n  slot'), []);
    assert.equal((await at('kin')).find((i) => i.label === 'kind')?.textEdit?.newText, 'kind');
  });

  it('jaws, grips and depths of thread are those that fit', async () => {
    const w = new Writing();
    w.text = `part: a
units: mm
material: aluminium-6061-t6
body: { x: 80, y: 50, z: 30 }
features:
  mount:
    kind: hole
    face: top
    at: { x: center, y: center }
    thread: M6
    depth: through
    thread-depth: `;
    const depths = (await w.offered()).map((i) => [i.label, i.detail]);
    assert.deepEqual(depths.slice(0, 3), [
      ['9', '1.5 × the diameter of M6'],
      ['12', '2 × the diameter of M6'],
      ['15', '2.5 × the diameter of M6'],
    ]);
    w.text += '12\nsetups:\n  one:\n    up: left\n    hold: { vise: mill-vise-100, jaws: ';
    const jaws = (await w.offered()).slice(0, 2).map((i) => i.label);
    assert.deepEqual(jaws, ['[front, back]', '[bottom, top]']);
    w.text += '[front, back], grip: ';
    const { shop } = (await w.snapshot()).checked as {
      readonly shop: {
        readonly vises: readonly { readonly jawHeightMm: number }[];
        readonly parallelsMm: readonly number[];
      };
    };
    const grips = (await w.offered()).map((i) => Number(i.label)).filter((n) => Number.isFinite(n));
    assert.ok(grips.length > 0);
    for (const mm of grips)
      assert.ok(shop.parallelsMm.some((p) => Math.abs(shop.vises[0]!.jawHeightMm - p - mm) < 1e-6) && mm <= 40);
  });
});
