/** Types of kernel.mjs, which the build runs as it is. */
export const KERNEL: string;
export function copyKernel(folder: string): void;
