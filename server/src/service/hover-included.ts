/** Hovers in an entry of `include`: what it brings, and what a name of the other file is. */
import { code, escapeMarkdown } from '../text/markdown';
import type { Cursor } from './cursor';
import { featureText } from './feature-text';
import { calledHere, includesOf, type NamedThere, namesThere, thereOf } from './included-there';
import type { PartSnapshot } from './snapshot';

/** On an entry of `include`: what it brings. On a name in it: what that is. */
export function includeText({ checked: { part, tree } }: PartSnapshot, { path, scalar }: Cursor): string[] {
  const [section, by, field] = path;
  if (section !== 'include') return [];
  const name = scalar && namesThere(tree).find(({ span }) => isIn(scalar.span, span));
  if (name) return thereText({ part, tree }, name);
  if (field !== undefined && field !== 'from') return [];
  const lines = part.features.flatMap((f) => {
    const { included } = f;
    if (!included || included.by !== by) return [];
    const was = included.name === f.name ? '' : ` (${code(included.name)} there)`;
    return [`- ${code(f.name)}${was}: ${escapeMarkdown(featureText(f, part))}`];
  });
  return lines.length > 0 ? [lines.join('\n')] : [];
}

const isIn = (outer: NamedThere['span'], inner: NamedThere['span']) =>
  outer.block === inner.block && outer.from <= inner.from && inner.to <= outer.to;

/** A feature or parameter of the other file, with what it is called or comes to here. */
function thereText({ part, tree }: Pick<PartSnapshot['checked'], 'part' | 'tree'>, named: NamedThere): string[] {
  const { by, kind, name, map } = named;
  const there = thereOf(tree, by);
  const file = includesOf(tree).find((e) => e.by === by)?.file ?? '';
  if (kind === 'parameter') {
    const parameter = there?.part.parameters.get(name);
    return parameter ? [`${code(name)} is ${code(parameter.text)} in ${escapeMarkdown(file)}`] : [];
  }
  const called = calledHere(map, name);
  const here = part.features.find((f) => f.included?.by === by && f.included.name === name);
  const feature = here ?? there?.part.featureByName.get(name);
  if (!there || !feature) return [];
  const of = here ? part : there.part;
  const what = called === undefined ? `not taken from ${escapeMarkdown(file)}` : `${code(called)} here`;
  return [`${code(name)}: ${escapeMarkdown(featureText(feature, of))}; ${what}`];
}
