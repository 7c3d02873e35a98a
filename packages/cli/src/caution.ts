/** Stands in the help, under every table and in every report. */
export const caution =
  'Results are preliminary: verify them by test and by a qualified engineer; local codes and certification rules govern.';
