/** What is asked of the whole part besides its sizes: treatment, coat, edges, notes. */
import { at, entry, type MapNode, type ScalarNode, scalarAt } from '../../text/tree';
import type { Coating, Named, Part } from '../model';
import { type COATINGS, requirements } from '../schema/requirements';
import { type Shape, shapeOf } from '../schema/shape';
import { cutNamed } from './cut-named';
import type { CellDatabase } from './database';
import { type Evaluation, itemsOf, textOf } from './evaluation';
import { faultsOf } from './validate';

type Requirements = Pick<Part, 'treatment' | 'coating' | 'deburr' | 'notes'>;

/** Of each millimetre of coat, so much stands out of the surface. */
const GROWS: Readonly<Record<keyof typeof COATINGS, number>> = {
  anodised: 0.5,
  'hard-anodised': 0.5,
  'electroless-nickel': 1,
  zinc: 1,
  chrome: 1,
  paint: 1,
  'black-oxide': 0,
  chromate: 0,
};

const SHAPES = Object.fromEntries(
  Object.entries(requirements).map(([key, schema]) => [key, shapeOf(schema)]),
) as Readonly<Record<keyof typeof requirements, Shape>>;

export function requirementsOf(doc: CellDatabase, root: MapNode | undefined): Requirements {
  const nodes = (['treatment', 'coating', 'deburr', 'notes'] as const).map((key) => entry(root, key));
  const found = doc.cell('requirements', nodes, (work): Requirements => {
    const treatment = scalarAt(root, 'treatment');
    const coating = isSound(work, root, 'coating', 'The coating') ? coatingOf(work, root) : undefined;
    const deburr = isSound(work, root, 'deburr', '`deburr`') ? deburrOf(work, root) : undefined;
    const notes = isSound(work, root, 'notes', '`notes`') ? (itemsOf(at(root, 'notes')) as readonly ScalarNode[]) : [];
    return {
      ...(treatment && treatment.value !== null && { treatment: { name: textOf(treatment), span: treatment.span } }),
      ...(coating && { coating }),
      ...(deburr && { deburr }),
      notes: notes.map(textOf),
    };
  });
  return found === 'circle' ? { notes: [] } : found;
}

/** True where it is there and nothing stands in the way. */
function isSound(work: Evaluation, root: MapNode | undefined, key: keyof typeof SHAPES, what: string): boolean {
  const node = at(root, key);
  if (!node) return false;
  const faults = faultsOf(SHAPES[key], node, what);
  for (const f of faults) work.remark(f.message, f.span, f.fixes ? { fixes: f.fixes } : {});
  return !faults.some((f) => f.breaks);
}

function coatingOf(work: Evaluation, root: MapNode | undefined): Coating | undefined {
  const node = at(root, 'coating')!;
  const kind = scalarAt(node, 'kind')!;
  const name = kind.value as keyof typeof COATINGS;
  const thickness = work.length(node, 'thickness', 'from-zero');
  if (!thickness && GROWS[name] > 0 && !at(node, 'thickness')) {
    work.remark('A coat that grows needs its `thickness`. Write it like `thickness: 0.015 ±0.005`.', kind.span);
    return undefined;
  }
  const masked = itemsOf(at(node, 'masked')).flatMap((n): readonly Named[] => {
    const named = n.type === 'scalar' ? cutNamed(work, n) : undefined;
    return named ? [named] : [];
  });
  const { lowerMm = 0, upperMm = 0 } = thickness?.tolerance ?? {};
  const mm = thickness?.mm ?? 0;
  const grows = GROWS[name];
  return {
    name,
    ...(thickness && { thickness }),
    growsMm: [grows * Math.max(0, mm + lowerMm), grows * (mm + upperMm)],
    masked,
    span: node.span,
    kindSpan: kind.span,
  };
}

function deburrOf(work: Evaluation, root: MapNode | undefined): Part['deburr'] {
  const node = at(root, 'deburr');
  const [outside, inside] = [work.length(node, 'outside'), work.length(node, 'inside')];
  return { ...(outside && { outside }), ...(inside && { inside }) };
}
