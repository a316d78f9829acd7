/**
 * What an editor asks for when somebody writes or looks round: a text laid out, a part said otherwise, tokens, help in
 * expressions, names and where they lead. It lies beside the server and is loaded when it is first asked for, so that a
 * sitting that only wants findings does without.
 */
import { definitionAt, prepareRename, referencesAt, renameAt } from '../names';
import { foundInWorkspace, highlightsAt, linkedAt, linksOf, selectionAt } from '../navigation';
import { laidOut, laidOutTyped } from './layout';
import { rewritingsOf, rewrittenAs } from './rewritings';
import { signatureAt } from './signature';
import { tokenEdits, tokensOf } from './tokens';

export const WRITING = {
  ...{ definitionAt, prepareRename, referencesAt, renameAt },
  ...{ foundInWorkspace, highlightsAt, linkedAt, linksOf, selectionAt },
  ...{ laidOut, laidOutTyped, rewritingsOf, rewrittenAs, signatureAt, tokenEdits, tokensOf },
};
export type Writing = typeof WRITING;
