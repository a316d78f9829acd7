export interface Metafile {
  readonly inputs: Readonly<Record<string, unknown>>;
}
export interface Licence {
  readonly name: string;
  readonly version: string;
  readonly license: string;
  readonly text: string;
}
export function bundledPackages(inputs: readonly string[]): string[];
export function licenceOf(folder: string): Licence;
export function notices(metafiles: readonly Metafile[], beside?: readonly string[]): string;
