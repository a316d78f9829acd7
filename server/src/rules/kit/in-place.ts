/**
 * The named thing that a problem of the text is in, with its kind: `hole mount`, `set-up first`, `tool em-4`. What the
 * reader of the text says of a value knows only the value; with its thing before it, a line of a report stands by itself.
 */
import { KINDS } from '../../model/feature-kinds';
import { entry, type Span, scalarAt, type TextTree } from '../../text/tree';
import { capital } from './message';

/** What an entry of these sections is. A feature is called by its `kind`, where it has one. */
const SECTIONS: Readonly<Record<string, string>> = {
  features: 'feature',
  parameters: 'parameter',
  datums: 'datum',
  setups: 'set-up',
  tools: 'tool',
  holders: 'holder',
  vises: 'vise',
  'v-blocks': 'V-block',
  'angle-plates': 'angle plate',
  machines: 'machine',
  parts: 'part',
  joints: 'joint',
};
/** How the reader speaks of it: it knows the kind, and not the name. */
const UNNAMED = /^(?:An?|This|The) ([a-z-]+) (?=(?:has|needs|can|cannot|is)\b)/;

/** `features/mount#2` is the second `mount`. */
function placeOf({ block }: Span): readonly [section: string, name: string] | undefined {
  const slash = block.indexOf('/');
  return slash < 0 ? undefined : [block.slice(0, slash), block.slice(slash + 1).replace(/#\d+$/, '')];
}

function thingAt(span: Span, tree: TextTree): { readonly word: string; readonly name: string } | undefined {
  const [section = '', name = ''] = placeOf(span) ?? [];
  const word = Object.hasOwn(SECTIONS, section) ? SECTIONS[section]! : undefined;
  if (word === undefined || name === '' || name.length > 40) return undefined;
  const own = entry(tree.root, section)?.value;
  const kind = section === 'features' ? scalarAt(entry(own, name)?.value, 'kind')?.value : undefined;
  return { word: KINDS.find((known) => known === kind) ?? word, name };
}

/** A message of the reader with its thing before it, where it does not name that itself. */
export function inPlace(
  message: string,
  span: Span,
  tree: TextTree,
): { readonly message: string; readonly thing?: string } {
  const found = thingAt(span, tree);
  if (!found) return { message };
  const thing = `${found.word} ${found.name}`;
  if (message.includes(`\`${found.name}\``)) return { message, thing };
  const [own = '', of = ''] = UNNAMED.exec(message) ?? [];
  if (of === found.word || of === (found.word === 'set-up' ? 'setup' : 'feature'))
    return { message: `${capital(thing)} ${message.slice(own.length)}`, thing };
  const small = /^[A-Z](?:[a-z]+)?[ ,]/.test(message) ? message.charAt(0).toLowerCase() + message.slice(1) : message;
  return { message: `${capital(thing)}: ${small}`, thing };
}
