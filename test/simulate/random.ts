/** Seeded chance for simulations: the same seed gives the same numbers on every machine. */

export interface Random {
  /** Uniform in [0, 1). */
  uniform(): number;
  /** Uniform in [low, high). */
  between(low: number, high: number): number;
  /** Whole number in [low, high], both included. */
  whole(low: number, high: number): number;
  /** Standard normal deviate. */
  normal(): number;
  /** True with the given probability. */
  chance(probability: number): boolean;
  pick<T>(from: readonly T[]): T;
}

/**
 * A generator for one seed: sfc32 (Small Fast Counting generator, C. Doty-Humphrey, PractRand, public
 * domain), seeded with the seed in one word and run in for 20 draws; normal deviates by the polar method
 * (Marsaglia and Bray, SIAM Review 6 (1964) 260).
 */
export function randomFromSeed(seed: number): Random {
  let a = seed | 0;
  let b = Math.floor(seed / 0x1_0000_0000) | 0;
  let c = 0x9e3779b9 | 0;
  let counter = 1;
  let spare: number | undefined;

  const word = (): number => {
    const sum = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (c << 21) | (c >>> 11);
    c = (c + sum) | 0;
    return sum >>> 0;
  };
  for (let i = 0; i < 20; i++) word();

  const uniform = (): number => word() / 0x1_0000_0000;
  const normal = (): number => {
    if (spare !== undefined) {
      const kept = spare;
      spare = undefined;
      return kept;
    }
    for (;;) {
      const x = 2 * uniform() - 1;
      const y = 2 * uniform() - 1;
      const square = x * x + y * y;
      if (square > 0 && square < 1) {
        const factor = Math.sqrt((-2 * Math.log(square)) / square);
        spare = y * factor;
        return x * factor;
      }
    }
  };
  const between = (low: number, high: number): number => low + (high - low) * uniform();
  const whole = (low: number, high: number): number => low + Math.floor((high - low + 1) * uniform());
  return {
    uniform,
    between,
    whole,
    normal,
    chance: probability => uniform() < probability,
    pick: from => from[whole(0, from.length - 1)]!,
  };
}
