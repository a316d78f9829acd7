/**
 * A page that is one file: its script, its style and all that they show are in it, and nothing else may load. Without a
 * script it is read as it stands; with one, the view above it can be turned.
 */
import { json, markup } from '../text/shown';

/** What a page is put together from, handed in by the door. */
export interface PageKit {
  /** The view's script, its style, and the page's own style. */
  readonly script: string;
  readonly style: string;
  /** What the script works on. */
  readonly bodies: { readonly part: string; readonly compare: string };
  /** SHA-256, as base64. */
  hash(text: string): string;
}

/** A picture as the view takes it, and others that it may ask for; `server/src/service/view/protocol.ts` has their types. */
interface Carried {
  /** What can be shown, the first at once: messages to the view. */
  readonly shown: readonly object[];
  readonly moments?: readonly object[];
}

interface Page {
  readonly title: string;
  /** What stands below the view: markup, every word of it escaped already. */
  readonly article: string;
  readonly creator: string;
  readonly view?: { readonly body: string; readonly carried: Carried };
}

export function pageText({ title, article, creator, view }: Page, kit: PageKit): string {
  const script = view ? inline(kit.script) : '';
  const policy = [
    "default-src 'none'",
    `script-src ${script ? `'sha256-${kit.hash(script)}'` : "'none'"}`,
    `style-src 'sha256-${kit.hash(kit.style)}'`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="${markup(creator)}">
<title>${markup(title)}</title>
<style>${kit.style}</style>
</head>
<body class="page">
${view ? `<div id="view">\n${view.body}\n</div>\n` : ''}<div class="article">
${article}
</div>
${view ? `${data(view.carried)}\n<script>${script}</script>\n` : ''}</body>
</html>
`;
}

/** Nothing in it ends the element it stands in. */
function inline(script: string): string {
  return script.replaceAll(/<(?=\/script|!--|script)/gi, '\\x3c');
}

function data(carried: Carried): string {
  const text = json(carried, 0).replaceAll('<', '\\u003c');
  return `<script type="application/json" id="carried">${text}</script>`;
}
