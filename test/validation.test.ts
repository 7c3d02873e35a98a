import { describe, expect, it } from 'vitest';
import { type Check, checkMeshedJoint, differenceOf, publications } from './published/index.js';

/** Computed values as the tests below find them. */
const computed = new Map<Check, number>();

describe('published values', () => {
  for (const { title, checks, long } of publications)
    describe(title, () => {
      for (const check of checks)
        it(`${check.quantity}: within ${percent(check.tolerance)}`, {
          tags: long || isMeshed(check) ? ['long'] : [],
        }, () => {
          const value = check.compute();
          computed.set(check, value);
          expect(check.tolerance).toBeLessThanOrEqual(0.01);
          expect(Math.abs(differenceOf(check, value))).toBeLessThan(check.tolerance);
        });
    });

  describe('the meshed joint against an independent finite-element solution', { tags: 'long' }, checkMeshedJoint);

  // Rewritten by `npx vitest run test/validation.test.ts --update`.
  it('are what test/validation.md says', { tags: 'long' }, async (context) => {
    const all = publications.flatMap(({ checks }) => checks);
    if (all.some((check) => !computed.has(check))) return context.skip('needs every check above');
    await expect(page()).toMatchFileSnapshot('validation.md');
  });
});

/** What is meshed takes most of the time. */
const isMeshed = ({ quantity }: Check) => /^(mesh|tee)/.test(quantity);

function percent(fraction: number): string {
  return fraction < 1e-5 ? fraction.toExponential(0) : `${Number((100 * fraction).toPrecision(2))} %`;
}

/** Digits that do not change from machine to machine. */
function row(check: Check): string {
  const { quantity, published, scale, tolerance } = check;
  const value = computed.get(check)!;
  const difference = differenceOf(check, value);
  const cells =
    published === 0
      ? [quantity, '0', `below ${percent(tolerance)}${scale === 1 ? '' : ` of ${scale}`}`, '']
      : [quantity, short(published), short(value), `${Math.abs(100 * difference).toFixed(2)} %`];
  return `| ${cells.join(' | ')} | ${percent(tolerance)} |`;
}

const short = (value: number) => String(Number(value.toPrecision(5)));

function page(): string {
  const sections = publications.map(
    ({ title, source, checks }) =>
      `## ${title}\n\n${source}\n\n| quantity | published | computed | difference | allowed |\n| --- | --- | --- | --- | --- |\n${checks.map(row).join('\n')}\n`,
  );
  return `# Validation

What this project computes beside values that it did not make: \`fast\` by the model that searches and reports use, \`mesh\` by the
finite elements that check it, \`strength\` and \`flow\` by what judges a channel. Written by \`test/validation.test.ts\`, which fails when
the page and the computation differ. Units: mm, N, MPa, K; stress concentrations are per unit far stress.

${sections.join('\n')}`;
}
