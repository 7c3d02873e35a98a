import alea from 'seedrandom/lib/alea.js';

/** A seeded stream of random numbers. The only source of chance in this package. */
export interface Random {
  /** Uniform in [0, 1), 53 bits. */
  uniform(): number;
  /** Standard normal. */
  normal(): number;
  /** Uniform among 0, 1, …, `count - 1`. */
  integer(count: number): number;
  /** Puts the items in random order, in place. */
  shuffle<Item>(items: Item[]): void;
  /**
   * Another stream, told apart by its name. It depends on the seed and the name alone, not on what was drawn so far, so
   * that one part of a search may draw more or fewer numbers without changing what another part gets.
   */
  split(name: string): Random;
}

/** A new stream. The number 5 and the text '5' are the same seed. */
export function randomFrom(seed: number | string): Random {
  const source = alea(String(seed));

  function integer(count: number): number {
    return Math.floor(source.double() * count);
  }

  return {
    uniform: () => source.double(),
    // Box & Muller, Ann. Math. Stat. 29 (1958) 610-611. The second value of each pair is not kept. 1 - u is in (0, 1], so that the logarithm is finite.
    normal: () => Math.sqrt(-2 * Math.log(1 - source.double())) * Math.cos(2 * Math.PI * source.double()),
    integer,
    shuffle(items) {
      for (let last = items.length - 1; last > 0; last--) {
        const other = integer(last + 1);
        [items[last], items[other]] = [items[other]!, items[last]!];
      }
    },
    split: (name) => randomFrom(`${seed}/${name}`),
  };
}
