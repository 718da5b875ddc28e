/** The bench of the built window as a designer meets it: type a sheet, import a table, mistype, compare, put it on the form. */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { checkBenchSheet } from '../../core/io/read-bench-sheet.ts';
import { STEP_ORDER, STEP_WORDS, type BenchStep } from '../../core/words/bench-place-words.ts';
import { accessFaults } from './help/access-faults.ts';
import { openSettled, openStage, SETTLED, type OpenStage } from './help/open-stage.ts';
import { demoSheetText } from '../help/demo-sheet.ts';

const demoFile = (name: string): string => path.join(import.meta.dirname, '../../assets/demo', name);

/** Longer than typing rests before it is fitted, and the fit itself, ms. */
const FITTED = 1500;

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

const bench = (on = page) => on.locator('.bench-place');
const comesOut = (on = page) => on.getByRole('complementary', { name: 'What comes out' });
const word = (name: string, on = page) => bench(on).getByRole('button', { name, exact: true });
const chooseStep = (step: BenchStep, on = page) =>
  bench(on)
    .locator('.bench-steps')
    .getByRole('button', { name: new RegExp(`^${STEP_WORDS[step]}`) })
    .click();
const field = (name: string | RegExp) =>
  bench().getByLabel(name, typeof name === 'string' ? { exact: true } : {});

async function toBench(on = page): Promise<void> {
  if ((await bench(on).count()) === 0) await on.keyboard.press('n');
  await bench(on).waitFor();
}

async function openFile(name: string, on = page): Promise<void> {
  await bench(on).locator('input[type=file]').setInputFiles(demoFile(name));
  await on.waitForTimeout(FITTED);
}

/** Keeps the window as it stands in `out/bench`, to be looked at. */
const keepPicture = (name: string, on = page): Promise<unknown> =>
  on.screenshot({ path: `out/bench/${name}.png` });

/** Words and fields of the bench that reach beyond the window, and boxes that would have to be scrolled. */
const clipped = (on: Page): Promise<readonly string[]> =>
  on.evaluate(() => {
    const faults: string[] = [];
    for (const element of document.querySelectorAll<HTMLElement>('.bench-place *')) {
      if (element.closest('.hidden, svg, [hidden]') !== null) continue;
      const { right, bottom, left, top, width } = element.getBoundingClientRect();
      const name = `${element.className || element.tagName} "${element.textContent.slice(0, 40)}"`;
      if (width > 0 && (left < 0 || top < 0 || right > innerWidth || bottom > innerHeight)) {
        faults.push(`beyond the window: ${name}`);
      }
      const { overflowY } = getComputedStyle(element);
      if (overflowY === 'auto' && element.scrollHeight > element.clientHeight + 1) {
        faults.push(`must be scrolled: ${name}`);
      }
    }
    return faults;
  });

describe.each([
  [1280, 800, false],
  [1920, 1080, false],
  [1280, 800, true],
])('at %d x %d, dark: %s', (width, height, dark) => {
  it('every step is whole, readable and named, empty and filled, without a complaint', async () => {
    const { page: own, complaints: ownComplaints } = await openSettled(stage, { width, height, dark });
    const look = `${width}${dark ? '-dark' : ''}`;
    await toBench(own);
    for (const isFilled of [false, true]) {
      if (isFilled) await openFile('tern-210.bench.json', own);
      for (const step of STEP_ORDER) {
        await chooseStep(step, own);
        await own.waitForTimeout(200);
        const name = `${step}-${isFilled ? 'filled' : 'empty'}-${look}`;
        await keepPicture(name, own);
        expect([name, await clipped(own)]).toEqual([name, []]);
        expect([name, await accessFaults(own)]).toEqual([name, []]);
      }
    }
    expect(ownComplaints).toEqual([]);
    await own.close();
  });
});

describe('going there and back', () => {
  it('by key and by word; the stage keeps its view, the bench its draft', async () => {
    await page.keyboard.press('4');
    const heading = await page.locator('.legend-name').textContent();
    await toBench();
    await field('Fabric').fill('Kept');
    // Keys of the stage sleep here, even where nobody types.
    await word('Readings').focus();
    await page.keyboard.press('1');
    await page.keyboard.press('Escape');
    expect(await bench().count()).toBe(0);
    expect(await page.locator('.legend-name').textContent()).toBe(heading);
    await page.getByRole('button', { name: 'Bench', exact: true }).click();
    expect(await field('Fabric').inputValue()).toBe('Kept');
    await page.getByRole('button', { name: 'Stage', exact: true }).click();
    await page.getByRole('button', { name: 'Fabric', exact: true }).click();
    await page.getByRole('button', { name: 'To the bench' }).click();
    await bench().waitFor();
    await page.keyboard.press('n');
    await page.getByRole('button', { name: 'Close' }).click();
  });
});

/** Pastes rows into the table's first cell, as from a spreadsheet. */
async function paste(cell: string, rows: readonly (readonly number[])[]): Promise<void> {
  const text = rows.map((row) => row.map((value) => String(value).replace('.', ',')).join('\t')).join('\n');
  await field(cell).evaluate((input, pasted) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData('text/plain', pasted);
    input.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }));
  }, text);
}

describe('a sheet', () => {
  beforeEach(async () => {
    await toBench();
    await word('New').click();
  });

  it('typed from nothing becomes a fabric, step by step', async () => {
    const sheet = checkBenchSheet(JSON.parse(demoSheetText('tern-210')));
    await field('Fabric').fill('Typed');
    await field('Read on').fill('2025-03-11');
    await field('Strip length, mm').fill('200');
    await field('Strip width, mm').fill('50');
    await paste('Mass of each strip, Warp, row 1', [
      [2.112, 2.1, 2.095],
      [2.093, 2.106, 2.091],
      [2.088, 2.089, 2.097],
    ]);
    // 2.0968 g on 100 cm2.
    await expect.poll(() => comesOut().textContent(), { timeout: 5000 }).toMatch(/209\.7\s*g\/m²/);
    await chooseStep('thickness');
    await field('Pressure of the foot, kPa').fill('1');
    await field('Thickness, place by place, Thickness, row 1').fill('0,45');
    await chooseStep('bend');
    await paste('Overhang, Warp, row 1', [[29.5, 26.5, 27.5]]);
    await chooseStep('stretch');
    await field('Gauge length, mm').fill('100');
    await field('Strip width, mm').fill('50');
    for (const direction of ['warp', 'weft', 'bias'] as const) {
      await word(direction.replace(/^./, (letter) => letter.toUpperCase())).click();
      const strip = sheet.stretch[direction];
      await paste('Pulled out, Extension, row 1', strip.load as number[][]);
      await paste('Width, Extension, row 1', strip.width as number[][]);
    }
    await bench().getByRole('radio', { name: 'Warp' }).check({ force: true });
    await expect.poll(() => word('Put on the form as A').isEnabled(), { timeout: 10_000 }).toBe(true);
    expect(await bench().getByRole('alert').count()).toBe(0);
  });

  it('a wrong number says so at its place, a force that falls says why, and undo brings all back', async () => {
    await openFile('tern-210.bench.json');
    await chooseStep('stretch');
    const cell = field('Pulled out, Force, row 6');
    await cell.fill('2..5');
    await expect
      .poll(() => bench().locator('.field-note').allTextContents())
      .toEqual([expect.stringMatching(/Row 6: “2\.\.5” is no number/)]);
    expect(await cell.getAttribute('aria-invalid')).toBe('true');
    await cell.fill('2');
    await expect
      .poll(() => comesOut().getByRole('alert').textContent(), { timeout: 5000 })
      .toMatch(/Warp reading at 30 % \(2 N\) is below 20 %/);
    expect(await cell.getAttribute('aria-invalid')).toBe('true');
    expect(await word('Put on the form as A').isEnabled()).toBe(false);
    await keepPicture('a-force-that-falls');
    await word('Readings').focus();
    await page.keyboard.press('Control+z');
    expect(await cell.inputValue()).toBe('4.45');
    await page.keyboard.press('Control+Shift+z');
    expect(await cell.inputValue()).toBe('2');
    await word('Undo').click();
    await expect.poll(() => comesOut().getByRole('alert').count(), { timeout: 5000 }).toBe(0);
  });

  it('goes out as a file that reads back to the same readings', async () => {
    await openFile('tern-210.bench.json');
    const download = page.waitForEvent('download');
    await word('Save').click();
    const saved = await download;
    expect(saved.suggestedFilename()).toBe('tern-210-invented-t-0417.bench.json');
    expect(JSON.parse(readFileSync(await saved.path(), 'utf8'))).toEqual(
      JSON.parse(demoSheetText('tern-210')),
    );
    await page.keyboard.press('Escape');
  });

  it('takes a tester’s table over: columns shown, the cycle chosen, one step back', async () => {
    await openFile('plover-185.bench.json');
    await openFile('tern-210-warp.tensile.csv');
    const cell = field('Pulled out, Force, row 2');
    const before = await cell.inputValue();
    const slip = page.getByRole('region', { name: 'A tester’s table' });
    expect(await slip.textContent()).toMatch(/Extension \(%\).*Force \(N\).*Width \(mm\)/);
    expect([await accessFaults(page), await clipped(page)]).toEqual([[], []]);
    await keepPicture('a-testers-table');
    await slip.getByLabel('Which loading?').selectOption('1');
    await slip.getByRole('button', { name: 'Take over' }).click();
    // The first cycle of the table; the fifth has 0.83 N there.
    await expect.poll(() => cell.inputValue()).toBe('0.93');
    expect(await field('Cycle').inputValue()).toBe('1');
    await word('Undo').click();
    expect(before).not.toBe('0.93');
    expect(await cell.inputValue()).toBe(before);
  });

  it('asks what a table does not say, and takes the strips where one says', async () => {
    const rows = [
      'Strip;Ext (mm);Force',
      '1;0;0',
      '1;10;1,6',
      '1;20;3,1',
      '1;30;4,4',
      '2;0;0',
      '2;10;1,7',
      '2;20;3,0',
      '2;30;4,5',
    ];
    await bench()
      .locator('input[type=file]')
      .setInputFiles({ name: 'plain.csv', mimeType: 'text/csv', buffer: Buffer.from(rows.join('\n')) });
    const slip = page.getByRole('region', { name: 'A tester’s table' });
    await slip.getByLabel(/Which column is the extension/).selectOption('1');
    await slip.getByLabel('Column 1 is read as').selectOption('specimen');
    await slip.getByLabel(/does not say its unit/).selectOption({ label: 'N (likely)' });
    await slip.getByLabel(/gauge length is needed/).fill('50');
    await page.keyboard.press('Enter');
    const takeOver = slip.getByRole('button', { name: 'Take over' });
    const goesTo = slip.getByRole('combobox', { name: /direction the table does not say/ });
    await goesTo.waitFor();
    // Nobody says for the person which way the strips were cut.
    expect(await takeOver.isEnabled()).toBe(false);
    await goesTo.selectOption('weft');
    await takeOver.click();
    // 30 mm on 50 mm.
    await expect.poll(() => field('Pulled out, Extension, row 4').inputValue()).toBe('60');
    await word('Strip 2').click();
    expect(await field('Pulled out, Force, row 4').inputValue()).toBe('4.5');
    expect(await field('Gauge length, mm').inputValue()).toBe('50');
  });

  it('that cannot be read is explained, and what was typed stays', async () => {
    await field('Fabric').fill('Stays');
    await bench()
      .locator('input[type=file]')
      .setInputFiles({
        name: 'broken.bench.json',
        mimeType: 'application/json',
        buffer: Buffer.from('{"snugfieldBench": 1,'),
      });
    const alert = page.getByRole('alert');
    await alert.waitFor();
    expect(await alert.textContent()).toMatch(/broken\.bench\.json.*Line 1, column 22/);
    await page.keyboard.press('Escape');
    expect(await field('Fabric').inputValue()).toBe('Stays');
  });
});

it('sets a fabric of the study beside, in curves and on the card', async () => {
  await toBench();
  await openFile('tern-210.bench.json');
  await bench().getByLabel('Beside it').selectOption({ label: 'B · Plover 185 (invented)' });
  await word('Curves').click();
  const curves = page.getByRole('region', { name: 'Strip curves' });
  await expect.poll(() => curves.textContent(), { timeout: 5000 }).toMatch(/Plover 185/);
  await page.waitForTimeout(SETTLED);
  await keepPicture('curves-beside');
  expect(await accessFaults(page)).toEqual([]);
  await word('Card').click();
  await page.waitForTimeout(SETTLED);
  await keepPicture('card');
  expect(await accessFaults(page)).toEqual([]);
});

it('lays both fabrics over the table and over the edge, and marks what is exaggerated', async () => {
  await toBench();
  await openFile('tern-210.bench.json');
  await bench().getByLabel('Beside it').selectOption({ label: 'B · Plover 185 (invented)' });
  await word('Swatch').click();
  const swatches = page.getByRole('region', { name: 'Swatch' });
  const captions = swatches.locator('.swatch-caption');
  const said = (pattern: RegExp) =>
    expect
      .poll(async () => (await captions.allTextContents()).filter((text) => pattern.test(text)).length, {
        timeout: 60_000,
      })
      .toBe(2);
  await said(/Drape coefficient \d+ %, \d+ folds/);
  await keepPicture('swatch-drape');
  expect([await accessFaults(page), await clipped(page)]).toEqual([[], []]);
  await swatches.getByRole('slider', { name: 'Thickness' }).fill('2');
  expect(await swatches.locator('.swatch-mark').textContent()).toBe(
    'thickness × 4: exaggerated, not this fabric',
  );
  await swatches.getByRole('button', { name: 'Over an edge' }).click();
  await said(/Overhang [\d.]+ mm; the bench read [\d.]+ mm \(warp\)/);
  for (const text of await captions.allTextContents()) {
    const [found, read] = [...text.matchAll(/([\d.]+) mm/g)].map(([, mm]) => Number(mm));
    expect(Math.abs(found! / read! - 1)).toBeLessThan(0.02);
  }
  await keepPicture('swatch-edge');
  const download = page.waitForEvent('download');
  await swatches.getByRole('button', { name: 'Save picture' }).click();
  expect((await download).suggestedFilename()).toMatch(/\.png$/);
  await page.keyboard.press('Escape');
});

it('puts the fabric on the form in place of B, runs the study and shows it', async () => {
  await toBench();
  await openFile('tern-210.bench.json');
  await field('Fabric').fill('Tern as typed');
  await page.waitForTimeout(FITTED);
  await word('Put on the form as B').click();
  await expect.poll(() => bench().count(), { timeout: 5000 }).toBe(0);
  const progress = page.getByRole('status', { name: 'Progress' });
  await progress.waitFor();
  await expect.poll(() => progress.count(), { timeout: 120_000 }).toBe(0);
  const cards = page.getByRole('group', { name: 'Fabrics' }).getByRole('button');
  expect(await cards.allTextContents()).toEqual([
    expect.stringContaining('A · Tern 210'),
    expect.stringContaining('B · Tern as typed'),
  ]);
  expect(complaints).toEqual([]);
});
