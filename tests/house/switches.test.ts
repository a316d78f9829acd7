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
    assert.deepEqual(
      found.filter(([, n]) => n > 0),
      [],
    );
  });
});
