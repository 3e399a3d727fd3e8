/** Paper, ink and one accent: the colours and faces that figures, overlays and pages share. */

export const COLOUR = {
  paper: '#fbf9f4',
  ink: '#1c1b19',
  /** Captions and axis text: at least 4.5:1 on paper. */
  muted: '#5a554c',
  hairline: '#cfc8ba',
  /** The one accent. */
  accent: '#9a3412',
  /** Ground of lower thirds, opaque enough to read over snow and over night. */
  slate: '#1c1b19',
} as const;

/**
 * Series differ by hue, dash and label together. Each is at least 4.5:1 on paper, so that labels can take its
 * colour, and any two of the eight are at least 20 apart in CIE 1976 ΔE*ab, also as people without one kind of cone see them.
 */
export const SERIES = [
  { colour: '#1c1b19', dash: [] as readonly number[] },
  { colour: '#9a3412', dash: [7, 3] },
  { colour: '#056fca', dash: [2, 2] },
  { colour: '#532075', dash: [9, 3, 2, 3] },
  { colour: '#7e724f', dash: [5, 2, 1, 2, 1, 2] },
  { colour: '#2f544a', dash: [1, 3] },
  { colour: '#a05090', dash: [12, 2] },
  { colour: '#482000', dash: [4, 1, 4, 4] },
] as const;

/** Light paper for pages; ink ground for dark pages and films; white with greys for a black-and-white printer. */
export type Paper = 'light' | 'dark' | 'mono';

export interface Palette {
  readonly paper: string;
  readonly ink: string;
  readonly muted: string;
  readonly hairline: string;
  readonly accent: string;
  /** In the order of `SERIES`; dashes are the same on every paper. The first is the ink, the second the accent. */
  readonly series: readonly string[];
}

/**
 * The colours of each paper. Dark: as far apart as on light paper, also in the three simulations.
 * Mono: solid black and a few greys, all 4.5:1 on white; there dash and label alone tell series apart.
 */
export const PALETTES: Readonly<Record<Paper, Palette>> = {
  light: {
    paper: COLOUR.paper,
    ink: COLOUR.ink,
    muted: COLOUR.muted,
    hairline: COLOUR.hairline,
    accent: COLOUR.accent,
    series: SERIES.map(({ colour }) => colour),
  },
  dark: {
    paper: '#1c1b19',
    ink: '#f1ece1',
    muted: '#b9b2a4',
    hairline: '#4d4941',
    accent: '#e8875a',
    series: ['#f1ece1', '#e8875a', '#68d8f8', '#9888f0', '#f8d060', '#2890a8', '#b07870', '#b8f8a8'],
  },
  mono: {
    paper: '#ffffff',
    ink: '#000000',
    muted: '#404040',
    hairline: '#bdbdbd',
    accent: '#000000',
    series: ['#000000', '#000000', '#5a5a5a', '#000000', '#5a5a5a', '#333333', '#333333', '#5a5a5a'],
  },
};

/** Font families as CSS names; the files come from the @fontsource packages (OFL-1.1). */
export const FACE = {
  text: 'Source Serif 4',
  chart: 'Source Sans 3',
} as const;
