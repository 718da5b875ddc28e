/** The body leaf as a person uses it: a size by name, girths, tapes laid by keys, by hand and by number, flesh corrected. */
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

const { trying, settled, untried } = tries(() => page);

beforeEach(async () => {
  const back = page.locator('.tried-note').getByRole('button');
  if ((await back.count()) > 0) await back.click();
  await untried();
  const leaf = page.getByRole('button', { name: 'Body', exact: true });
  if ((await leaf.getAttribute('aria-expanded')) !== 'true') await leaf.click();
});

const openPart = async (name: 'Form' | 'Tape' | 'Flesh'): Promise<void> => {
  await page.locator('.part-words').getByText(name, { exact: true }).click();
};

/** A row of the tape's table as numbers: height, girth, chart, difference; mm. */
async function tapeRow(name: string): Promise<number[]> {
  const cells = page.locator('.tape-table tr').filter({
    has: page.getByRole('button', { name, exact: true }),
  });
  const texts = await cells.locator('td').allTextContents();
  return texts.map((text) => (text === '' ? Number.NaN : Number(text.replace('\u2212', '-'))));
}

const girthOf = async (name: string): Promise<number> => (await tapeRow(name))[1]!;

const openTape = async (): Promise<void> => {
  await openPart('Tape');
  await page.locator('.tape-table').waitFor({ timeout: 30_000 });
};

const typed = async (name: string, value: string): Promise<void> => {
  const field = page.getByRole('textbox', { name, exact: true });
  await field.fill(value);
  await field.press('Enter');
};

it('a size picked by name is worn by the form, read by the tape, and steps back', async () => {
  await openPart('Form');
  await page.locator('.size-words').getByText('100', { exact: true }).click();
  await settled(/^Tried: female form, house size 100$/);
  await openTape();
  await expect.poll(() => girthOf('Bust'), { timeout: 30_000 }).toBeGreaterThan(995);
  // The chart's own numbers, within 2 mm on the finished mesh.
  for (const name of ['Bust', 'Waist', 'Hip']) {
    const [, girth, chart, difference] = await tapeRow(name);
    expect(Math.abs(girth! - chart!)).toBeLessThanOrEqual(2);
    // Body minus chart, from unrounded numbers.
    expect(difference).toBeCloseTo(girth! - chart!, 0);
  }
  await page.keyboard.press('Control+z');
  await untried();
  await expect.poll(() => girthOf('Bust'), { timeout: 30_000 }).toBeLessThan(925);
  expect(complaints).toEqual([]);
});

it('one girth is typed or moved by keys, and goes back by itself; what cannot be shaped is said, and nothing lost', async () => {
  await openPart('Form');
  await typed('Waist, cm, typed', '80');
  await settled(/^Tried: waist 80\.0\scm$/);
  await page.getByRole('slider', { name: 'Waist' }).focus();
  await page.keyboard.press('ArrowLeft');
  await settled(/^Tried: waist 79\.5\scm$/);
  await page.getByRole('button', { name: 'Waist: back to 76.0' }).click();
  await untried();
  // A bust that is no larger than the under-bust.
  await typed('Bust, cm, typed', '78');
  const slip = page.locator('.slip.fault');
  await slip.waitFor({ timeout: 30_000 });
  expect(await slip.textContent()).toMatch(/bust of 780 mm over an under-bust of 790 mm/);
  expect(await page.getByRole('textbox', { name: 'Bust, cm, typed', exact: true }).inputValue()).toBe('92.0');
  await slip.getByRole('button').click();
});

it('feet apart and shape are asked as girths are, and saved with the study', async () => {
  await openPart('Form');
  await page.getByText('Stance and shape').click();
  await typed('Feet apart, °, typed', '6');
  await settled(/^Tried: feet apart 6\.0°$/);
  const saving = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save as study' }).click();
  const file = JSON.parse(readFileSync(await (await saving).path(), 'utf8')) as {
    body: { fitBody: Record<string, number> };
  };
  expect(file.body.fitBody).toMatchObject({ bustMm: 920, waistMm: 760, legSpreadDeg: 6 });
});

it('a tape is chosen, moved by keys by 1 and by 10 mm, tilted by number, saved, and goes back to found', async () => {
  await openTape();
  const [found, girth] = await tapeRow('Waist');
  const row = page.getByRole('button', { name: 'Waist', exact: true });
  await row.click();
  await row.focus();
  await page.keyboard.press('ArrowUp');
  await page.keyboard.press('Shift+ArrowUp');
  await settled(/^Tried: tape laid by hand$/);
  await expect.poll(async () => (await tapeRow('Waist'))[0], { timeout: 30_000 }).toBe(found! + 11);
  const handle = page.getByRole('slider', { name: 'Level of the Waist' });
  expect(await handle.getAttribute('aria-valuenow')).toBe(String(found! + 11));
  await handle.focus();
  await page.keyboard.press('ArrowDown');
  await expect.poll(async () => (await tapeRow('Waist'))[0], { timeout: 30_000 }).toBe(found! + 10);
  const level = await girthOf('Waist');
  await typed('Waist: Tilt to the front, degrees', '20');
  // An oblique section of a trunk that widens to both ends of its waist is longer than the level one.
  await expect.poll(() => girthOf('Waist'), { timeout: 30_000 }).toBeGreaterThan(level + 5);
  await page.getByRole('button', { name: 'Waist: Back to found' }).click();
  await untried();
  await expect
    .poll(() => tapeRow('Waist'), { timeout: 30_000 })
    .toEqual(expect.arrayContaining([found, girth]));
});

it('a tape is drawn down on the stage by hand while the form stands still; elsewhere the form turns', async () => {
  await openTape();
  await page.keyboard.press('f');
  await page.waitForTimeout(SETTLED);
  const row = page.getByRole('button', { name: 'Hip', exact: true });
  await row.click();
  await page.waitForTimeout(SETTLED);
  const [found] = await tapeRow('Hip');
  // The handle stands at the tape's right end: the tape itself runs to its left.
  const box = (await page.getByRole('slider', { name: 'Level of the Hip' }).boundingBox())!;
  const x = box.x - 40;
  const y = box.y + box.height / 2;
  let grip = y;
  for (; grip < y + 30; grip += 3) {
    await page.mouse.move(x, grip);
    if ((await page.locator('.stage canvas').evaluate((canvas) => canvas.style.cursor)) === 'ns-resize')
      break;
  }
  await page.mouse.down();
  await page.mouse.move(x, grip + 12, { steps: 6 });
  await page.mouse.up();
  await settled(/^Tried: tape laid by hand$/);
  await expect.poll(async () => (await tapeRow('Hip'))[0], { timeout: 30_000 }).toBeLessThan(found! - 10);
});

it('a chart of one’s own stands beside the body; its faults are said in words', async () => {
  await openTape();
  const open = (name: string, text: string) =>
    page
      .locator('.beside-line input[type=file]')
      .setInputFiles({ name, mimeType: 'text/csv', buffer: Buffer.from(text) });
  await open('broken.csv', 'measure,S,M\nwaist,70,seventy-six\n');
  const slip = page.locator('.slip.fault');
  await slip.waitFor({ timeout: 30_000 });
  expect(await slip.textContent()).toMatch(
    /Row 2, column 3 of the size chart \(size M\) reads "seventy-six"/,
  );
  expect(await slip.textContent()).toContain('broken.csv');
  await slip.getByRole('button').click();
  await open('own.csv', 'measure,S,M\nwaist,70,77\nhip,95,101\n');
  await page.getByRole('combobox', { name: 'Beside size' }).selectOption('M');
  await expect.poll(async () => (await tapeRow('Waist'))[2], { timeout: 30_000 }).toBe(770);
  await page.getByRole('button', { name: 'House chart' }).click();
});

it('flesh is shown as a map, corrected by region and by the brush, and saved; a step back takes a stroke away', async () => {
  await openPart('Flesh');
  const belly = page.getByRole('textbox', { name: 'Belly: mean depth, mm' });
  await belly.waitFor({ timeout: 30_000 });
  const legend = page.getByRole('complementary', { name: 'Legend of the tissue map' });
  expect(await legend.textContent()).toMatch(/Depth of tissue.*mm.*estimate/);
  await belly.fill('30');
  await belly.press('Enter');
  await settled(/^Tried: tissue corrected$/);
  await expect.poll(() => belly.inputValue(), { timeout: 30_000 }).toBe('30.0');
  expect(await legend.textContent()).toMatch(/set by region/);
  await page.getByText('Brush on the form').click();
  await page.getByRole('button', { name: 'Stroke at the middle' }).click();
  await expect.poll(() => legend.textContent(), { timeout: 30_000 }).toMatch(/set by the brush/);
  await expect.poll(() => trying().count(), { timeout: 60_000 }).toBe(0);
  await page.keyboard.press('Control+z');
  await expect.poll(() => legend.textContent(), { timeout: 30_000 }).not.toMatch(/set by the brush/);
  await page.getByText('Brush on the form').click();
  await page.getByRole('button', { name: 'Belly: back to the estimate' }).click();
  await untried();
});

it.each(['Form', 'Tape', 'Flesh'] as const)(
  '%s keeps to the rules of accessibility, light and dark',
  async (part) => {
    await openPart(part);
    await page.waitForTimeout(SETTLED);
    expect(await accessFaults(page)).toEqual([]);
    await page.emulateMedia({ colorScheme: 'dark' });
    expect(await accessFaults(page)).toEqual([]);
    await page.emulateMedia({ colorScheme: 'light' });
    const leaf = (await page.getByRole('region', { name: 'Body' }).boundingBox())!;
    // Above the swatches.
    expect(leaf.y + leaf.height).toBeLessThanOrEqual(800 - 112);
  },
);

it('nothing was complained of', () => {
  expect(complaints).toEqual([]);
});
