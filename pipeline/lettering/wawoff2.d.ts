declare module 'wawoff2' {
  /** WOFF2 bytes to TrueType bytes. */
  export function decompress(woff2: Uint8Array): Promise<Uint8Array>;
  /** TrueType bytes to WOFF2 bytes. */
  export function compress(ttf: Uint8Array): Promise<Uint8Array>;
  const wawoff2: { decompress: typeof decompress; compress: typeof compress };
  export default wawoff2;
}
