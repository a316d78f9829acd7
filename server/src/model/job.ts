/** From a job's text to the job. Whether the files it names exist is not known here. */
import { at, entry, type MapEntry, type MapNode, scalarAt, type TextTree } from '../text/tree';
import { isSound, judgeTop } from './header';
import type { Job, JobLimit, JobPart, Saw } from './job-model';
import { sharedParameters } from './job-parameters';
import { readJoints } from './joints';
import type { QuantityKind } from './quantity';
import { quote } from './resolve/problem';
import { jobPart, jobSchema } from './schema/job';
import { Fields } from './shop-fields';

const USUAL_KERF_MM = 2;

/** Works out a job from its text. Never throws; what could not be understood is left out and named in `problems`. */
export function resolveJob(tree: TextTree): Job {
  const root = tree.root;
  const fields = new Fields(scalarAt(root, 'units')?.source === 'in' ? 'in' : 'mm');
  judgeTop(fields, jobSchema, root, 'A job', 'job');
  const shop = path(fields, root, 'shop');
  const parts = readParts(fields, root);
  const joints = readJoints(fields, root, namesIn(root));
  const massLimitG = limit(fields, root, 'mass-limit', 'mass');
  const hours = limit(fields, root, 'hours', 'time', 'h');
  const evening = limit(fields, root, 'evening', 'time', 'h');
  return {
    name: scalarAt(root, 'job')?.source ?? '',
    units: fields.units,
    ...(shop && { shopPath: shop }),
    parts,
    joints,
    parameters: sharedParameters(fields, root),
    ...(massLimitG && { massLimitG }),
    ...(hours && { hours: inHours(hours) }),
    ...(evening && { evening: inHours(evening) }),
    saw: saw(fields, root),
    assumed: fields.assumed,
    problems: fields.problems,
  };
}

function readParts(fields: Fields, root: MapNode | undefined): readonly JobPart[] {
  const section = entry(root, 'parts');
  if (!section) {
    if (root) {
      const span = scalarAt(root, 'job')?.span ?? { ...root.span, to: root.span.from + 1 };
      fields.problem(
        'form/schema',
        'A job needs `parts`. Write each like `yoke: { spec: yoke.part.yaml, quantity: 2 }`.',
        span,
      );
    }
    return [];
  }
  if (section.value?.type !== 'map') {
    const message =
      '`parts` needs a name for each part, and its file. Write it like `yoke: { spec: parts/yoke.part.yaml, quantity: 2 }`.';
    fields.problem('form/schema', message, section.value?.span ?? section.key.span);
    return [];
  }
  const seen = new Map<string, string>();
  return section.value.entries.flatMap((one) => readPart(fields, one, seen) ?? []);
}

/** Also of parts that could not be understood: they are known by name. */
function namesIn(root: MapNode | undefined): readonly string[] {
  const parts = at(root, 'parts');
  return parts?.type === 'map' ? parts.entries.map((e) => String(e.key.value)) : [];
}

function readPart(fields: Fields, one: MapEntry, seen: Map<string, string>): JobPart | undefined {
  const name = String(one.key.value);
  const what = `Part ${quote(name)}`;
  if (one.value === undefined) {
    fields.problem(
      'form/schema',
      `${what} has nothing in it yet. Write its file, like \`spec: yoke.part.yaml\`.`,
      one.key.span,
    );
    return undefined;
  }
  if (!isSound(fields, jobPart, one.value, what, one.key.span) || one.value.type !== 'map') return undefined;
  const before = fields.problems.length;
  const spec = path(fields, one.value, 'spec');
  const quantityNode = scalarAt(one.value, 'quantity');
  const quantity = quantityNode && fields.numberOf(quantityNode, 'quantity', 1, true);
  if (fields.problems.length > before || !spec) return undefined;
  const variant = scalarAt(one.value, 'variant');
  const made = `${spec.name} ${variant?.source ?? ''}`;
  const twin = seen.get(made);
  if (twin !== undefined) {
    fields.problem(
      'form/schema',
      `${what} is the same file as ${quote(twin)}. Give one of them the sum, and delete the other.`,
      spec.span,
    );
  }
  seen.set(made, name);
  const note = fields.word(one.value, 'note');
  return {
    name,
    span: one.key.span,
    spec,
    ...(variant && { variant: { name: variant.source, span: variant.span } }),
    ...(quantityNode && quantity !== undefined && { quantity: { value: quantity, span: quantityNode.span } }),
    ...(note !== undefined && { note }),
    whole: one.span,
  };
}

/** A file's path, with `/` whatever the author's system writes. */
function path(
  fields: Fields,
  map: MapNode | undefined,
  key: string,
): { name: string; span: MapNode['span'] } | undefined {
  const node = scalarAt(map, key);
  if (!node) {
    const other = entry(map, key);
    if (other)
      fields.problem(
        'form/schema',
        `\`${key}\` needs the path of a file. Write it like \`campus.shop.yaml\`.`,
        other.value?.span ?? other.key.span,
      );
    return undefined;
  }
  const name = node.source.trim().replaceAll('\\', '/');
  if (name !== '' && node.value !== null) return { name, span: node.span };
  fields.problem('form/schema', `\`${key}\` needs the path of a file. Write it like \`campus.shop.yaml\`.`, node.span);
  return undefined;
}

function limit(
  fields: Fields,
  root: MapNode | undefined,
  key: string,
  kind: QuantityKind,
  bare?: string,
): JobLimit | undefined {
  const node = scalarAt(root, key);
  const value = fields.quantity(root, key, kind, bare);
  if (!node || value === undefined) return undefined;
  if (value > 0) return { value, text: node.source, span: node.span };
  fields.problem('form/schema', `\`${key}\` is 0. Make it more, like \`4\`.`, node.span);
  return undefined;
}

/** Times are read in seconds. */
function inHours(limit: JobLimit): JobLimit {
  return { ...limit, value: limit.value / 3600 };
}

function saw(fields: Fields, root: MapNode | undefined): Saw {
  const length = (key: string) => (scalarAt(root, key) ? fields.lengthFrom0(root, key) : undefined);
  const span = scalarAt(root, 'job')?.span;
  const usual = () =>
    span && !scalarAt(root, 'saw-kerf')
      ? fields.assume({ of: 'job', span, field: 'saw-kerf' }, USUAL_KERF_MM, 'common practice', ' mm')
      : USUAL_KERF_MM;
  return {
    kerfMm: length('saw-kerf') ?? usual(),
    clampMm: length('saw-clamp') ?? 0,
    trimMm: length('saw-trim') ?? 0,
  };
}
