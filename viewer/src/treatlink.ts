// Which step of the treatment is shown on which day, as the link has it.

export interface Treat {
  /** The step; empty before one is chosen. */
  step: string;
  /** "2026-03-05"; null for the last day of its log. */
  day: string | null;
}

/** `STEP`, or `STEP~2026-03-05`. */
export const writeTreat = ({ step, day }: Treat): string => (day === null ? step : `${step}~${day}`);

/** Reads what was written; a day that is none is the last one. */
export function readTreat(text: string): Treat {
  const [step = '', day = ''] = text.split('~');
  return { step, day: /^\d{4}-\d\d-\d\d$/.test(day) ? day : null };
}

/** The day that is shown: the last of the log that is not after the one asked for; null before the first. */
export const dayOf = (days: readonly string[], asked: string | null): string | null =>
  asked === null ? (days.at(-1) ?? null) : (days.findLast((d) => d <= asked) ?? null);
