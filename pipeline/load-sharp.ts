/** The library that makes pixels, loaded where there are some to make: it takes as long to load as a log to measure. */
export const loadSharp = async () => (await import('sharp')).default;
