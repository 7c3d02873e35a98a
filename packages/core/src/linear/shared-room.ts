/**
 * Room for numbers that are written anew at every use, shared by all who ask this one for it: one array for each power of two, made when it is first needed. So what is
 * kept is at most four times the largest that was ever asked for, however many sizes there are and however many ask.
 */
export function sharedRoom(): (length: number) => Float64Array {
  const arrays: Float64Array[] = [];
  return (length) => {
    const power = Math.ceil(Math.log2(length));
    arrays[power] ??= new Float64Array(2 ** power);
    return arrays[power].subarray(0, length);
  };
}
