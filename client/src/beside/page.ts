/** The head of a panel's page: nothing may load but what it names. */

/** Where script and style of a page come from. */
interface PageFrame {
  readonly title: string;
  /** Sources beside the script: `style-src …`. */
  readonly may: readonly string[];
  readonly nonce: string;
  /** Style or links to it. */
  readonly style: string;
  readonly body: string;
  readonly script: string;
}

export function framedPage({ title, may, nonce, style, body, script }: PageFrame): string {
  const policy = ["default-src 'none'", `script-src 'nonce-${nonce}'`, ...may].join('; ');
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
${style}
<title>${title}</title>
</head>
<body>
${body}
<script nonce="${nonce}" src="${script}"></script>
</body>
</html>
`;
}
