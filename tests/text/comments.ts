/** The comments of a text, by the `yaml` library and not by the program’s own reader. */
import { type CST, Parser } from 'yaml';

/** Every comment that the library's parser meets, sorted: one behind braces goes behind its key. */
export function commentsIn(text: string): readonly string[] {
  const found: string[] = [];
  const walk = (token: unknown): void => {
    if (Array.isArray(token)) for (const t of token) walk(t);
    else if (token && typeof token === 'object') {
      const { type, source } = token as CST.SourceToken;
      if (type === 'comment') found.push(source.trimEnd());
      for (const inner of Object.values(token)) if (typeof inner === 'object') walk(inner);
    }
  };
  walk([...new Parser().parse(text)]);
  return found.sort();
}
