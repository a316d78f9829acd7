/**
 * The project's own source as the compiler reads it: who imports and exports what, and the functions with their sizes.
 * One compiler reads it once for all tests in this folder that run in the same process.
 */
import { existsSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import * as ast from 'typescript/unstable/ast';
import { API, type Project } from 'typescript/unstable/sync';

export const ROOT = resolve(__dirname, '../..');
const CONFIGS = ['tsconfig.json', 'client/view/tsconfig.json'];

/** A module that a file names, with what it takes of it: `*` is all of it. */
export interface Import {
  readonly file: string;
  /** A file from the root for a module of our own, otherwise the name as written. */
  readonly target: string;
  readonly names: readonly string[];
  /** Gone after compiling. */
  readonly typeOnly: boolean;
}

interface Export {
  readonly file: string;
  readonly name: string;
}

interface Func {
  readonly file: string;
  readonly name: string;
  readonly line: number;
  readonly lines: number;
  readonly parameters: number;
}

interface Source {
  /** Every file of the project, from its root. */
  readonly files: readonly string[];
  readonly imports: readonly Import[];
  readonly exports: readonly Export[];
  readonly functions: readonly Func[];
  readonly syntax: (file: string) => ast.SourceFile;
  /** Who knows the types of that file's nodes. */
  readonly checker: (file: string) => Project['checker'];
}

function resolved(from: string, module: string): string {
  if (!module.startsWith('.')) return module;
  const path = resolve(ROOT, dirname(from), module);
  const tries = [path, `${path}.ts`, join(path, 'index.ts')].filter((t) => /\.\w+$/.test(t));
  return relative(ROOT, tries.find(existsSync) ?? path);
}

const textOf = (node: ast.Node | undefined) => (node && ast.isStringLiteral(node) ? node.text : undefined);

function importOf(file: string, node: ast.ImportDeclaration): Import {
  const target = resolved(file, textOf(node.moduleSpecifier)!);
  const clause = node.importClause;
  if (!clause) return { file, target, names: [], typeOnly: false };
  const bound = clause.namedBindings;
  const specifiers = bound && ast.isNamedImports(bound) ? [...bound.elements] : [];
  const names = specifiers.map((s) => (s.propertyName ?? s.name).text);
  if (bound && ast.isNamespaceImport(bound)) names.push('*');
  if (clause.name) names.push('default');
  const typeOnly =
    clause.phaseModifier === ast.SyntaxKind.TypeKeyword ||
    (!clause.name && specifiers.length > 0 && specifiers.every((s) => s.isTypeOnly));
  return { file, target, names, typeOnly };
}

/** What is taken of a module and handed on. */
function handedOn(file: string, node: ast.ExportDeclaration): Import | undefined {
  const module = textOf(node.moduleSpecifier);
  if (module === undefined) return undefined;
  const clause = node.exportClause;
  const names =
    clause && ast.isNamedExports(clause) ? clause.elements.map((s) => (s.propertyName ?? s.name).text) : ['*'];
  return { file, target: resolved(file, module), names, typeOnly: node.isTypeOnly };
}

/** An import as a call, or in a type. */
function importCall(file: string, node: ast.Node): Import | undefined {
  if (ast.isCallExpression(node) && node.expression.kind === ast.SyntaxKind.ImportKeyword) {
    const module = textOf(node.arguments[0]);
    return module === undefined ? undefined : { file, target: resolved(file, module), names: ['*'], typeOnly: false };
  }
  if (ast.isImportTypeNode(node) && ast.isLiteralTypeNode(node.argument)) {
    const module = textOf(node.argument.literal);
    const name = node.qualifier && ast.isIdentifier(node.qualifier) ? node.qualifier.text : '*';
    return module === undefined ? undefined : { file, target: resolved(file, module), names: [name], typeOnly: true };
  }
  return undefined;
}

function exportedNames(node: ast.Node): string[] {
  if (ast.isExportDeclaration(node)) {
    const clause = node.exportClause;
    return clause && ast.isNamedExports(clause) ? clause.elements.map((s) => s.name.text) : [];
  }
  if (ast.isExportAssignment(node)) return ['default'];
  const modifiers = (node as { modifiers?: readonly ast.Node[] }).modifiers ?? [];
  if (![...modifiers].some((m) => m.kind === ast.SyntaxKind.ExportKeyword)) return [];
  if (ast.isVariableStatement(node)) return [...node.declarationList.declarations].flatMap((d) => boundNames(d.name));
  const name = (node as { name?: ast.Node }).name;
  return name && ast.isIdentifier(name) ? [name.text] : [];
}

function boundNames(name: ast.Node): string[] {
  if (ast.isIdentifier(name)) return [name.text];
  const elements = (name as { elements?: readonly ast.Node[] }).elements ?? [];
  return [...elements].flatMap((e) => (ast.isBindingElement(e) && e.name ? boundNames(e.name) : []));
}

const isFunc = (node: ast.Node) =>
  ast.isFunctionDeclaration(node) ||
  ast.isFunctionExpression(node) ||
  ast.isArrowFunction(node) ||
  ast.isMethodDeclaration(node) ||
  ast.isConstructorDeclaration(node) ||
  ast.isGetAccessorDeclaration(node) ||
  ast.isSetAccessorDeclaration(node);

/** From its first word to its last bracket; comments before it do not count. */
function funcOf(file: string, node: ast.Node, text: ast.SourceFile): Func {
  const line = (at: number) => text.getLineAndCharacterOfPosition(at).line;
  const start = line(node.getStart(text));
  const own = (node as { name?: ast.Node }).name;
  const given = own ?? (node.parent as { name?: ast.Node }).name;
  const parameters = (node as { parameters?: readonly ast.Node[] }).parameters ?? [];
  return {
    file,
    name: given && ast.isIdentifier(given) ? given.text : '(function)',
    line: start + 1,
    lines: line(node.end) - start + 1,
    parameters: [...parameters].length,
  };
}

function read(): Source {
  const api = new API({ cwd: ROOT });
  const snapshot = api.updateSnapshot({ openProjects: CONFIGS.map((c) => join(ROOT, c)) });
  const programs = snapshot.getProjects();
  const places = new Map<string, Project>();
  for (const project of programs)
    for (const name of project.program.getSourceFileNames()) {
      const file = relative(ROOT, name);
      if (!/^(?:client|server|tests)\/(?!.*\.d\.ts$)/.test(file) || places.has(file)) continue;
      places.set(file, project);
    }
  const files = [...places.keys()].sort();
  const syntax = (file: string) => places.get(file)!.program.getSourceFile(join(ROOT, file))!;
  const [imports, exports, functions] = [[] as Import[], [] as Export[], [] as Func[]];
  for (const file of files) {
    const text = syntax(file);
    const visit = (node: ast.Node): void => {
      const taken = ast.isImportDeclaration(node)
        ? importOf(file, node)
        : ast.isExportDeclaration(node)
          ? handedOn(file, node)
          : importCall(file, node);
      if (taken) imports.push(taken);
      if (isFunc(node)) functions.push(funcOf(file, node, text));
      node.forEachChild(visit);
    };
    for (const statement of text.statements) {
      for (const name of exportedNames(statement)) exports.push({ file, name });
      visit(statement);
    }
  }
  return { files, imports, exports, functions, syntax, checker: (file) => places.get(file)!.checker };
}

let source: Source | undefined;
export const theSource = (): Source => (source ??= read());
