/** The languages a sheet can be printed in, by their codes (ISO 639-1). */
export const LANGUAGES = ['en', 'de'] as const;
export type Language = (typeof LANGUAGES)[number];
