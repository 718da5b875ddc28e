import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Every accessibility rule of WCAG 2 A and AA that axe-core finds broken, with the places. */
export async function accessFaults(on: Page): Promise<readonly string[]> {
  await on.evaluate(axeSource);
  return on.evaluate(async () => {
    interface AxeResult {
      violations: { id: string; nodes: { html: string; failureSummary: string }[] }[];
    }
    const { axe } = globalThis as unknown as {
      axe: { run: (context: Document, options: object) => Promise<AxeResult> };
    };
    const { violations } = await axe.run(document, {
      runOnly: { type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa'] },
    });
    return violations.flatMap(({ id, nodes }) =>
      nodes.map(({ html, failureSummary }) => `${id}: ${html.slice(0, 120)} ${failureSummary}`),
    );
  });
}
