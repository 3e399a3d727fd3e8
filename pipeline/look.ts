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

/** Series differ by hue, dash and label together; each at least 3:1 on paper. */
export const SERIES = [
  { colour: '#1c1b19', dash: [] as readonly number[] },
  { colour: '#9a3412', dash: [7, 3] },
  { colour: '#0f6b78', dash: [2, 2] },
  { colour: '#6a4fa3', dash: [9, 3, 2, 3] },
  { colour: '#7a6200', dash: [5, 2, 1, 2, 1, 2] },
  { colour: '#34713a', dash: [1, 3] },
] as const;

/** Font families as CSS names; the files come from the @fontsource packages (OFL-1.1). */
export const FACE = {
  text: 'Source Serif 4',
  chart: 'Source Sans 3',
} as const;
