/** As much of the package's interface as the tests use; it comes without types of its own. */
declare module 'markdown-it' {
  interface Token {
    readonly type: string;
    readonly content: string;
    readonly children: readonly Token[] | null;
    readonly attrs: readonly (readonly [name: string, value: string])[] | null;
  }
  export default class MarkdownIt {
    constructor(options?: { readonly html?: boolean; readonly linkify?: boolean });
    parse(source: string, environment: object): readonly Token[];
    render(source: string): string;
  }
}
