/**
 * What the service answers with: plain data, in the terms of editors (lines and UTF-16 characters from 0). `lsp/` hands it
 * to a connection as it is; there the compiler holds it against the protocol's own types.
 */

interface Position {
  line: number;
  character: number;
}

export interface Range {
  start: Position;
  end: Position;
}

export interface Location {
  uri: string;
  range: Range;
}

export interface TextEdit {
  range: Range;
  newText: string;
}

/** Edits of whole files by name, or of one file with places for the author to fill in. */
export interface WorkspaceEdit {
  changes?: { [uri: string]: TextEdit[] };
  documentChanges?: { textDocument: { uri: string; version: number | null }; edits: SnippetEdit[] }[];
}

export interface SnippetEdit {
  range: Range;
  snippet: { kind: 'snippet'; value: string };
}

interface Markdown {
  kind: 'markdown';
  value: string;
}

export interface Hover {
  contents: Markdown;
  range?: Range;
}

// Numbers by which editors tell kinds apart; as the language server protocol counts them (LSP 3.18).
export const DiagnosticSeverity = { Error: 1, Warning: 2, Information: 3 } as const;
export const DiagnosticTag = { Unnecessary: 1 } as const;
export const CompletionItemKind = { Property: 10, Value: 12, Snippet: 15, Reference: 18, EnumMember: 20 } as const;
export const InsertTextFormat = { Snippet: 2 } as const;
export const InsertTextMode = { adjustIndentation: 2 } as const;
export const InlayHintKind = { Type: 1 } as const;
export const SymbolKind = {
  File: 1,
  Namespace: 3,
  Class: 5,
  Property: 7,
  Variable: 13,
  Object: 19,
  Key: 20,
  Event: 24,
} as const;
type OneOf<T> = T[keyof T];
export type CompletionItemKind = OneOf<typeof CompletionItemKind>;
export type SymbolKind = OneOf<typeof SymbolKind>;

export interface Diagnostic {
  range: Range;
  severity?: OneOf<typeof DiagnosticSeverity>;
  code?: string;
  codeDescription?: { href: string };
  source?: string;
  message: string;
  tags?: OneOf<typeof DiagnosticTag>[];
  relatedInformation?: DiagnosticRelatedInformation[];
  /** For programs that read findings: whom it is of, and its numbers. */
  data?: { readonly of: readonly string[]; readonly facts: Readonly<Record<string, string | number>> };
}

export interface DiagnosticRelatedInformation {
  location: Location;
  message: string;
}

export interface CodeAction {
  title: string;
  kind?: string;
  diagnostics?: Diagnostic[];
  isPreferred?: boolean;
  /** It cannot be chosen, and why. */
  disabled?: { reason: string };
  edit?: WorkspaceEdit;
  /** What is worked out when it is chosen. */
  data?: { readonly uri: string; readonly id: string; readonly range: Range };
}

export interface CompletionItem {
  label: string;
  kind?: CompletionItemKind;
  detail?: string;
  documentation?: Markdown;
  sortText?: string;
  filterText?: string;
  insertTextFormat?: OneOf<typeof InsertTextFormat>;
  insertTextMode?: OneOf<typeof InsertTextMode>;
  textEdit?: TextEdit;
  additionalTextEdits?: TextEdit[];
  /** What it is of, for who looks at it. */
  data?: { readonly kind: string; readonly path: readonly string[] };
}

export interface InlayHint {
  position: Position;
  label: string;
  kind?: OneOf<typeof InlayHintKind>;
  paddingLeft?: boolean;
  tooltip?: string;
  /** What it tells: what a text comes to, sizes that follow from it, or how it is cut. */
  data?: 'values' | 'sizes' | 'cutting';
}

export interface CodeLens {
  range: Range;
  command?: { title: string; command: string; arguments?: unknown[] };
}

export interface DocumentSymbol {
  name: string;
  detail?: string;
  kind: SymbolKind;
  range: Range;
  selectionRange: Range;
  children?: DocumentSymbol[];
}

export interface FoldingRange {
  startLine: number;
  endLine: number;
  kind?: string;
}
