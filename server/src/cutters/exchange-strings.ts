/** Strings of an exchange file: ISO 10303-21, 6.4.3. Pages of ISO 8859 other than the first are not told apart. */

export function stringOf(token: string): string {
  return token
    .slice(1, -1)
    .replaceAll("''", "'")
    .replace(/[\r\n]/g, '')
    .replace(
      /\\X2\\((?:[0-9A-Fa-f]{4})*)\\X0\\|\\X4\\((?:[0-9A-Fa-f]{8})*)\\X0\\|\\X\\([0-9A-Fa-f]{2})|\\S\\([ -~])|\\P[A-I]\\|\\[NF]\\|\\\\/g,
      (all, two?: string, four?: string, one?: string, high?: string) => {
        if (two !== undefined) return two.replace(/.{4}/g, (hex) => String.fromCharCode(Number.parseInt(hex, 16)));
        if (four !== undefined) return four.replace(/.{8}/g, (hex) => pointOf(Number.parseInt(hex, 16)));
        if (one !== undefined) return String.fromCharCode(Number.parseInt(one, 16));
        if (high !== undefined) return String.fromCharCode(high.charCodeAt(0) + 128);
        if (all === '\\\\') return '\\';
        return all.startsWith('\\P') ? '' : ' ';
      },
    );
}

function pointOf(code: number): string {
  return code <= 0x10ffff ? String.fromCodePoint(code) : '\ufffd';
}
