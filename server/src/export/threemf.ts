/**
 * A part as 3MF (3MF Core Specification 1.3, 3MF Consortium): a zip package with one model in millimetres, one closed mesh
 * object, its name, title and material. Only what the core specification has is used.
 */
import { strToU8, zipSync } from 'fflate';
import type { Part } from '../model/model';
import { markup } from '../text/shown';
import { type TriangleMaker, type Triangles, trianglesOf } from './triangles';
import type { Writer } from './writer';

const TYPES = `<?xml version="1.0" encoding="UTF-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>
<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/>
</Types>
`;
const RELATIONS = `<?xml version="1.0" encoding="UTF-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
<Relationship Target="/3D/3dmodel.model" Id="rel0" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/>
</Relationships>
`;
const CORE = 'http://schemas.microsoft.com/3dmanufacturing/core/2015/02';
/** The specification wants a colour to show a material in; a neutral one. */
const GREY = '#B0B4B8';

export function threemfWriter(maker: TriangleMaker): Writer {
  return {
    extensions: ['.3mf'],
    title: '3MF: triangles with units, name and material',
    async write(request) {
      const mesh = await trianglesOf(request, maker);
      const model = modelOf(mesh, request.checked.part, request.creator, request.when);
      const bytes = zipSync(
        {
          '[Content_Types].xml': strToU8(TYPES),
          '_rels/.rels': strToU8(RELATIONS),
          '3D/3dmodel.model': strToU8(model),
        },
        { mtime: zipTime(request.when), level: 6 },
      );
      return { bytes, notes: mesh.notes };
    },
  };
}

/** A zip holds times from 1980 on (APPNOTE 4.4.6, two-second steps), and its writer takes none after 2099: the nearest of those. */
function zipTime(when: Date): Date {
  const [first, last] = [new Date(1980, 0, 1), new Date(2099, 11, 31)];
  return when < first ? first : when > last ? last : when;
}

function modelOf({ points, triangles }: Triangles, part: Part, creator: string, when: Date): string {
  const meta = (name: string, value: string | undefined) =>
    value === undefined ? [] : [`<metadata name="${name}">${markup(value)}</metadata>`];
  const said = [
    part.revision === undefined ? [] : [`revision ${part.revision}`],
    part.material ? [`material ${part.material.name}`] : [],
    part.tolerance ? [`general tolerance ${part.tolerance.name}`] : [],
  ].flat();
  const material = part.material
    ? [`<basematerials id="1"><base name="${markup(part.material.name)}" displaycolor="${GREY}"/></basematerials>`]
    : [];
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<model unit="millimeter" xml:lang="en" xmlns="${CORE}">`,
    ...meta('Title', part.title ?? part.name),
    ...meta('Description', said.length > 0 ? said.join(', ') : undefined),
    ...meta('Application', creator),
    ...meta('CreationDate', when.toISOString()),
    '<resources>',
    ...material,
    `<object id="2" type="model" name="${markup(part.name)}"${part.material ? ' pid="1" pindex="0"' : ''}>`,
    '<mesh>',
    '<vertices>',
    ...triples(points, (x, y, z) => `<vertex x="${decimal(x)}" y="${decimal(y)}" z="${decimal(z)}"/>`),
    '</vertices>',
    '<triangles>',
    ...triples(triangles, (a, b, c) => `<triangle v1="${a}" v2="${b}" v3="${c}"/>`),
    '</triangles>',
    '</mesh>',
    '</object>',
    '</resources>',
    '<build><item objectid="2"/></build>',
    '</model>',
    '',
  ].join('\n');
}

function triples(
  numbers: Float32Array | Uint32Array,
  write: (a: number, b: number, c: number) => string,
): readonly string[] {
  return Array.from({ length: numbers.length / 3 }, (_, i) =>
    write(numbers[3 * i]!, numbers[3 * i + 1]!, numbers[3 * i + 2]!),
  );
}

/** The shortest decimal that single precision reads back as the same number. */
export function decimal(x: number): string {
  if (x === 0) return '0';
  for (let digits = 6; digits < 9; digits++) {
    const short = Number(x.toPrecision(digits));
    if (Math.fround(short) === x) return String(short);
  }
  return String(Number(x.toPrecision(9)));
}
