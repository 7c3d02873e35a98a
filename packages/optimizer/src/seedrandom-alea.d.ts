// The type package of seedrandom covers its main entry only.
declare module 'seedrandom/lib/alea.js' {
  interface Alea {
    (): number;
    double(): number;
  }

  export default function alea(seed: string): Alea;
}
