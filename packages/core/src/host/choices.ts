/**
 * Decides what depends on lengths by steps (how many elements, which of them tell), so that meshes of like sections have the same
 * elements and the same points, whose places and stresses then change smoothly with the section.
 */
export type Choose = <Of>(decide: () => Of) => Of;

/** Of one section by itself. */
export const anew: Choose = (decide) => decide();

/** Remembers what is decided of a first section, and decides the same, call by call, for others. */
export function createChoices(): { readonly first: Choose; readonly again: () => Choose } {
  const made: unknown[] = [];
  return {
    first(decide) {
      const decided = decide();
      made.push(decided);
      return decided;
    },
    again() {
      let next = 0;
      return <Of>() => {
        if (next === made.length) throw new Error('a section like the first one decides more than that');
        return made[next++] as Of;
      };
    },
  };
}

/** Positions from 0 to `length` in chosen shares of it. */
export function shared(
  choose: Choose,
  length: number,
  divide: (length: number) => readonly number[],
): readonly number[] {
  return choose(() => divide(length).map((at) => at / length)).map((share) => share * length);
}
