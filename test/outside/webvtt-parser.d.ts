declare module 'webvtt-parser' {
  export interface ParsedCue {
    readonly startTime: number;
    readonly endTime: number;
    readonly text: string;
  }
  export class WebVTTParser {
    constructor(entities?: Readonly<Record<string, string>>);
    parse(
      input: string,
      mode: 'metadata' | 'chapters' | 'subtitles/captions/descriptions',
    ): {
      readonly cues: readonly ParsedCue[];
      readonly errors: readonly { readonly message: string; readonly line: number }[];
    };
  }
}
