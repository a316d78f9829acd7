/** One part as a page of its own: what a team-mate without the editor gets. */
import { ExportError, type Exported, type ExportRequest } from '../export/writer';
import { FACES, type Face } from '../model/faces';
import type { Part, Setup } from '../model/model';
import { figuresAtHand } from '../report/at-hand';
import { heldText } from '../report/held';
import type { CheckedPart } from '../rules/checked-part';
import { rangeOf } from '../service/lsp';
import { type PartSnapshot, wholePart } from '../service/snapshot';
import type { MeshMaker } from '../service/view/mesh-maker';
import { AT_ONCE, Pictures } from '../service/view/pictures';
import type { PartPicture } from '../service/view/protocol';
import { formatLength } from '../text/format';
import { linesOf } from '../text/lines';
import { heading, lineLink, listing, paragraph, section, table, tag } from './article';
import { type PageKit, pageText } from './frame';
import { viewsSvg } from './views';

/** Of work on its way: a picture of each moment is in the page, and need not be as fine. */
const MOMENT_CHORD_MM = 0.1;
/** Views side by side; more are too small to be read. */
const MOST_VIEWS = 4;

export async function partPage(
  { checked, creator }: ExportRequest,
  meshes: MeshMaker,
  kit: PageKit,
): Promise<Exported> {
  const snapshot = snapshotOf(checked);
  const pictures = new Pictures(meshes, AT_ONCE);
  const picture = await pictures.picture(snapshot, 0);
  if (!picture) throw new ExportError('nothing of it can be drawn');
  const moments = await momentsOf(snapshot, picture, pictures);
  const page = {
    title: checked.part.title ?? checked.part.name,
    article: articleOf(snapshot, picture.summary),
    creator,
    view: { body: kit.bodies.part, carried: { shown: [{ type: 'picture', picture }], moments } },
  };
  const bytes = new TextEncoder().encode(pageText(page, kit));
  return { bytes, notes: [sizeNote(bytes)] };
}

export function sizeNote({ length }: Uint8Array): string {
  const size = length < 1e6 ? `${Math.ceil(length / 1000)} kB` : `${(length / 1e6).toFixed(1)} MB`;
  return `${size}, opens in any browser without a network.`;
}

function snapshotOf(checked: CheckedPart): PartSnapshot {
  const { text } = checked.tree;
  return wholePart({
    path: checked.part.name,
    text,
    lines: linesOf(text),
    checked,
    shopPath: undefined,
    besides: [],
  });
}

/** Before and after each set-up, in order; not after each pass: that would be a mesh more for each. */
async function momentsOf(snapshot: PartSnapshot, { setups }: PartPicture, pictures: Pictures) {
  const found: PartPicture[] = [];
  for (let setup = 0; setup < setups.length; setup++)
    for (const when of ['before', 'after'] as const) {
      const wanted = { moment: { setup, when }, chordMm: MOMENT_CHORD_MM };
      const picture = await pictures.picture(snapshot, 0, wanted);
      if (picture) found.push({ ...picture, setups: picture.setups.map(({ passes: _, ...s }) => s) });
    }
  return found;
}

/** `summary`: as it is read aloud. */
function articleOf(snapshot: PartSnapshot, summary: string): string {
  const { checked, text } = snapshot;
  const { part, solid } = checked;
  const name = { part: 0, side: 'after' } as const;
  const views = viewsSvg(
    { after: solid },
    { show: 'after', faces: facesOf(part.features), title: part.name, prefix: 'v0-' },
  );
  return [
    heading(1, part.title ?? part.name),
    paragraph(summary.replaceAll('`', '')),
    ...(views === undefined ? [] : [`<div class="drawn">${views}</div>`]),
    section(
      'Figures',
      table(
        ['', 'value', 'how'],
        figuresAtHand(checked).map((f) => [f.name, f.value, f.how.replaceAll('`', '')]),
      ),
    ),
    section(
      'Findings',
      findingsTable(snapshot),
      ...(snapshot.findings.length === 0 ? [paragraph('Nothing was found.')] : []),
    ),
    section('Accepted', acceptedTable(part)),
    section('Set-ups', setupsTable(part)),
    section('The text', listing(name, text)),
  ]
    .filter((s) => s !== '')
    .join('\n');
}

function findingsTable(snapshot: PartSnapshot): string {
  const rows = snapshot.findings.map((f) => [
    tag(f.severity),
    f.message.replaceAll('`', ''),
    f.rule,
    lineLink({ part: 0, side: 'after' }, rangeOf(snapshot, f.span).start.line),
  ]);
  return table(['', 'finding', 'rule', 'where'], rows);
}

function acceptedTable({ accept }: Part): string {
  const rows = accept.map(({ rule, of, because }) => [rule.name, of?.name ?? '', because ?? 'no reason given']);
  return table(['rule', 'of', 'because'], rows);
}

function setupsTable({ setups = [], units }: Part): string {
  const zero = (setup: Setup) =>
    (['x', 'y', 'z'] as const).flatMap((a) => (setup.zero[a] ? [`${a} ${setup.zero[a].name}`] : [])).join(', ');
  const rows = setups.map((s) => [
    s.name,
    s.up?.name ?? '',
    s.hold ? heldText(s.hold, (mm) => formatLength(mm, units)) : '',
    zero(s),
    s.cuts.map((c) => c.name).join(', '),
  ]);
  return table(['set-up', 'up', 'held', 'zero', 'cuts'], rows);
}

/** Those that carry most, the top and the front where none does. */
export function facesOf(features: readonly { readonly face: Face }[]): readonly Face[] {
  const carries = (face: Face) => features.filter((f) => f.face === face).length;
  const found = FACES.filter((f) => carries(f) > 0).sort((a, b) => carries(b) - carries(a));
  return found.length > 0 ? found.slice(0, MOST_VIEWS) : ['top', 'front'];
}
