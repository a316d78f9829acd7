/** Whole features to fill in, one or more for each kind. `$1` and the like are the editor's stops. */
import { FEATURE_KINDS } from '../model/feature-kinds';

interface Snippet {
  readonly label: string;
  readonly detail: string;
  readonly text: string;
}

/** Lines after the first stand two blanks in from the feature's name; the editor adds the indentation of the line. */
export const FEATURE_SNIPPETS: readonly Snippet[] = Object.values(FEATURE_KINDS)
  .flatMap(({ snippets }) => snippets)
  .map(([label, detail, lines]) => ({
    label: `new ${label}`,
    detail,
    text: [`\${1:${label.toLowerCase().replaceAll(' ', '-')}}:`, ...lines.map((line) => `  ${line}`)].join('\n'),
  }));
