// The type package of seedrandom covers its main entry only.
declare module 'seedrandom/lib/alea.js' {
  interface AleaState {
    readonly c: number;
    readonly s0: number;
    readonly s1: number;
    readonly s2: number;
  }

  interface Alea {
    (): number;
    double(): number;
    state(): AleaState;
  }

  export default function alea(seed: string, options: { readonly state: true | AleaState }): Alea;
}
