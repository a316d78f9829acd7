/** Pictures told by the one before: over any edits and steps what is held is the whole picture, as of a server that was just started. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { arraysOf } from '../../../client/view/decode';
import { type Arrays, joined } from '../../../server/src/geometry/mesh/joined';
import { Pieces } from '../../../server/src/geometry/mesh/pieces';
import { Asker } from '../../../server/src/service/asker';
import { Pace } from '../../../server/src/service/pace';
import type { PartSnapshot } from '../../../server/src/service/snapshot';
import { type HeldPicture, heldAfter } from '../../../server/src/service/view/held';
import { Pictures } from '../../../server/src/service/view/pictures';
import type { Moment, PartPicture } from '../../../server/src/service/view/protocol';
import { Workspace } from '../../../server/src/service/workspace';
import { kernel } from '../../geometry/mesh/proof';

const PATH = '/p/a.part.yaml';

/** A text of it at a time, and its pictures. */
class Viewed {
  readonly #workspace = new Workspace({
    read: async () => undefined,
    list: async () => [],
    documents: async () => [],
    log: () => {},
  });
  #pieces: Pieces | undefined;
  readonly pictures = new Pictures(
    {
      make: async ({ body, voids }) => {
        this.#pieces ??= new Pieces(await kernel());
        return this.#pieces.build(body, voids);
      },
      differing: async () => undefined,
    },
    new Asker(new Pace(), undefined),
  );

  async snapshot(text: string): Promise<PartSnapshot> {
    this.#workspace.open(PATH, text);
    return (await this.#workspace.snapshot(PATH)) as PartSnapshot;
  }

  dispose(): void {
    this.#pieces?.dispose();
  }
}

const FORMS = [
  'kind: hole, face: top, diameter: SIZE, depth: through',
  'kind: hole, face: top, diameter: SIZE, depth: DEEP, bottom: flat',
  'kind: pocket, face: top, size: { x: 14, y: SIZE }, corner-radius: 2, depth: DEEP',
  'kind: hole, face: bottom, diameter: 5.5, depth: through, counterbore: M5',
  'kind: hole, face: top, thread: M4, thread-depth: 6, depth: through',
] as const;

const form = fc
  .record({
    form: fc.constantFrom(...FORMS),
    size: fc.integer({ min: 5, max: 9 }),
    deep: fc.integer({ min: 2, max: 7 }),
  })
  .map(({ form, size, deep }) => form.replace('SIZE', `${size}`).replace('DEEP', `${deep}`));

function textOf(forms: readonly string[]): string {
  const at = (i: number) => `at: { x: ${12 + 22 * (i % 3)}, y: ${12 + 20 * Math.floor(i / 3)} }`;
  const top = forms.flatMap((f, i) => (f.includes('face: top') ? [`f${i}`] : []));
  return [
    'part: told',
    'units: mm',
    'material: aluminium-6061-t6',
    'body: { x: 70, y: 50, z: 12 }',
    'features:',
    ...forms.map((f, i) => `  f${i}: { ${f}, ${at(i)} }`),
    'setups:',
    `  first: { up: top, hold: { jaws: [front, back], grip: 5 }, cuts: [${top.join(', ')}] }`,
    '',
  ].join('\n');
}

/** What is looked at next: the text after an edit, or a moment of it; now and then by a page that was loaded anew. */
const step = fc.record({
  edit: fc.option(fc.record({ at: fc.nat(5), to: form }), { freq: 2 }),
  pass: fc.option(fc.integer({ min: 0, max: 9 }), { freq: 2 }),
  isLost: fc.integer({ min: 0, max: 9 }).map((n) => n === 0),
});

describe('a picture told by the one before', () => {
  it('is the whole picture, over any edits and steps', async () => {
    let told = 0;
    let sent = 0;
    await fc.assert(
      fc.asyncProperty(
        fc.array(form, { minLength: 6, maxLength: 6 }),
        fc.array(step, { minLength: 4, maxLength: 8 }),
        async (first, steps) => {
          const kept = new Viewed();
          const forms = [...first];
          let held: HeldPicture<Arrays> | undefined;
          for (const [version, { edit, pass, isLost }] of steps.entries()) {
            if (edit) forms[edit.at] = edit.to;
            if (isLost) held = undefined;
            const text = textOf(forms);
            const moment: Moment | undefined =
              pass === null ? undefined : { setup: 0, when: 'after', ...(pass > 0 && { pass }) };
            const wanted = moment ? { moment } : {};
            const fresh = new Viewed();
            const whole = await fresh.pictures.picture(await fresh.snapshot(text), version, wanted);
            fresh.dispose();
            const answer = await kept.pictures.told(await kept.snapshot(text), version, wanted, held?.id ?? '');
            assert.equal(answer === null, whole === null);
            if (!answer || !whole) continue;
            const { mesh, ...picture } = whole as PartPicture;
            held = heldAfter(JSON.parse(JSON.stringify(answer)), held, arraysOf);
            assert.ok(held);
            assert.deepEqual(held.picture, JSON.parse(JSON.stringify(picture)));
            assert.deepEqual(joined(held.pieces, held.names), arraysOf(mesh));
            told += answer.pieces.length;
            sent += answer.pieces.filter((p) => typeof p !== 'number').length;
          }
          kept.dispose();
        },
      ),
      { numRuns: 6, seed: 17 },
    );
    assert.ok(told > 100 && sent < 0.7 * told, `${sent} of ${told} pieces were sent`);
  });

  it('is told whole where the one before is not known, and not taken by who does not hold that', async () => {
    const viewed = new Viewed();
    const snapshot = await viewed.snapshot(
      textOf([...FORMS, FORMS[0]].map((f) => f.replace('SIZE', '6').replace('DEEP', '4'))),
    );
    const first = await viewed.pictures.told(snapshot, 1, {}, 'of another server');
    assert.ok(first && first.by === undefined);
    const second = await viewed.pictures.told(snapshot, 1, {}, first.id);
    assert.equal(second?.by, first.id);
    assert.ok(second.pieces.every((p) => typeof p === 'number'));
    assert.equal(heldAfter(second, undefined, arraysOf), undefined);
    viewed.dispose();
  });
});
