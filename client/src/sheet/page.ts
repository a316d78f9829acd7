/** The sheet panel's page: fixed markup, its script and fonts by their own addresses, and nothing else may load. */

interface PageSources {
  readonly script: string;
  readonly plain: string;
  readonly bold: string;
  /** Where the editor serves local files from, for the policy. */
  readonly cspSource: string;
  readonly nonce: string;
}

export function pageOf({ script, plain, bold, cspSource, nonce }: PageSources): string {
  const policy = [
    "default-src 'none'",
    `script-src 'nonce-${nonce}'`,
    `style-src 'nonce-${nonce}'`,
    `font-src ${cspSource}`,
  ].join('; ');
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<style nonce="${nonce}">
@font-face { font-family: 'DejaVu Sans Condensed'; src: url('${plain}'); font-weight: normal; }
@font-face { font-family: 'DejaVu Sans Condensed'; src: url('${bold}'); font-weight: bold; }
body { padding: 8px; }
main { display: grid; gap: 12px; justify-content: center; }
main > svg { width: min(100%, 210mm); height: auto; box-shadow: 0 1px 6px #0006; }
</style>
<title>Set-up sheet</title>
</head>
<body>
<p role="status" aria-live="polite"></p>
<main></main>
<script nonce="${nonce}" src="${script}"></script>
</body>
</html>
`;
}
