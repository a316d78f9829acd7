/**
 * The format's page says where each field counts. Here: every field has its row, some are changed again and show what the
 * page says (all of them with `FIELDS_ALL=1`, minutes), and the editor explains every one.
 */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { schemaAt } from '../../server/src/model/lookup';
import { hoverAt } from '../../server/src/service/hover';
import { corpus, REPOSITORY } from './corpus';
import { KINDS, observe, observed, placesOf } from './observe';
import { fieldsOf, placesIn } from './places';
import { Answers, type Shown } from './shown';

const ROWS = observed();
const ALL = process.env.FIELDS_ALL === '1';
const SMALL: ReadonlySet<string> = new Set(['base.part.yaml', 'pair.part.yaml', 'ramp.part.yaml', 'flight.job.yaml']);
/** Of each kind of document some that are changed in small parts. */
const SHARE: Readonly<Record<(typeof KINDS)[number], readonly string[]>> = {
  part: ['deburr.outside', 'setups.NAME.note'],
  shop: ['shop.projection'],
  job: ['job.mass-limit'],
};

describe('every field of the format', () => {
  for (const kind of KINDS)
    it(`of a ${kind} has a row that says where it counts`, () => {
      assert.deepEqual(Object.keys(ROWS[kind] ?? {}).sort(), [...fieldsOf(kind)].sort());
    });

  it('counts somewhere: only a remark may have an empty row, and stays in the text', () => {
    const empty = KINDS.flatMap((kind) =>
      Object.entries(ROWS[kind] ?? {}).flatMap(([field, seen]) => (seen.length === 0 ? `${kind} ${field}` : [])),
    );
    assert.deepEqual(
      empty.filter((field) => !field.endsWith('.note')),
      [],
    );
    assert.doesNotMatch(readFileSync(join(REPOSITORY, 'schemas/FORMAT.md'), 'utf8'), /\| – \|$/m);
  });

  for (const kind of KINDS)
    it(`of a ${kind} changes what its row says`, async function () {
      this.timeout(0);
      const places = placesOf(kind, ALL ? corpus() : corpus().filter(({ asked }) => SMALL.has(asked)));
      const asked = ALL ? [...places.keys()] : SHARE[kind];
      for (const field of asked) {
        const found = places.get(field) ?? [];
        assert.ok(found.length > 0, `no document has ${kind} ${field}`);
        const row = ROWS[kind]?.[field] ?? [];
        const seen = await observe(found);
        const unsaid = seen.filter((s: Shown) => !row.includes(s));
        assert.deepEqual(unsaid, [], `${kind} ${field}: not in its row`);
        if (!ALL) assert.ok(seen.length > 0, `${kind} ${field} changes nothing`);
      }
    });

  it('is explained where the pointer rests on it', async () => {
    const world = corpus().find((w) => w.asked === 'base.part.yaml');
    assert.ok(world);
    for (const [file, text] of Object.entries(world.files)) {
      const kind = file.endsWith('.shop.yaml') ? 'shop' : 'part';
      const snapshot = await new Answers(world.files, file).snapshot();
      assert.ok(snapshot && snapshot.kind === kind);
      const { tree } = snapshot.checked;
      const met = new Set<string>();
      for (const { field, path, span } of placesIn(kind, text)) {
        if (met.has(field)) continue;
        met.add(field);
        const said = hoverAt(snapshot, tree.locate(span).start + 1, { quick: true });
        const about = schemaAt(kind, path, tree.root)?.description;
        assert.ok(about && about.length > 1, `${field} says nothing of itself`);
        assert.ok(said, `no hover on ${field}`);
      }
      assert.ok(met.size > 50);
    }
  });
});
