/** The page of outside checks, opened by keyboard: run in full, read, saved. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { accessFaults } from './help/access-faults.ts';
import { openSettled, openStage, type OpenStage } from './help/open-stage.ts';
import { readPng } from './help/read-colours.ts';

let stage: OpenStage;
let page: Page;
let complaints: readonly string[];
beforeAll(async () => {
  stage = await openStage();
  ({ page, complaints } = await openSettled(stage));
});
afterAll(async () => {
  await stage.close();
});

const again = () => page.getByRole('button', { name: 'Check again' });
const foot = () => page.locator('.proof-foot');
const keepPicture = (name: string): Promise<unknown> => page.screenshot({ path: `out/stage/${name}.png` });

it('nothing is checked until it is asked for; then the help leaf leads there by keyboard', async () => {
  expect(await page.locator('.proof-place').count()).toBe(0);
  await page.keyboard.press('?');
  // The leaf's close button has the focus; the next stop is the word.
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: 'Snugfield held against the outside world' }).waitFor();
  await expect.poll(() => foot().textContent()).toMatch(/Checking \d+ of \d+/);
});

it('Escape stops it, keeps what is through, and a second one leaves', async () => {
  await expect.poll(() => page.locator('.proof-table').count()).toBe(1);
  await page.keyboard.press('Escape');
  await again().waitFor();
  expect(await foot().textContent()).toMatch(/[1-9]\d* passed, 0 failed, \d+ of \d+ subjects/);
  await page.keyboard.press('Escape');
  await expect.poll(() => page.locator('.proof-place').count()).toBe(0);
  expect(await page.locator('.legend-name').textContent()).toBe('Pressure on skin');
});

describe('run in full', () => {
  beforeAll(async () => {
    await page.keyboard.press('?');
    await page.getByRole('button', { name: 'Prove' }).click();
    await again().click();
    await again().waitFor({ timeout: 150_000 });
  });

  it('every check passes, every subject can be read with the arrows, whole and named', async () => {
    expect(await foot().textContent()).toMatch(/^[1-9]\d+ passed, 0 failed$/);
    await page.getByRole('button', { name: /^Units and the trade/ }).focus();
    await page.keyboard.press('ArrowDown');
    await expect.poll(() => page.locator('.proof-group h2').textContent()).toMatch(/^Bench arithmetic/);
    expect(await page.locator('.proof-table tbody tr td:last-child').allTextContents()).toEqual(
      expect.arrayContaining(['pass']),
    );
    for (const [width, height, scheme] of [
      [1280, 800, 'light'],
      [1280, 800, 'dark'],
      [1920, 1080, 'light'],
    ] as const) {
      await page.setViewportSize({ width, height });
      await page.emulateMedia({ colorScheme: scheme });
      await keepPicture(`proof-${width}-${scheme}`);
      expect(await accessFaults(page)).toEqual([]);
      const beyond = await page
        .locator('.proof-place *')
        .evaluateAll((all) =>
          all.filter((one) => one.getBoundingClientRect().right > innerWidth).map((one) => one.textContent),
        );
      expect(beyond).toEqual([]);
    }
  });

  it('is saved as numbers, each with its source, and as a picture', async () => {
    const numbers = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Numbers' }).click();
    const csv = await numbers;
    expect(csv.suggestedFilename()).toBe('snugfield-proof.csv');
    const lines = readFileSync(await csv.path(), 'utf8')
      .trimEnd()
      .split('\r\n');
    expect(lines[0]).toBe('subject,id,source,expected,got,unit,tolerance,pass');
    const passed = Number(/^\d+/.exec((await foot().textContent())!)![0]);
    expect(lines).toHaveLength(passed + 1);
    expect(lines.slice(1).every((line) => line.endsWith(',pass'))).toBe(true);
    const picture = page.waitForEvent('download');
    await page.keyboard.press('p');
    const png = await picture;
    expect(png.suggestedFilename()).toBe('snugfield-proof.png');
    const { width, height, at } = readPng(readFileSync(await png.path()));
    expect(width).toBe(1600);
    expect(height % 2263).toBe(0);
    // Ink on the white paper of every page.
    for (let top = 0; top < height; top += 2263) {
      let ink = 0;
      for (let y = top; y < top + 400; y += 3) {
        for (let x = 64; x < 700; x += 3) if (at(x, y)[0] < 100) ink++;
      }
      expect(ink).toBeGreaterThan(100);
    }
    expect(complaints).toEqual([]);
  });
});
