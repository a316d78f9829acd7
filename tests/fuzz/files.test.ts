/**
 * Whatever an author wrote, every exported file is well-formed and says it as words: read back by readers that know nothing
 * of the writers (fast-xml-parser, dxf-parser, our reader of ISO 10303-21, and the exact kernel's own).
 */

import assert from 'node:assert/strict';
import DxfParser from 'dxf-parser';
import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { dxfWriter } from '../../server/src/export/dxf';
import { exactMeasures } from '../../server/src/export/exact/measures';
import { exactSolid } from '../../server/src/export/exact/solid';
import { stepText } from '../../server/src/export/exact/step';
import { finished } from '../../server/src/export/step';
import { stlWriter } from '../../server/src/export/stl';
import { svgWriter } from '../../server/src/export/svg';
import { threemfWriter } from '../../server/src/export/threemf';
import type { TriangleMaker } from '../../server/src/export/triangles';
import type { ExportRequest } from '../../server/src/export/writer';
import { closedMesh } from '../../server/src/geometry/mesh/closed';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkPart } from '../../server/src/rules/check';
import type { CheckedPart } from '../../server/src/rules/checked-part';
import { line } from '../../server/src/text/shown';
import { readZip } from '../export/mesh-reader';
import { readExchangeFile, type Value } from '../export/part21-reader';
import { kernel } from '../geometry/mesh/proof';
import { exactKernel } from '../oracle/exact';
import { assertShows, hostileWords, written } from './hostile';
import { patience, type Random, random, runs } from './runs';

const here: TriangleMaker = {
  closed: async (body, voids, chordMm) => closedMesh(await kernel(), body, voids, chordMm),
};
const WHEN = new Date('2030-01-02T03:04:05Z');

/** A small part, named and described by whoever means no good; its shape is always the same. */
function hostilePart(r: Random): CheckedPart {
  const [name, title, revision, seat, note, datum] = Array.from({ length: 6 }, () => written(hostileWords(r)));
  return checkPart(
    `part: ${name}
title: ${title}
revision: ${revision}
units: mm
material: ${r.below(2) === 0 ? 'aluminium-6061-t6' : written(hostileWords(r))}
tolerance: ISO 2768-m
body: { x: 60, y: 40 ±0.1, z: 16 }
features:
  ${seat}: { kind: hole, face: top, at: { x: 20, y: 20 }, diameter: 12 H7, depth: 7, note: ${note} }
  ${datum}: { kind: hole, face: top, at: { x: 45, y: 20 }, thread: M5, depth: through }
tolerances:
  - { position: 0.1, of: ${datum}, datums: [A] }
datums: { A: ${seat} }
`,
    builtinShop(),
  );
}

/** The values of an XML document, attributes and text, as a reader decodes them. */
function xmlWords(xml: string): { [name: string]: unknown } {
  const valid = XMLValidator.validate(xml);
  assert.equal(valid, true, `${JSON.stringify(valid)}\n${xml}`);
  // XML 1.0, 2.2: Char
  assert.doesNotMatch(xml, /[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/u);
  assertShows(xml, '\n\t', 'XML');
  const parser = new XMLParser({
    ignoreAttributes: false,
    attributeNamePrefix: '@',
    trimValues: false,
    parseTagValue: false,
  });
  return parser.parse(xml) as { [name: string]: unknown };
}

describe('hostile words in files', function () {
  this.timeout(patience(120_000));
  const parts: CheckedPart[] = [];
  const asked = (checked: CheckedPart): ExportRequest => ({ checked, creator: 'Scribeline', when: WHEN });
  before(() => {
    const r = random(111);
    for (let n = 0; n < runs(8); n++) parts.push(hostilePart(r));
  });

  it('SVG is well-formed, has no element of theirs, and its title is the part’s', async () => {
    let elements: string | undefined;
    for (const checked of parts) {
      const xml = new TextDecoder().decode((await svgWriter.write(asked(checked))).bytes);
      const { svg } = xmlWords(xml) as { svg: { title: string } };
      assert.equal(svg.title, line(checked.part.title ?? checked.part.name));
      const names = [...new Set([...xml.matchAll(/<\/?([a-z:]+)/gi)].map((m) => m[1]))].sort().join(' ');
      elements ??= names;
      assert.equal(names, elements);
      assert.doesNotMatch(xml.replace(/>[^<]*</g, '><'), /\son\w+=|href|script/i);
    }
  });

  it('3MF is well-formed, and says name, title and material as written', async () => {
    for (const checked of parts) {
      const { bytes } = await threemfWriter(here).write(asked(checked));
      const xml = readZip(bytes).get('3D/3dmodel.model')!;
      const { model } = xmlWords(xml) as {
        model: { resources: { object: { '@name': string } }; metadata: { '@name': string; '#text': string }[] };
      };
      assert.equal(model.resources.object['@name'], line(checked.part.name));
      const title = model.metadata.find((m) => m['@name'] === 'Title');
      assert.equal(title?.['#text'], line(checked.part.title ?? checked.part.name));
    }
  });

  it('STEP has the same entities whatever the names, reads back by grammar and by the kernel’s own reader', async () => {
    const oc = await exactKernel();
    const { body, voids } = parts[0]!.solid;
    const shape = exactSolid(oc, { body, voids });
    const text = stepText(oc, shape);
    const own = exactMeasures(oc, shape, true);
    shape.delete();
    const volumes: number[] = [];
    for (const [n, checked] of parts.entries()) {
      const file = finished(text, asked(checked));
      assert.match(file, /^[\n\r\x20-\x7e]*$/);
      const read = readExchangeFile(file);
      const all = [...read.entities.values()].flatMap((e) => e.parts);
      const said = (kind: string) => all.filter((e) => e.kind === kind).map((e) => e.args as readonly Value[]);
      assert.equal(said('PRODUCT').length, 1);
      const name = line(checked.part.name);
      assert.deepEqual(said('PRODUCT')[0]!.slice(0, 3), [name, name, line(checked.part.title ?? '')]);
      assert.equal(said('MANIFOLD_SOLID_BREP').length, 1);
      assert.ok(said('DESCRIPTIVE_REPRESENTATION_ITEM').length >= 4);
      for (const args of all.flatMap((e) => e.args))
        if (typeof args === 'string') assertShows(args, '', file.slice(0, 500));
      if (n >= 3) continue;
      oc.FS.writeFile('/hostile.step', file);
      const reader = new oc.STEPControl_Reader();
      assert.equal(reader.ReadFile('/hostile.step'), 'IFSelect_RetDone');
      const progress = new oc.Message_ProgressRange();
      assert.equal(reader.TransferRoots(progress), 1);
      const again = reader.OneShape();
      volumes.push(exactMeasures(oc, again).volumeMm3);
      for (const handle of [again, progress, reader]) handle.delete();
    }
    for (const v of volumes) assert.ok(Math.abs(v / own.volumeMm3 - 1) < 1e-9);
  });

  it('DXF reads back, and STL’s heading is plain', async () => {
    for (const checked of parts) {
      const source = new TextDecoder().decode((await dxfWriter.write(asked(checked))).bytes);
      assertShows(source, '\n', 'DXF');
      assert.ok(new DxfParser().parseSync(source)!.entities.length > 0);
      const { bytes } = await stlWriter(here).write(asked(checked));
      assert.match(Buffer.from(bytes.subarray(0, 80)).toString('latin1'), /^(?!solid)[\x20-\x7e]{80}$/);
    }
  });
});
