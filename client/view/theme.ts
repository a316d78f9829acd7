/** The editor's own colours, read from the page it gave us; read again when the theme changes. */
import { Color } from 'three';

export interface Colours {
  readonly background: Color;
  readonly part: Color;
  readonly edge: Color;
  readonly chosen: Color;
  readonly cut: Color;
  readonly ghost: Color;
  readonly around: Color;
  readonly error: Color;
  readonly warning: Color;
  readonly hint: Color;
  readonly dark: boolean;
  readonly contrast: boolean;
}

export function readColours(): Colours {
  const style = getComputedStyle(document.body);
  const of = (names: readonly string[], otherwise: string) => {
    for (const name of names) {
      const text = style.getPropertyValue(name).trim();
      if (text !== '') return colour(text, otherwise);
    }
    return new Color(otherwise);
  };
  const kinds = document.body.classList;
  const contrast = kinds.contains('vscode-high-contrast') || kinds.contains('vscode-high-contrast-light');
  const dark =
    kinds.contains('vscode-dark') ||
    (kinds.contains('vscode-high-contrast') && !kinds.contains('vscode-high-contrast-light'));
  const background = of(['--vscode-editor-background'], dark ? '#1e1e1e' : '#ffffff');
  const ink = of(['--vscode-editor-foreground'], dark ? '#d4d4d4' : '#333333');
  // The part is the page's own ink, thinned: it stands out from any background without a colour of its own.
  const part = background.clone().lerp(ink, contrast ? 0.22 : dark ? 0.48 : 0.3);
  return {
    background,
    part,
    edge: contrast ? of(['--vscode-contrastBorder'], '#ffffff') : background.clone().lerp(ink, dark ? 0.9 : 0.85),
    chosen: of(['--vscode-focusBorder', '--vscode-button-background'], '#0078d4'),
    cut: background.clone().lerp(ink, contrast ? 0.05 : dark ? 0.2 : 0.22),
    ghost: of(['--vscode-editorLineNumber-foreground'], '#888888'),
    around: of(['--vscode-charts-blue', '--vscode-editor-foreground'], '#777777'),
    error: of(['--vscode-editorError-foreground'], '#e51400'),
    warning: of(['--vscode-editorWarning-foreground'], '#bf8803'),
    hint: of(['--vscode-editorInfo-foreground'], '#1a85ff'),
    dark,
    contrast,
  };
}

/** The page's colours may carry an alpha, which a lit surface has no use for. */
function colour(text: string, otherwise: string): Color {
  const hex = /^#([0-9a-f]{6})[0-9a-f]{2}$/i.exec(text);
  const rgba = /^rgba?\(\s*([\d.]+)[, ]+([\d.]+)[, ]+([\d.]+)/.exec(text);
  if (hex) return new Color(`#${hex[1]}`);
  if (rgba)
    return new Color(
      `rgb(${Math.round(Number(rgba[1]))}, ${Math.round(Number(rgba[2]))}, ${Math.round(Number(rgba[3]))})`,
    );
  return /^#[0-9a-f]{3,6}$/i.test(text) ? new Color(text) : new Color(otherwise);
}

/** Calls back when the editor changes its theme. */
export function onThemeChange(then: () => void): void {
  new MutationObserver(then).observe(document.body, {
    attributes: true,
    attributeFilter: ['class', 'data-vscode-theme-id'],
  });
  new MutationObserver(then).observe(document.documentElement, { attributes: true, attributeFilter: ['style'] });
}
