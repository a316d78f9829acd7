/** How near is the same is said by name (`server/src/tolerance.ts`), or beside a constant that says what it is for. */
import assert from 'node:assert/strict';
import {
  isBinaryExpression,
  isNumericLiteral,
  isVariableDeclaration,
  type Node,
  SyntaxKind,
} from 'typescript/unstable/ast';
import { theSource } from './source';

const HOME = 'server/src/';
/** Steps of searches and of a kernel that still stand as bare numbers. It may only shrink. */
const STILL_BARE = 58;
const NAMED = new Set(['1e-3', '1e-4', '1e-6', '1e-9', '1e-12']);

/** Numbers like `1e-7` in a file that are no constant's and scale nothing. */
function bare(file: string): readonly string[] {
  const syntax = theSource().syntax(file);
  const found: string[] = [];
  const visit = (node: Node): void => {
    if (isNumericLiteral(node) && /e-/.test(node.getText(syntax))) {
      const { parent } = node;
      const scales = isBinaryExpression(parent) && SCALES.has(parent.operatorToken.kind);
      if (!scales && !isVariableDeclaration(parent)) found.push(node.getText(syntax));
    }
    node.forEachChild(visit);
  };
  visit(syntax);
  return found;
}
const SCALES: ReadonlySet<SyntaxKind> = new Set([SyntaxKind.AsteriskToken, SyntaxKind.SlashToken]);

describe('tolerances', function () {
  this.timeout(120_000);
  const found = () =>
    theSource()
      .files.filter((f) => f.startsWith(HOME) && !f.startsWith(`${HOME}tables/`))
      .flatMap((file) => bare(file).map((number) => ({ file, number })));

  it('that have a name are called by it', () => {
    const wrong = found().filter(({ number }) => NAMED.has(number));
    assert.deepEqual(wrong, [], 'write ROUNDING, SAME, … of server/src/tolerance.ts');
  });

  it('stand beside a name that says what they are for', () => {
    const numbers = found();
    assert.ok(numbers.length <= STILL_BARE, `${numbers.length} stand as bare numbers`);
  });
});
