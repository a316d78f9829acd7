// The licence texts of every package that ended up inside a bundle, as their licences ask: read from what esbuild says
// it put in. A package without a licence stops the build: it must not be handed on.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const MARK = 'node_modules/';

/** Folders of the packages whose files are in the bundles. `inputs`: the names of bundled files, from esbuild's metafile. */
export function bundledPackages(inputs) {
  const folders = new Set();
  for (const input of inputs) {
    const at = input.lastIndexOf(MARK);
    if (at < 0) continue;
    const [first, second] = input.slice(at + MARK.length).split('/');
    folders.add(input.slice(0, at + MARK.length) + (first.startsWith('@') ? `${first}/${second}` : first));
  }
  return [...folders].sort();
}

/** Name, version and licence of a package, with the text that came with it. */
export function licenceOf(folder) {
  const { name, version, license, author } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  const files = readdirSync(folder).filter((f) => /^(licen[cs]e|copying|notice|thirdpartynotices)([.-].*)?$/i.test(f));
  const text = files.map((f) => readFileSync(join(folder, f), 'utf8').replaceAll('\r\n', '\n').trim()).join('\n\n');
  if (!license && !text) throw new Error(`${name}@${version} says no licence: it cannot be bundled`);
  const by = typeof author === 'string' ? author : author?.name;
  return { name, version, license: license ?? 'see below', text: text || `Licence: ${license}${by ? `, ${by}` : ''}` };
}

/** The whole file's text. `metafiles`: what esbuild answered for each bundle; `beside`: packages whose files lie beside them. */
export function notices(metafiles, beside = []) {
  const inputs = metafiles.flatMap((metafile) => Object.keys(metafile.inputs));
  const bundled = bundledPackages(inputs.filter((input) => existsSync(input)));
  const packages = [...new Set([...bundled, ...beside])].map(licenceOf);
  const rule = '-'.repeat(80);
  return [
    'Scribeline contains the following packages, each under its own licence.',
    ...packages.map((p) => `${rule}\n${p.name} ${p.version} (${p.license})\n${rule}\n\n${p.text}`),
    '',
  ].join('\n\n');
}
