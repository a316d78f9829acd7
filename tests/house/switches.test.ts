/**
 * A switch over the members of a union says each of them and ends in `satisfies never` (or `undefined`, where nothing may
 * be told apart too): a member that is added later does not compile until every switch knows it.
 */
import assert from 'node:assert/strict';
import {
  isDefaultClause,
  isSatisfiesExpression,
  isSwitchStatement,
  type Node,
  type SourceFile,
  type SwitchStatement,
} from 'typescript/unstable/ast';
import type { Checker } from 'typescript/unstable/sync';
import { theSource } from './source';

/** Switches that do not yet: how many in which file. The list may only become shorter. */
const LEFT: Readonly<Record<string, number>> = {
  'server/src/planning/items.ts': 1,
  'server/src/planning/table-fixture.ts': 1,
  'server/src/process/operations/priced.ts': 2,
  'server/src/process/stock/partial.ts': 1,
  'server/src/rules/hold/parallels.ts': 1,
  'server/src/rules/shop-kit.ts': 1,
  'server/src/service/view/names.ts': 1,
};

/** Of text alone everything else is one case: what is switched over must be one of some words. */
function isUnion(of: Node, checker: Checker): boolean {
  const type = checker.getTypeAtLocation(of);
  return type !== undefined && !/^(?:string|number|unknown)(?: \| undefined)?$/.test(checker.typeToString(type));
}

function endsInNever(node: SwitchStatement): boolean {
  const last = [...node.caseBlock.clauses].find(isDefaultClause);
  let found = false;
  const visit = (child: Node): void => {
    if (isSatisfiesExpression(child) && ['never', 'undefined'].includes(child.type.getText())) found = true;
    child.forEachChild(visit);
  };
  last?.forEachChild(visit);
  return found;
}

function open(file: SourceFile, checker: Checker): number {
  let count = 0;
  const visit = (node: Node): void => {
    if (isSwitchStatement(node) && isUnion(node.expression, checker) && !endsInNever(node)) count++;
    node.forEachChild(visit);
  };
  visit(file);
  return count;
}

describe('switches over unions', function () {
  this.timeout(120_000);

  it('end in `satisfies never`, so that none leaves a member out', () => {
    const { files, syntax, checker } = theSource();
    const ours = files.filter((file) => /^(?:server|client)\//.test(file));
    const found = ours.map((file) => [file, open(syntax(file), checker(file))] as const);
    const more = found.filter(([file, n]) => n > (LEFT[file] ?? 0)).map(([file, n]) => `'${file}': ${n},`);
    assert.deepEqual(more, []);
    const known = new Map(found);
    const gone = Object.entries(LEFT).filter(([file, n]) => (known.get(file) ?? 0) < n);
    assert.deepEqual(gone, [], 'take these out of LEFT');
  });
});
