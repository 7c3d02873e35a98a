import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { InputError } from '@lumenfront/core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { checkTarget, readTextFile, writeTextFile } from './index.js';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'lumenfront-files-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

const at = (name: string) => join(folder, name);
const options = { what: 'a brief', limit: 1000 };

function refusal(action: () => unknown): string {
  try {
    action();
  } catch (error) {
    if (error instanceof InputError) return error.message;
    throw error;
  }
  throw new Error('expected an InputError');
}

describe('reading a text', () => {
  it('gives back what was written', () => {
    writeFileSync(at('a.yaml'), 'title: Küste\n');
    expect(readTextFile(at('a.yaml'), options)).toBe('title: Küste\n');
  });

  it('takes a file of exactly the limit', () => {
    writeFileSync(at('full'), 'x'.repeat(1000));
    expect(readTextFile(at('full'), options)).toHaveLength(1000);
  });

  it('refuses what is missing, a folder, below a file, too long by name', () => {
    writeFileSync(at('a.yaml'), '');
    expect(refusal(() => readTextFile(at('none.yaml'), options))).toMatch(/none\.yaml: expected a brief.*no such file/);
    expect(refusal(() => readTextFile(folder, options))).toMatch(/received a folder; name a file in it/);
    expect(refusal(() => readTextFile(at('a.yaml/b.yaml'), options))).toMatch(/a file, not a folder/);
    expect(refusal(() => readTextFile('x'.repeat(5000), options))).toMatch(/a name that is too long/);
  });

  it('refuses 50 MB unread, and a device without end', () => {
    writeFileSync(at('large'), '');
    truncateSync(at('large'), 50 * 1024 * 1024);
    expect(refusal(() => readTextFile(at('large'), options))).toMatch(/received a file of 50 MiB/);
    expect(refusal(() => readTextFile('/dev/zero', options))).toMatch(/received more than/);
  });

  it('refuses what is not UTF-8', () => {
    writeFileSync(at('latin'), Uint8Array.of(0x4b, 0xfc, 0x73, 0x74, 0x65));
    expect(refusal(() => readTextFile(at('latin'), options))).toMatch(/bytes that are not UTF-8/);
    writeFileSync(at('utf16'), Buffer.from('\ufefftitle', 'utf16le'));
    expect(refusal(() => readTextFile(at('utf16'), options))).toMatch(/text in UTF-16; save it as UTF-8/);
  });

  it.skipIf(process.getuid?.() === 0)('refuses what may not be read', () => {
    writeFileSync(at('secret'), '', { mode: 0 });
    expect(refusal(() => readTextFile(at('secret'), options))).toMatch(/may not read/);
  });
});

describe('writing a text', () => {
  it('leaves the file and nothing else', () => {
    writeTextFile(at('out.yaml'), 'a', { force: false });
    expect(readFileSync(at('out.yaml'), 'utf8')).toBe('a');
    expect(readdirSync(folder)).toEqual(['out.yaml']);
  });

  it('replaces an existing file only by force', () => {
    writeFileSync(at('out.yaml'), 'old');
    expect(refusal(() => writeTextFile(at('out.yaml'), 'new', { force: false }))).toMatch(/an existing file.*--force/);
    expect(readFileSync(at('out.yaml'), 'utf8')).toBe('old');
    writeTextFile(at('out.yaml'), 'new', { force: true });
    expect(readFileSync(at('out.yaml'), 'utf8')).toBe('new');
    expect(readdirSync(folder)).toEqual(['out.yaml']);
  });

  it('keeps a link and replaces what it leads to', () => {
    writeFileSync(at('real'), 'old');
    symlinkSync(at('real'), at('link'));
    writeTextFile(at('link'), 'new', { force: true });
    expect(readFileSync(at('real'), 'utf8')).toBe('new');
  });

  it('refuses a folder, and a folder that is not there', () => {
    mkdirSync(at('sub'));
    expect(refusal(() => writeTextFile(at('sub'), '', { force: true }))).toMatch(/received a folder/);
    expect(refusal(() => writeTextFile(at('none/out'), '', { force: false }))).toMatch(/no such folder/);
    expect(readdirSync(folder)).toEqual(['sub']);
  });

  it('can be refused beforehand, and then leaves nothing', () => {
    writeFileSync(at('old'), '');
    expect(refusal(() => checkTarget(at('old'), { force: false }))).toMatch(/an existing file.*--force/);
    expect(refusal(() => checkTarget(at('none/out'), { force: true }))).toMatch(/no such folder/);
    expect(refusal(() => checkTarget(folder, { force: true }))).toMatch(/received a folder/);
    checkTarget(at('old'), { force: true });
    checkTarget(at('new'), { force: false });
    expect(readdirSync(folder)).toEqual(['old']);
  });
});
