import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { calledAs } from './called-as.js';

it('says npx only where that runs an installed program', () => {
  const folder = mkdtempSync(join(tmpdir(), 'lumenfront-called-'));
  const here = new URL('.', import.meta.url).pathname;
  expect(calledAs(here, '/anywhere/lumenfront.js')).toBe('npx lumenfront');
  expect(calledAs(folder, '/my tools/bin/lumenfront.js')).toBe("node '/my tools/bin/lumenfront.js'");
  expect(calledAs(folder, '/usr/local/bin/lumenfront')).toBe('lumenfront');
  rmSync(folder, { recursive: true });
});
