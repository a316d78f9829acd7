/** The sheet panel's page: fixed markup, its script and fonts by their own addresses, and nothing else may load. */

import { framedPage } from '../beside/page';

interface PageSources {
  readonly script: string;
  readonly plain: string;
  readonly bold: string;
  /** Where the editor serves local files from, for the policy. */
  readonly cspSource: string;
  readonly nonce: string;
}

export function pageOf({ script, plain, bold, cspSource, nonce }: PageSources): string {
  return framedPage({
    title: 'Set-up sheet',
    may: [`style-src 'nonce-${nonce}'`, `font-src ${cspSource}`],
    nonce,
    style: `<style nonce="${nonce}">
@font-face { font-family: 'DejaVu Sans Condensed'; src: url('${plain}'); font-weight: normal; }
@font-face { font-family: 'DejaVu Sans Condensed'; src: url('${bold}'); font-weight: bold; }
body { padding: 8px; }
main { display: grid; gap: 12px; justify-content: center; }
main > svg { width: min(100%, 210mm); height: auto; box-shadow: 0 1px 6px #0006; }
</style>`,
    body: '<p role="status" aria-live="polite"></p>\n<main></main>',
    script,
  });
}
