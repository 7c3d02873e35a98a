import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { differencesOf, markOf, readBrief, sha256Hex, starterBrief } from './index.js';

const marked = async (change: (text: string) => string) => markOf(await readBrief(change(starterBrief)));

describe('the fingerprint of a brief', () => {
  it('is a SHA-256', () => {
    // NIST FIPS 180-2, appendix B.1.
    expect(sha256Hex('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
  });

  it.each([
    ['lengths about those of a block', Array.from({ length: 150 }, (_, length) => 'x'.repeat(length))],
    ['other scripts, and halves of characters', ['Fläche ≥ 2 µm', '継手 𝄞', '\ud834', 'x\udd1e']],
    ['a mesh', [Array.from({ length: 30_000 }, (_, i) => `${i} ${Math.sin(i)}`).join('\n')]],
  ])('is that of others: %s', (_, texts) => {
    for (const text of texts) expect(sha256Hex(text)).toBe(createHash('sha256').update(text).digest('hex'));
  });

  it('does not depend on what is looked for, nor on comments', async () => {
    const brief = await marked((text) => text);
    expect(await marked((text) => text.replace(/#.*/g, '').replace(/evaluations: \d+/, 'evaluations: 500'))).toEqual(
      brief,
    );
    expect(await marked((text) => text.replace(/^allow: .*$/m, 'allow: 20'))).toEqual(brief);
  });

  it('differs with what decides figures, and says where', async () => {
    const brief = await marked((text) => text);
    const other = await marked((text) => text.replace('bendRadius: 8', 'bendRadius: 7'));
    expect(other.fingerprint).not.toBe(brief.fingerprint);
    expect(differencesOf(brief, other)).toContainEqual({ path: 'host.bendRadius', before: 8, after: 7 });
    expect(differencesOf(brief, brief)).toEqual([]);
    // A result went through JSON.
    expect(differencesOf(JSON.parse(JSON.stringify(brief)), brief)).toEqual([]);
  });

  it('says how many entries a list has where that differs', async () => {
    const brief = await marked((text) => text);
    const cases = [...(brief.decides.cases as unknown[]), {}];
    expect(differencesOf(brief, { fingerprint: '', decides: { ...brief.decides, cases } })).toEqual([
      { path: 'cases', before: '3 entries', after: '4 entries' },
    ]);
  });
});
