/** Acts when things have settled: after a pause, but never longer than a bound after the first of them. */

export interface Settling {
  /** Once more something happened: acts after the pause, or at the bound. */
  later(pauseMs?: number): void;
  /** Forgets what was to be done. */
  cancel(): void;
}

interface Times {
  readonly pauseMs: number;
  /** From the first call of `later` since it last acted; who never pauses is not kept waiting for ever. */
  readonly mostMs: number;
}

/** The clock is the process's own, which no change of the time of day moves. */
export function settling(act: () => void, { pauseMs: usualMs, mostMs }: Times): Settling {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let latestMs: number | undefined;
  const cancel = (): void => {
    clearTimeout(timer);
    latestMs = undefined;
  };
  return {
    cancel,
    later(pauseMs = usualMs) {
      const nowMs = performance.now();
      latestMs ??= nowMs + mostMs;
      clearTimeout(timer);
      timer = setTimeout(
        () => {
          cancel();
          act();
        },
        Math.max(0, Math.min(pauseMs, latestMs - nowMs)),
      );
    },
  };
}
