/** Takes one finished file; the path is relative to the site's root. */
export type WriteFile = (path: string, content: string | Uint8Array) => Promise<void>;
