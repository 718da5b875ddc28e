/** The garment leaf as a spec sheet: numbers typed and worn, panels, a sheet that cannot be worn, what is saved. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { projectFolder } from '../../electron/launch/build.mjs';
import { startLoopbackHost } from '../../electron/launch/loopback-host.mjs';
import { accessFaults } from './help/access-faults.ts';
import { clipped } from './help/clipped.ts';
import { openSettled, openStage, SETTLED, type OpenStage } from './help/open-stage.ts';
import { tries } from './help/tries.ts';

const SHEETS = ['tern-210.bench.json', 'plover-185.bench.json'];

/** The short and its fabric sheets in one folder, as a study is handed over; a coarse mesh keeps it quick. */
function shortFolder(): string {
  const folder = mkdtempSync(path.join(tmpdir(), 'short-'));
  const assets = path.join(projectFolder, 'assets');
  const study = JSON.parse(readFileSync(path.join(assets, 'short/harbour-short.study.json'), 'utf8')) as {
    fabrics: { sheet: string }[];
  };
  const fabrics = study.fabrics.map((fabric) => ({ ...fabric, sheet: path.basename(fabric.sheet) }));
  const file = { ...study, fabrics, edgeMm: 12 };
  writeFileSync(path.join(folder, 'harbour-short.study.json'), JSON.stringify(file));
  for (const sheet of SHEETS)
    writeFileSync(path.join(folder, sheet), readFileSync(path.join(assets, 'demo', sheet)));
  return folder;
}

let stage: OpenStage;
let host: { readonly address: string; readonly close: () => Promise<void> };
let folder: string;
let page: Page;
let complaints: readonly string[];
beforeAll(async () => {
  stage = await openStage();
  folder = shortFolder();
  host = await startLoopbackHost({ page: path.join(projectFolder, 'dist/renderer'), demo: folder });
  ({ page, complaints } = await openSettled({ ...stage, address: host.address }));
  await page.getByRole('button', { name: 'Garment', exact: true }).click();
});
afterAll(async () => {
  await host.close();
  await stage.close();
  rmSync(folder, { recursive: true });
});

const field = (name: string) => page.getByRole('textbox', { name, exact: true });
const { note, settled } = tries(() => page, 90_000);
const row = (level: string) => page.getByRole('row').filter({ has: page.getByText(level, { exact: true }) });

const type = async (name: string, text: string): Promise<void> => {
  await field(name).fill(text);
  await field(name).press('Enter');
};
/** Body, cut by, stretch and worn of a level, as printed. */
const numbersOf = async (level: string): Promise<number[]> =>
  (await row(level).getByRole('cell').allTextContents()).slice(1).map(Number);

it('shows reduction and stretch of each girth beside the body’s, whole in both lights and sizes', async () => {
  const [body, cutBy, stretch] = await numbersOf('waist');
  // The form's own waist is 760 mm by the study, read back by a section of its facets.
  expect(Math.abs(body! - 76)).toBeLessThan(0.3);
  // A share S cut off the body's girth is a stretch of 1 / (1 - S) - 1 on it; both printed to a tenth.
  expect(Math.abs(cutBy! - 100 * (1 - 61.2 / body!))).toBeLessThan(0.11);
  expect(Math.abs(stretch! - 100 * (1 / (1 - cutBy! / 100) - 1))).toBeLessThan(0.15);
  expect(await accessFaults(page)).toEqual([]);
  await page.emulateMedia({ colorScheme: 'dark' });
  expect(await accessFaults(page)).toEqual([]);
  expect(await clipped(page)).toEqual([]);
  await page.setViewportSize({ width: 1920, height: 1080 });
  await page.waitForTimeout(SETTLED);
  expect(await clipped(page)).toEqual([]);
  await page.emulateMedia({ colorScheme: 'light' });
  await page.setViewportSize({ width: 1280, height: 800 });
  await page.waitForTimeout(SETTLED);
});

it('a girth typed is worn, said on the stage, undone and done again', async () => {
  await type('waist girth, flat, cm', '58');
  await settled(/^Tried: waist 58\.0\scm$/);
  const [body, cutBy] = await numbersOf('waist');
  expect(Math.abs(cutBy! - 100 * (1 - 58 / body!))).toBeLessThan(0.11);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(() => note().count(), { timeout: 90_000 }).toBe(0);
  expect(await field('waist girth, flat, cm').inputValue()).toBe('61.2');
  await page.getByRole('button', { name: 'Redo' }).click();
  await settled(/waist 58\.0\scm/);
  await page.getByRole('button', { name: 'waist girth, flat, cm: back to 61.2' }).click();
  await expect.poll(() => note().count(), { timeout: 90_000 }).toBe(0);
  expect(complaints).toEqual([]);
});

it('an edge of a panel is reached by the keyboard, told, and marked on the form', async () => {
  const edge = page.getByRole('button', { name: /^Front, inseam 13\.0\scm: sewn to back, inseam\.$/ });
  const before = await page.locator('.stage canvas').screenshot();
  await edge.focus();
  expect(await page.locator('.panels-flat figcaption').textContent()).toBe(
    await edge.getAttribute('aria-label'),
  );
  await page.waitForTimeout(SETTLED);
  expect((await page.locator('.stage canvas').screenshot()).equals(before)).toBe(false);
  await edge.blur();
  // The other way round: somewhere down the middle of the form runs the rise.
  await page.keyboard.press('f');
  await page.waitForTimeout(SETTLED);
  const caption = page.locator('.panels-flat figcaption');
  const box = (await page.locator('.stage canvas').boundingBox())!;
  // Between the open leaf and the legend stands the form, its upper edge in the upper half.
  const middle = (396 + box.width - 330) / 2;
  const told = new Set<string>();
  for (let y = box.y + 60; y < box.y + 0.75 * box.height; y += 12) {
    await page.mouse.move(middle, y);
    await page.waitForTimeout(40);
    told.add((await caption.textContent())!);
  }
  expect([...told].join('\n')).toMatch(/(Front|Back), (rise|waist) /);
  await page.mouse.move(200, 20);
  await page.keyboard.press('t');
  await page.waitForTimeout(SETTLED);
});

it('what cannot be worn says so in the leaf, keeps the number and what settled; the next number is tried on', async () => {
  await type('waist held at, cm up', '20');
  await page.locator('.spec-refused').waitFor({ timeout: 60_000 });
  expect(await page.locator('.spec-refused').textContent()).toMatch(/These numbers make no front panel/);
  expect(await page.locator('.slip').count()).toBe(0);
  expect(await field('waist held at, cm up').inputValue()).toBe('20.0');
  expect(await field('waist held at, cm up').getAttribute('aria-invalid')).toBe('true');
  expect(await note().count()).toBe(0);
  expect(await clipped(page)).toEqual([]);
  await page.getByRole('button', { name: 'waist held at, cm up: back to as the body' }).click();
  await expect.poll(() => page.locator('.spec-refused').count()).toBe(0);
});

it('is saved with what was typed', async () => {
  await page.getByText('knit to shape').click();
  await type('mid thigh girth, flat, cm', '44');
  await type('hem held at, cm up', '64');
  await settled(/^Tried: knit to shape · mid thigh 44\.0\scm · hem held at 64\.0\scm$/);
  const saving = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save as study' }).click();
  const file = JSON.parse(readFileSync(await (await saving).path(), 'utf8')) as { garment: object };
  expect(file.garment).toEqual({
    block: 'short',
    construction: 'moulded',
    girthsMm: { waist: 612, topHip: 735, hip: 812, thigh: 480, midThigh: 440, hem: 424 },
    lengthsMm: { side: 392, frontRise: 273, backRise: 292, inseam: 130 },
    laidMm: { hem: 640 },
  });
});
