// fmin has no types of its own. `method/fmin.ts` says why the export may be undefined.
declare module 'fmin' {
  export const nelderMead: import('./method/fmin.js').FminRun | undefined;
}
