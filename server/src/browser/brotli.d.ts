/** The one function that is used of the library, which comes without types. */
declare module 'brotli/decompress' {
  export default function decompress(packed: Uint8Array): Uint8Array;
}
