/** Types of fonts.mjs, which the build runs as it is. */
export const FONTS: string;
export function copyFonts(folder: string): void;
