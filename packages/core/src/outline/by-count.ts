/** What is made once for each number of nodes, and used again for every outline of as many. */
export function byCount<Made>(make: (count: number) => Made): (count: number) => Made {
  const known = new Map<number, Made>();
  return (count) => {
    let made = known.get(count);
    if (made === undefined) {
      made = make(count);
      known.set(count, made);
    }
    return made;
  };
}
