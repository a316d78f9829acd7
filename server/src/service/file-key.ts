/**
 * One name for each document, however it is written. Clients, the disk and the texts themselves spell one URI in several
 * ways: `a%20b`, `(` or `%28`, `file:///c%3A/x` and `file:///C:/x`, letters with their accents composed or apart. All
 * that is kept of a document is kept under its key; what is told to a client is told under the name that it gave.
 */

const URI = /^([a-z][a-z0-9+.-]*:\/\/)([^/]*)(.*)$/is;

/** The same for all spellings of one URI; a plain path is its own key. */
export function keyOf(path: string): string {
  const uri = URI.exec(path);
  if (!uri) return path;
  const [, scheme, authority, way] = uri as unknown as [string, string, string, string];
  const steps = way.split('/').map((step) => encoded(decoded(step)));
  // A drive is one whether its letter is large or small.
  if (/^[A-Z](:|%3A)$/.test(steps[1] ?? '')) steps[1] = steps[1]!.toLowerCase();
  return scheme.toLowerCase() + authority.toLowerCase() + steps.join('/');
}

/** A file or folder by its name on disk, in a folder given by its key. */
export function childOf(folder: string, name: string): string {
  return `${folder}/${URI.test(folder) ? encoded(name) : name}`;
}

/** What a file is called on disk, by its key. */
export function nameOf(key: string): string {
  const name = key.slice(key.lastIndexOf('/') + 1);
  return URI.test(key) ? decoded(name) : name;
}

function encoded(step: string): string {
  return encodeURIComponent(step.normalize('NFC').replace(/[\ud800-\udfff]/gu, '\ufffd'))
    .replaceAll('%40', '@')
    .replaceAll('%3A', ':');
}

/** A `%` that begins no code stands for itself. */
function decoded(step: string): string {
  try {
    return decodeURIComponent(step);
  } catch {
    return step.replace(/(?:%[0-9a-f]{2})+/gi, (codes) => {
      try {
        return decodeURIComponent(codes);
      } catch {
        return codes;
      }
    });
  }
}
