/** Tools of a shop, from their text: the schema by the kind, then the kind's own reading. What the values say together is checked in `shop-checks.ts`. */

import { type MapEntry, type MapNode, scalarAt } from '../text/tree';
import { isSound } from './header';
import { code, fewOf, nearest, quote, replace } from './resolve/problem';
import type { Fields } from './shop-fields';
import { TOOL_KINDS, TOOL_KINDS_BY_NAME, type Tool, type ToolKind } from './tool-kinds';
import { ToolReader } from './tool-kinds/reader';

/** One tool; undefined where it cannot be understood, which is then told. */
export function readTool(fields: Fields, entry: MapEntry): Tool | undefined {
  const name = String(entry.key.value);
  const node = entry.value;
  if (node?.type !== 'map') {
    fields.problem(
      'form/schema',
      `Tool ${quote(name)} has no entries. Write them like \`{ kind: drill, diameter: 4.2 }\`.`,
      entry.key.span,
    );
    return undefined;
  }
  const kind = kindOf(fields, entry, node);
  if (!kind) return undefined;
  if (!isSound(fields, TOOL_KINDS_BY_NAME[kind].schema, node, `Tool \`${name}\``, entry.key.span)) return undefined;
  const before = fields.problems.length;
  const tool = TOOL_KINDS_BY_NAME[kind].read(new ToolReader(fields, entry, node, name));
  // A field that is there but cannot be read was told of; the tool is not guessed at.
  return fields.problems.length > before ? undefined : tool;
}

function kindOf(fields: Fields, entry: MapEntry, node: MapNode): ToolKind | undefined {
  const scalar = scalarAt(node, 'kind');
  const what = `Tool ${quote(String(entry.key.value))}`;
  if (!scalar) {
    fields.problem('form/schema', `${what} needs \`kind\`. Write it like \`kind: drill\`.`, entry.key.span);
    return undefined;
  }
  const kind = TOOL_KINDS.find((k) => k === scalar.source);
  if (kind) return kind;
  const like = nearest(scalar.source, TOOL_KINDS);
  const message = like
    ? `There is no kind of tool ${quote(scalar.source)}. Did you mean \`${like}\`?`
    : `There is no kind of tool ${quote(scalar.source)}. Write ${fewOf(code(TOOL_KINDS))}.`;
  fields.problem('form/schema', message, scalar.span, like ? { fixes: [replace(scalar.span, like)] } : {});
  return undefined;
}
