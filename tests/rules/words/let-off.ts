/** Rules whose words do not hold yet. Only taken off, never put on. */
export const LET_OFF: ReadonlySet<string> = new Set([]);
