/** What the server is asked for a sheet, on the paper and in the language of the settings. */
import { type Uri, workspace } from 'vscode';
import { SHEET, type SheetAnswer, type SheetParams } from '../../../server/src/service/sheet-protocol';
import type { ServerLink } from '../server-link';

export function sheetRequest(link: ServerLink, uri: Uri, as: SheetParams['as']): Promise<SheetAnswer | null> {
  const params: SheetParams = { uri: uri.toString(), as, ...printing(uri) };
  return link.request<SheetAnswer | null>(SHEET, params);
}

export function printing(uri: Uri): Pick<SheetParams, 'paper' | 'language'> {
  const settings = workspace.getConfiguration('scribeline', uri);
  return {
    paper: settings.get<SheetParams['paper']>('sheet.paper') ?? 'a4',
    language: settings.get<SheetParams['language']>('sheet.language') ?? 'en',
  };
}
