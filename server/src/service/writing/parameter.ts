/** A number gets a name, and a name is written as its number again. */
import { partMentions } from '../../model/names';
import { scalarsOf } from '../../model/scalars';
import { addText, removeEntry } from '../../text/edit';
import { eolOf, lineEndOf, lineStartOf, spanAt, stepOf } from '../../text/layout';
import { bracketed, cut, piecesOf } from '../../text/pieces';
import { at, entry, type ScalarNode, type SpanEdit, type TextTree, within } from '../../text/tree';
import { Draft, type Rewriting, type Spot, type Subject, spotAt } from './subject';

export function parameterRewritings(subject: Subject): readonly Rewriting[] {
  const spot = spotAt(subject);
  return [...named(subject, spot), ...written(subject, spot)];
}

/** The number under the cursor. */
function named(subject: Subject, { path, scalar, shape, onKey }: Spot): readonly Rewriting[] {
  if (!scalar || onKey || !shape?.meta.unit || path[0] === 'parameters') return [];
  const at = offsetIn(subject, scalar);
  const number = piecesOf(scalar.source)?.numbers.find((n) => n.from <= at && at <= n.to);
  if (!number) return [];
  const source = scalar.source.slice(number.from, number.to).trim();
  const name = freeName(subject, path);
  return [
    {
      id: 'name-number',
      title: `Make ${source} a parameter: ${name}`,
      kind: 'refactor.extract',
      keeps: 'part',
      make: () => {
        const { value, tolerance } = cut(scalar.source);
        // A number that stands alone is its value; one with a unit stays whole where others are reckoned with it.
        const newText =
          value === source && number.from === 0
            ? name + tolerance
            : scalar.source.slice(0, number.from) + name + scalar.source.slice(number.from + source.length);
        const put: SpanEdit = { span: scalar.span, newText: scalar.quoted ? JSON.stringify(newText) : newText };
        return new Draft(subject.tree).make(() => [put]).make((tree) => define(tree, name, source)).text;
      },
    },
  ];
}

function offsetIn({ tree, start }: Subject, scalar: ScalarNode): number {
  return start - tree.locate(scalar.span).start - (scalar.quoted ? 1 : 0);
}

/** By what it is of and which size: `mount-depth`. */
function freeName({ part }: Subject, path: readonly PropertyKey[]): string {
  const [section, of] = path;
  const keys = path.filter((p): p is string => typeof p === 'string');
  const last = keys.at(-1) ?? 'size';
  const stem = section === 'features' ? `${String(of)}-${last}` : keys.slice(-2).join('-');
  const clean = stem.toLowerCase().replace(/[^a-z0-9-]/g, '-');
  for (let n = 1; ; n++) {
    const name = n === 1 ? clean : `${clean}-${n}`;
    if (!part.parameters.has(name)) return name;
  }
}

/** At the end of the parameters, or where these stand in a part: before its body. */
function define(tree: TextTree, name: string, value: string): readonly SpanEdit[] {
  const { root, text } = tree;
  const parameters = at(root, 'parameters');
  if (parameters?.type === 'map' && parameters.entries.length > 0) return addText(tree, parameters, name, value);
  if (!root) return [];
  const eol = eolOf(text);
  const line = `${' '.repeat(stepOf(tree))}${name}: ${value}`;
  const known = entry(root, 'parameters');
  if (known) {
    const end = lineEndOf(text, tree.locate(known.key.span).end);
    return [{ span: spanAt(tree, '', end, end), newText: eol + line }];
  }
  const before = root.entries.find((e) => e.key.value === 'body' || e.key.value === 'features') ?? root.entries[0]!;
  const start = lineStartOf(text, tree.locate(before.key.span).start);
  return [{ span: spanAt(tree, '', start, start), newText: `parameters:${eol}${line}${eol}` }];
}

/** The parameter under the cursor. */
function written(subject: Subject, { scalar }: Spot): readonly Rewriting[] {
  const { tree } = subject;
  if (!scalar) return [];
  const here = partMentions(tree).find((m) => {
    if (m.kind !== 'parameter') return false;
    const { start, end } = tree.locate(m.span);
    return start <= subject.start && subject.end <= end;
  });
  const home = here && entry(at(tree.root, 'parameters'), here.name);
  if (!here || home?.value?.type !== 'scalar') return [];
  const value = home.value.source.trim();
  return [
    {
      id: `write-${here.name}`,
      title: `Write ${value} in place of ${here.name}`,
      kind: 'refactor.inline',
      keeps: 'part',
      make: () => new Draft(tree).make((t) => inPlace(t, here.name, value)).make((t) => undefine(t, here.name)).text,
    },
  ];
}

function inPlace(tree: TextTree, name: string, value: string): readonly SpanEdit[] {
  return [...scalarsOf('part', tree.root)].flatMap(({ node, shape }) => {
    const pieces = shape.meta.unit ? piecesOf(node.source) : undefined;
    if (!pieces) return [];
    const newText = pieces.expression.type === 'name' ? value : bracketed(value);
    return pieces.names.filter((n) => n.name === name).map((n) => ({ span: within(node, n.from, n.to), newText }));
  });
}

function undefine(tree: TextTree, name: string): readonly SpanEdit[] {
  const own = entry(tree.root, 'parameters');
  const gone = own?.value?.type === 'map' ? entry(own.value, name) : undefined;
  if (own?.value?.type !== 'map' || !gone || !tree.root) return [];
  return own.value.entries.length === 1 ? removeEntry(tree, tree.root, own) : removeEntry(tree, own.value, gone);
}
