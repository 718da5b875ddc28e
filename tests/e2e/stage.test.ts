/** The built window as a person meets it: open, look, read, swap, compare, take a picture, open a wrong file. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { ColourRange } from '../../core/sheet/colour-scale.ts';
import { CAUTION_SHORT } from '../../core/words/judgement-words.ts';
import { LEAF_ORDER, LEAF_WORDS } from '../../core/words/stage-words.ts';
import { accessFaults } from './help/access-faults.ts';
import { clipped } from './help/clipped.ts';
import { openSettled, openStage, SETTLED, type OpenStage } from './help/open-stage.ts';
import { readPng, valueOfColour, type Pixels } from './help/read-colours.ts';

let stage: OpenStage;
/** One page for all but the tests of sizes: settling the demonstration takes longest. */
let page: Page;
beforeAll(async () => {
  stage = await openStage();
  ({ page } = await openSettled(stage));
});
afterAll(async () => {
  await stage.close();
});

/** Fabric A, pressure on skin, from the front, nothing open, the range as it was laid. */
async function startAfresh(): Promise<void> {
  await page.mouse.move(5, 400);
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  await page.keyboard.press('Escape');
  await page.keyboard.press('Escape');
  await page.keyboard.press('1');
  await page.getByRole('button', { name: /^A · / }).click();
  const reset = page.getByRole('button', { name: 'Reset' });
  if ((await reset.count()) > 0) await reset.click();
  await press('f');
}

const press = async (key: string): Promise<void> => {
  await page.keyboard.press(key);
  await page.waitForTimeout(SETTLED);
};

/** The range that the legend says is in use, Pa. */
async function rangeInUse(): Promise<ColourRange> {
  const [low, high] = await page
    .locator('.range-end')
    .evaluateAll((ends) => ends.map((end) => 1000 * Number((end as HTMLInputElement).value)));
  return { low: low!, high: high! };
}

/** Keeps the stage as it stands in `out/stage`, to be looked at. */
const keepPicture = (name: string): Promise<unknown> => page.screenshot({ path: `out/stage/${name}.png` });

/** The middle of the stage, where the cloth is. */
const middle = async (): Promise<Pixels> =>
  readPng(await page.screenshot({ clip: { x: 420, y: 240, width: 240, height: 240 } }));

/** Share of pixels by which two pictures of one size differ. */
function differing(one: Pixels, other: Pixels): number {
  let count = 0;
  for (let y = 0; y < one.height; y += 4) {
    for (let x = 0; x < one.width; x += 4) {
      const [a, b] = [one.at(x, y), other.at(x, y)];
      if (Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]) > 6) count++;
    }
  }
  return (16 * count) / (one.width * one.height);
}

describe.each([
  [1280, 800, false],
  [1920, 1080, false],
  [1280, 800, true],
])('at %d x %d, dark: %s', (width, height, dark) => {
  it('shows every leaf and the help whole, readable, named for a screen reader, without a complaint', async () => {
    const { page, complaints } = await openSettled(stage, { width, height, dark });
    expect(await clipped(page)).toEqual([]);
    expect(await accessFaults(page)).toEqual([]);
    for (const leaf of LEAF_ORDER) {
      await page.getByRole('button', { name: LEAF_WORDS[leaf], exact: true }).click();
      await page.waitForTimeout(SETTLED);
      expect([leaf, await clipped(page)]).toEqual([leaf, []]);
      expect([leaf, await accessFaults(page)]).toEqual([leaf, []]);
      const corner = page.locator('.leaf-corner');
      if ((await corner.count()) === 0) continue;
      await corner.click();
      expect([`${leaf}, turned`, await clipped(page)]).toEqual([`${leaf}, turned`, []]);
    }
    await page.keyboard.press('?');
    await page.waitForTimeout(SETTLED);
    expect(await clipped(page)).toEqual([]);
    expect(await accessFaults(page)).toEqual([]);
    expect(await page.getByText(CAUTION_SHORT).isVisible()).toBe(true);
    expect(complaints).toEqual([]);
    await page.close();
  });
});

describe('the map', () => {
  beforeEach(startAfresh);

  it('shows the number that the pointer reads: colour and words agree', async () => {
    const range = await rangeInUse();
    await page.mouse.move(5, 400);
    const picture = readPng(await page.screenshot());
    const misses: number[] = [];
    for (let y = 300; y <= 480; y += 18) {
      for (let x = 400; x <= 660; x += 26) {
        const painted = valueOfColour(picture.at(x, y), 'viridis', range);
        if (painted === null) continue;
        await page.mouse.move(x + 0.5, y + 0.5);
        await page.waitForTimeout(60);
        const words = await page.locator('.pointer-card strong').textContent();
        misses.push(Math.abs(Number.parseFloat(words!) * 1000 - painted));
      }
    }
    misses.sort((a, b) => a - b);
    expect(misses.length).toBeGreaterThan(60);
    // One texel is 1/255 of the range and the words are rounded to 10 Pa; the pointer may stand half a pixel off.
    expect(misses[Math.floor(misses.length / 2)]).toBeLessThanOrEqual(5 + range.high / 255);
    expect(misses[Math.floor(0.95 * misses.length)]).toBeLessThanOrEqual(10 + (3 * range.high) / 255);
  });

  it('is chosen by number, swapped by Space and set against the other by D, camera and range kept', async () => {
    const legendName = page.locator('.legend-name');
    const first = await middle();
    await keepPicture('fabric-a');
    const ends = await page
      .locator('.range-end')
      .evaluateAll((all) => all.map((end) => (end as HTMLInputElement).value));
    await press(' ');
    expect(differing(first, await middle())).toBeGreaterThan(0.3);
    await keepPicture('fabric-b');
    expect(
      await page
        .locator('.range-end')
        .evaluateAll((all) => all.map((end) => (end as HTMLInputElement).value)),
    ).toEqual(ends);
    await press('d');
    expect(await legendName.textContent()).toBe('Pressure on skin, B minus A');
    await keepPicture('difference');
    await press('d');
    await press(' ');
    expect(differing(first, await middle())).toBeLessThan(0.01);
    await press('8');
    expect(await legendName.textContent()).toBe('Give of the body');
  });

  it('is hatched where nothing touches, never the lowest colour', async () => {
    await press('b');
    // The lumbar hollow of the demonstration is bridged: its middle is paper and pen.
    const { width } = page.viewportSize()!;
    const picture = readPng(await page.screenshot());
    const middleX = (396 - 340 + width - 262) / 2;
    const colours = Array.from({ length: 40 }, (_, i) => picture.at(middleX - 10 + (i % 20), 280 + i));
    expect(colours.every((colour) => valueOfColour(colour, 'viridis', { low: 0, high: 1 }) === null)).toBe(
      true,
    );
    expect(colours.some(([red]) => red > 235)).toBe(true);
    expect(colours.some(([red]) => red < 190)).toBe(true);
    await page.mouse.move(middleX, 300);
    await page.mouse.move(middleX + 1, 301);
    await expect.poll(() => page.locator('.pointer-card strong').textContent()).toMatch(/off the skin/);
  });

  it('keeps a typed range over fields and fabrics, and takes no nonsense', async () => {
    const upper = page.getByRole('textbox', { name: /Upper end/ });
    await upper.fill('2,5');
    await upper.press('Enter');
    await page.mouse.click(600, 380);
    await press(' ');
    await press('3');
    await press('1');
    expect(await upper.inputValue()).toBe('2.5');
    await upper.fill('wide');
    await upper.press('Enter');
    await page.mouse.click(600, 380);
    expect(await upper.inputValue()).toBe('2.5');
  });

  it('turns to standard views by key and comes back to the same picture', async () => {
    await press('f');
    const front = await middle();
    await press('r');
    expect(differing(front, await middle())).toBeGreaterThan(0.2);
    await press('z');
    await press('z');
    await press('f');
    expect(differing(front, await middle())).toBeLessThan(0.02);
    await page.mouse.move(540, 380);
    await page.mouse.down();
    await page.mouse.move(640, 380, { steps: 4 });
    await page.mouse.up();
    await page.waitForTimeout(SETTLED);
    expect(differing(front, await middle())).toBeGreaterThan(0.05);
  });
});

it('takes a picture whose legend and cloth read back to the same numbers', async () => {
  await startAfresh();
  const download = page.waitForEvent('download');
  await page.keyboard.press('p');
  const saved = await download;
  expect(saved.suggestedFilename()).toBe('Harbour-waist-shaper-size-40-round-2-tern-210-skinPressure.png');
  const picture = readPng(readFileSync(await saved.path()));
  expect([picture.width, picture.height]).toEqual([2400, 1500]);
  // The ramp of the legend: from 190 to 760 thousandths of the height, 150 from the right edge (draw-legend.ts).
  const range = await rangeInUse();
  const unit = 1.5;
  const rampX = 2400 - 133 * unit;
  for (const share of [0.1, 0.3, 0.5, 0.7, 0.9]) {
    const y = (760 - 570 * share) * unit;
    const value = valueOfColour(picture.at(rampX, y), 'viridis', range);
    // Two texels of 256, one of them for the pixel's own place.
    expect(Math.abs(value! / range.high - share)).toBeLessThanOrEqual(2 / 255);
  }
  // Cloth in the same colours: a good part of the middle reads as values of the ramp.
  let read = 0;
  for (let x = 700; x < 1300; x += 20) {
    for (let y = 600; y < 900; y += 20) {
      if (valueOfColour(picture.at(x, y), 'viridis', range) !== null) read++;
    }
  }
  expect(read).toBeGreaterThan(200);
});

/** Drops files on the table as a person does. */
const drop = (files: readonly { name: string; text: string }[]): Promise<void> =>
  page.evaluate((given) => {
    const dataTransfer = new DataTransfer();
    for (const { name, text } of given) dataTransfer.items.add(new File([text], name));
    document
      .querySelector('.table')!
      .dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true }));
  }, files);

describe('files', () => {
  beforeEach(startAfresh);

  const bench = readFileSync(new URL('../../assets/demo/tern-210.bench.json', import.meta.url), 'utf8');

  it.each([
    ['a picture', [{ name: 'photo.png', text: 'x' }], /No study among this file: photo\.png/],
    [
      'a broken study',
      [{ name: 'a.study.json', text: '{"snugfield": 1,\n"name": oops}' }],
      /Line 2, column \d+/,
    ],
    ['a study of another version', [{ name: 'a.study.json', text: '{"snugfield": 99}' }], /99.*version 1/],
    [
      'a study without its sheets',
      [
        {
          name: 'lonely.study.json',
          text: readFileSync(
            new URL('../../assets/demo/harbour-waist-shaper.study.json', import.meta.url),
            'utf8',
          ),
        },
      ],
      /There is no file tern-210\.bench\.json/,
    ],
    ['a bench sheet alone', [{ name: 'tern.bench.json', text: bench }], /version 1/],
  ] as const)('%s is explained and nothing is lost', async (_, files, message) => {
    await drop(files);
    const alert = page.getByRole('alert');
    await alert.waitFor();
    expect(await alert.textContent()).toMatch(message);
    expect(await alert.textContent()).toContain('What was on the table is still there.');
    expect(await page.locator('.legend-name').textContent()).toBe('Pressure on skin');
    await page.keyboard.press('Escape');
    await expect.poll(() => alert.count()).toBe(0);
  });

  it('opens the demonstration when its files are dropped, and a run can be stopped', async () => {
    const folder = new URL('../../assets/demo/', import.meta.url);
    const names = ['harbour-waist-shaper.study.json', 'tern-210.bench.json', 'plover-185.bench.json'];
    const files = names.map((name) => ({ name, text: readFileSync(new URL(name, folder), 'utf8') }));
    await drop(files);
    const progress = page.getByRole('status', { name: 'Progress' });
    await progress.waitFor();
    await page.keyboard.press('Escape');
    await expect.poll(() => progress.count()).toBe(0);
    expect(await page.locator('.legend-name').textContent()).toBe('Pressure on skin');
    await drop(files);
    await progress.waitFor();
    await expect.poll(() => progress.count(), { timeout: 120_000 }).toBe(0);
    expect(await page.getByRole('alert').count()).toBe(0);
  });
});
