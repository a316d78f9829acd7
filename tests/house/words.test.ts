/**
 * Every text in the source that somebody may read is written plainly: each string of three words and more, whatever it
 * takes for it to be printed. What findings, plans and hovers make of them is held in `tests/rules/words`.
 */
import assert from 'node:assert/strict';
import * as ast from 'typescript/unstable/ast';
import { faultsOfText } from '../rules/words/terms';
import { theSource } from './source';

/** Tables and generated files cite; German has its own words; a worksheet's formulae are no sentences. */
const OTHERS = /generated|\.data\.ts$|^server\/src\/tables\/|-de\.ts$|report\/(?:cut-formulae|tolerances)\.ts$/;
/** YAML of examples, HTML, SVG, shaders and style sheets; a letter count of CSS never begins a sentence. */
const NO_PROSE =
  /^(?:\S{1,2} )+\S{1,2}$|\b(?:kind|units|shop|joints): |<[a-z!?/]|\bvoid main\b|\{[a-z-]+:[^ ]|^Accept Add |tan\(lean\)|^depth: /;
/** Named once and read by programs since: a title of an annotation, a suite. */
const NAMES = ['::error title=not judged::', '<testsuite name="not judged"'];
/** Sources are cited in their own words; a page, a hover and the facts show `rule of thumb` for a limit without one. */
const cited = (text: string) => text.replace(/common practice(?:, no source)?/g, 'rule of thumb');

/** What stands there, a figure for each value that is put in. */
function textOf(node: ast.Node): string | undefined {
  if (ast.isStringLiteral(node) || ast.isNoSubstitutionTemplateLiteral(node)) return node.text;
  if (ast.isTemplateExpression(node))
    return node.head.text + [...node.templateSpans].map((s) => `7${s.literal.text}`).join('');
  return undefined;
}

interface Text {
  readonly where: string;
  readonly text: string;
}

function* textsOf(file: string): Generator<Text> {
  const source = theSource().syntax(file);
  const waiting: ast.Node[] = [source];
  for (let node = waiting.pop(); node; node = waiting.pop()) {
    if (ast.isImportDeclaration(node)) continue;
    const text = textOf(node);
    if (text !== undefined && /[a-z]{2}\S* \S/.test(text) && text.split(/\s+/).length >= 3)
      yield { where: `${file}:${source.getLineAndCharacterOfPosition(node.getStart(source)).line + 1}`, text };
    node.forEachChild((child) => {
      waiting.push(child);
    });
  }
}

function faultsOf({ where, text }: Text): readonly string[] {
  if (NO_PROSE.test(text) || NAMES.some((name) => text.includes(name))) return [];
  // A list of commands or a table is no sentence; each line of it is read by itself.
  const lines = /\n {2,}\S/.test(text) ? text.split('\n') : [text.replace(/\n+/g, ' ')];
  return lines.flatMap((line) => faultsOfText(cited(line)).map((fault) => `${where} ${fault}`));
}

describe('texts of the source', function () {
  this.timeout(60_000);
  it('are in plain words and short sentences', () => {
    const files = theSource().files.filter((f) => /^(?:server\/src|client)\//.test(f) && !OTHERS.test(f));
    const texts = files.flatMap((file) => [...textsOf(file)]);
    assert.ok(texts.length > 3500, `only ${texts.length} texts were found`);
    assert.deepEqual(texts.flatMap(faultsOf), []);
  });
});
