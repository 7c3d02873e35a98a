/** Every value within a document, by its path: what is neither an object nor an array. */
export function valuesByPath(value, path = '', found = new Map()) {
  if (value !== null && typeof value === 'object')
    for (const [key, part] of Object.entries(value)) valuesByPath(part, `${path}/${key}`, found);
  else found.set(path, value);
  return found;
}
