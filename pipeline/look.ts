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
 * colour, and any two are at least 20 apart in CIE 1976 ΔE*ab, also as people without one kind of cone see them.
 */
export const SERIES = [
  { colour: '#1c1b19', dash: [] as readonly number[] },
  { colour: '#9a3412', dash: [7, 3] },
  { colour: '#056fca', dash: [2, 2] },
  { colour: '#532075', dash: [9, 3, 2, 3] },
  { colour: '#7e724f', dash: [5, 2, 1, 2, 1, 2] },
  { colour: '#2f544a', dash: [1, 3] },
] as const;

/** Font families as CSS names; the files come from the @fontsource packages (OFL-1.1). */
export const FACE = {
  text: 'Source Serif 4',
  chart: 'Source Sans 3',
} as const;
