/**
 * What depends on the kind of a feature or a tool is said in the kind's home, in a table over forms, or in a switch that
 * ends in `satisfies never`: a kind that is left out somewhere does not compile. Found by the compiler, not by a pattern.
 */
import assert from 'node:assert/strict';
import { join, relative, resolve } from 'node:path';
import {
  isBinaryExpression,
  isCallExpression,
  isFunctionLikeDeclaration,
  isPropertyAccessExpression,
  isSatisfiesExpression,
  isStringLiteral,
  isSwitchStatement,
  type Node,
  type SourceFile,
  SyntaxKind,
} from 'typescript/unstable/ast';
import { API, type Checker } from 'typescript/unstable/sync';
import { KINDS } from '../../server/src/model/feature-kinds';
import { TOOL_KINDS } from '../../server/src/model/tool-kinds';

const ROOT = resolve(__dirname, '../..');
const SOURCE = join(ROOT, 'server/src');
const HOMES = ['model/feature-kinds/', 'model/tool-kinds/'];
const SETS: Readonly<Record<'feature' | 'tool', ReadonlySet<string>>> = {
  feature: new Set(KINDS),
  tool: new Set(TOOL_KINDS),
};

/** Places that still ask for two kinds or more by name. It may only shrink. */
const LEFT: Readonly<Record<string, number>> = {
  'geometry/solid/voids/face-outline.ts': 2,
  'process/access/tilted.ts': 1,
  'process/cutting/chip-load.ts': 1,
  'process/operations/form-cutters.ts': 1,
  'process/operations/passed-over-forms.ts': 1,
  'process/workholding/forces.ts': 1,
  'rules/access/reach.ts': 2,
  'rules/access/tilted.ts': 1,
  'rules/corner/inside-corners.ts': 1,
  'rules/cost/flat.ts': 1,
  'rules/wall/thicken.ts': 1,
  'service/suggestions.ts': 1,
  'service/view/cutters.ts': 1,
};

interface Asked {
  readonly of: 'feature' | 'tool';
  /** The function that asks, by its place. */
  readonly within: string;
  readonly kinds: readonly string[];
  readonly whole: boolean;
}

/** Which kinds an expression is one of; undefined where it is no feature's or tool's kind. */
function kindsOf(node: Node, checker: Checker): Asked['of'] | undefined {
  if (!isPropertyAccessExpression(node) || node.name.text !== 'kind') return undefined;
  const type = checker.getTypeAtLocation(node.expression);
  const kinds = type && checker.getPropertyOfType(type, 'kind');
  const text = kinds && checker.typeToString(checker.getTypeOfSymbol(kinds)!);
  const words = [...(text ?? '').matchAll(/"([^"]+)"/g)].map((m) => m[1]!);
  if (words.length === 0) return undefined;
  return (['feature', 'tool'] as const).find((of) => words.every((w) => SETS[of].has(w)));
}

function asked(file: SourceFile, checker: Checker): readonly Asked[] {
  const found: Asked[] = [];
  const visit = (node: Node, within: string): void => {
    const here = isFunctionLikeDeclaration(node) ? `${node.pos}` : within;
    if (isSwitchStatement(node)) {
      const of = kindsOf(node.expression, checker);
      if (of) found.push({ of, within: `switch ${node.pos}`, kinds: ['one', 'other'], whole: endsInNever(node) });
    } else if (isBinaryExpression(node) && EQUALS.has(node.operatorToken.kind) && isStringLiteral(node.right)) {
      const of = kindsOf(node.left, checker);
      if (of) found.push({ of, within: `${here} ${node.left.getText()}`, kinds: [node.right.text], whole: false });
    } else if (isCallExpression(node) && node.arguments.length === 1) {
      const [one] = node.arguments;
      const listed = isPropertyAccessExpression(node.expression) && LISTS.has(node.expression.name.text);
      const of = listed && one ? kindsOf(one, checker) : undefined;
      if (of) found.push({ of, within: `list ${node.pos}`, kinds: ['one', 'other'], whole: false });
    }
    node.forEachChild((child) => visit(child, here));
  };
  visit(file, 'file');
  return found;
}
const EQUALS: ReadonlySet<SyntaxKind> = new Set([
  SyntaxKind.EqualsEqualsEqualsToken,
  SyntaxKind.ExclamationEqualsEqualsToken,
]);
const LISTS: ReadonlySet<string> = new Set(['has', 'includes', 'indexOf']);

function endsInNever(node: Node): boolean {
  let found = false;
  const visit = (child: Node): void => {
    if (isSatisfiesExpression(child) && child.type.getText() === 'never') found = true;
    child.forEachChild(visit);
  };
  node.forEachChild(visit);
  return found;
}

/** How often a file asks for several kinds by name, each function and what it looks at counted once. */
function chains(file: SourceFile, checker: Checker): number {
  const byPlace = new Map<string, Set<string>>();
  for (const { within, kinds, whole } of asked(file, checker)) {
    if (whole) continue;
    const known = byPlace.get(within) ?? new Set<string>();
    for (const kind of kinds) known.add(kind);
    byPlace.set(within, known);
  }
  return [...byPlace.values()].filter((kinds) => kinds.size > 1).length;
}

describe('kinds of features and tools', () => {
  it('are told apart in their homes, in tables over forms, or in switches that end in `satisfies never`', function () {
    this.timeout(120_000);
    const api = new API({ cwd: ROOT });
    try {
      const project = api.updateSnapshot({ openProjects: [join(ROOT, 'tsconfig.json')] }).getProjects()[0]!;
      const { program, checker } = project;
      const files = program.getSourceFileNames().filter((name) => name.startsWith(`${SOURCE}/`));
      assert.ok(files.length > 500, `${files.length} files are seen`);
      const counted = files.flatMap((name): readonly (readonly [string, number])[] => {
        const path = relative(SOURCE, name);
        if (HOMES.some((home) => path.startsWith(home))) return [];
        const n = chains(program.getSourceFile(name)!, checker);
        return n > 0 ? [[path, n]] : [];
      });
      assert.deepEqual(Object.fromEntries(counted.sort()), LEFT);
    } finally {
      api.close();
    }
  });
});
