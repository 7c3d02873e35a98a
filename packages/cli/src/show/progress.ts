export interface Progress {
  /** `done` of the total, and a few words on how it stands, such as the best value so far. */
  update(done: number, note?: string): void;
  /** Takes the bar away; afterwards standard error is free for other text. */
  stop(): void;
}

export interface ProgressOptions {
  readonly label: string;
  readonly total: number;
  /** What is counted: `outlines`. */
  readonly unit: string;
  readonly quiet: boolean;
  readonly stream: NodeJS.WritableStream & { readonly isTTY?: boolean; readonly columns?: number };
}

const silent: Progress = { update: () => {}, stop: () => {} };

/**
 * A progress bar with rate and time left on a terminal; silent, and nothing loaded, when piped or with `--quiet`. Drawn,
 * and timed, from the first update on: what is said before does not break its line.
 */
export async function startProgress(options: ProgressOptions): Promise<Progress> {
  const { label, total, unit, quiet, stream } = options;
  if (quiet || stream.isTTY !== true) return silent;
  const { default: bars } = await import('cli-progress');
  let started: number | undefined;
  const bar = new bars.SingleBar({
    stream,
    clearOnComplete: true,
    // Hides no cursor and lets lines wrap: a run that is interrupted leaves the terminal as it was.
    linewrap: true,
    fps: 8,
    format: (_options, { value, progress }, { note }: { note: string }) => {
      const state = describeProgress({ done: value, total, unit, seconds: (performance.now() - started!) / 1000 });
      const line = `${label} ${drawBar(progress)} ${state}${note && `, ${note}`}`;
      return line.slice(0, (stream.columns ?? 80) - 1);
    },
  });
  return {
    update: (done, note = '') => {
      if (started === undefined) {
        started = performance.now();
        bar.start(total, 0, { note: '' });
      }
      bar.update(Math.min(done, total), { note });
    },
    stop: () => bar.stop(),
  };
}

function drawBar(progress: number): string {
  const width = 24;
  const filled = Math.round(Math.min(1, Math.max(0, progress)) * width);
  return `[${'='.repeat(filled)}${' '.repeat(width - filled)}]`;
}

/** `12% 2400/20000 outlines, 1600/s, 11 s left`: the rate since the start, and what it makes of the rest. */
export function describeProgress(state: {
  readonly done: number;
  readonly total: number;
  readonly unit: string;
  readonly seconds: number;
}): string {
  const { done, total, unit, seconds } = state;
  const percent = total > 0 ? Math.floor((100 * done) / total) : 100;
  const counted = `${String(percent).padStart(3)}% ${done}/${total} ${unit}`;
  const rate = done / seconds;
  // No rate can be told from nothing, or from the first moments.
  if (!(done > 0 && seconds >= 0.2)) return counted;
  return `${counted}, ${rate >= 10 ? Math.round(rate) : rate.toPrecision(2)}/s, ${formatSeconds((total - done) / rate)} left`;
}

/** `8 s`, `2 min 05 s`, `1 h 20 min`. */
export function formatSeconds(seconds: number): string {
  const whole = Math.max(0, Math.round(seconds));
  if (whole < 60) return `${whole} s`;
  const minutes = Math.floor(whole / 60);
  if (minutes < 60) return `${minutes} min ${String(whole % 60).padStart(2, '0')} s`;
  return `${Math.floor(minutes / 60)} h ${String(minutes % 60).padStart(2, '0')} min`;
}
