/** A settled study tried otherwise, as a person does it: sliders, words, keys, and what files then say. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest';
import { accessFaults } from './help/access-faults.ts';
import { openSettled, openStage, SETTLED, type OpenStage } from './help/open-stage.ts';
import { tries } from './help/tries.ts';

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

const { trying, note, settled, untried } = tries(() => page);
const slider = (name: string | RegExp) => page.getByRole('slider', { name });

/** The highest pressure that the review speaks of, kPa. */
async function highest(): Promise<number> {
  await page.getByRole('button', { name: 'Review', exact: true }).click();
  const words = await page.getByText(/^From .* up\. Highest/).textContent();
  return Number(/Highest ([\d.]+)\s*kPa/.exec(words!)![1]);
}

beforeEach(async () => {
  const back = page.locator('.tried-note').getByRole('button');
  if ((await back.count()) > 0) await back.click();
  await untried();
  await page.keyboard.press('Escape');
  await page.keyboard.press('Escape');
});

const openTry = () => page.getByRole('button', { name: 'Try', exact: true }).click();

it('a cut moved by the keyboard changes the pressure, says so on stage, and steps back and forth', async () => {
  const before = await highest();
  await openTry();
  await slider('Cut').focus();
  // Steps of half a percent.
  for (let step = 0; step < 16; step++) await page.keyboard.press('ArrowLeft');
  await settled(/^Tried: cut 8\s% smaller$/);
  expect(await slider('Cut').getAttribute('aria-valuetext')).toMatch(
    /8\s% smaller, narrowest 57\.0 to 52\.4\scm/,
  );
  // Cut smaller presses harder (pressure = tension / radius, and tension rises with stretch).
  expect(await highest()).toBeGreaterThan(before);
  await page.keyboard.press('Control+z');
  await expect.poll(() => trying().count(), { timeout: 60_000 }).toBe(0);
  await page.keyboard.press('Control+Shift+z');
  await settled(/cut 8\s% smaller/);
  expect(complaints).toEqual([]);
});

it('friction is chosen by a mark with its source, or typed; the view keeps its place', async () => {
  await page.keyboard.press('b');
  await page.waitForTimeout(SETTLED);
  await openTry();
  const form = () => page.locator('.stage canvas').boundingBox();
  const box = await form();
  await page.getByRole('button', { name: 'damp 0.60', exact: true }).click();
  await settled(/^Tried: friction 0\.60, damp skin$/);
  expect(await page.locator('.try-source').textContent()).toMatch(/sweat raises it/);
  const field = page.getByRole('textbox', { name: 'Friction on skin, typed' });
  await field.fill('0,45');
  await field.press('Enter');
  await settled(/^Tried: friction 0\.45$/);
  expect(await form()).toEqual(box);
  await page.getByRole('button', { name: 'Friction on skin: sheet: 0.50' }).click();
  await untried();
});

it('hems move together or alone; flesh and curve are words', async () => {
  await openTry();
  const upper = page.getByRole('textbox', { name: 'Upper hem laid at, cm up, typed' });
  await upper.fill('110.5');
  await upper.press('Enter');
  await settled(/^Tried: laid 0\.5\scm higher$/);
  await page.getByText('let back').click();
  await settled(/return curve$/);
  await page.getByText('both hems together').click();
  await upper.fill('110');
  await upper.press('Enter');
  await settled(/^Tried: lower hem 0\.5\scm higher · return curve$/);
  expect(await accessFaults(page)).toEqual([]);
});

it('Escape stops a try and keeps what stood; a picture and numbers of a try are told from the study’s', async () => {
  await openTry();
  const cut = page.getByRole('textbox', { name: 'Cut, %, typed' });
  await cut.fill('-3');
  await cut.press('Enter');
  await settled(/cut 3\s% smaller/);
  await page.getByText('layer that bulges').click();
  await trying().waitFor();
  await page.keyboard.press('Escape');
  await expect.poll(() => trying().count()).toBe(0);
  expect(await note().textContent()).toMatch(/^Tried: cut 3\s% smaller$/);
  expect(await page.getByRole('radio', { name: 'foundation' }).isChecked()).toBe(true);
  const download = page.waitForEvent('download');
  await page.keyboard.press('p');
  expect((await download).suggestedFilename()).toBe(
    'Harbour-waist-shaper-size-40-round-2-tried-tern-210-skinPressure.png',
  );
  const saving = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save as study' }).click();
  const study = await saving;
  expect(study.suggestedFilename()).toBe('Harbour-waist-shaper-size-40-round-2-tried.study.json');
  const file = JSON.parse(readFileSync(await study.path(), 'utf8')) as {
    garment: { tube: { girths: { relaxedMm: number }[] } };
  };
  // 570 mm at the waist, cut 3 % smaller.
  expect(Math.min(...file.garment.tube.girths.map(({ relaxedMm }) => relaxedMm))).toBeCloseTo(552.9, 6);
});

it('a number beyond its slider goes as far as the slider does', async () => {
  await openTry();
  await page.getByText('both hems together').click();
  const upper = page.getByRole('textbox', { name: 'Upper hem laid at, cm up, typed' });
  await upper.fill('300');
  await upper.press('Enter');
  await settled(/^Tried: upper hem 6\.0\scm higher$/);
});
