import type { CompletionItemKind } from './shapes';

/** A name or value that a document's author may pick. */
export interface Suggestion {
  readonly label: string;
  readonly detail: string;
  readonly kind: CompletionItemKind;
}
