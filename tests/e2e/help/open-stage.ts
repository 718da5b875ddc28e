import path from 'node:path';
import { chromium, type Browser, type Page } from 'playwright-core';
import { buildStale, projectFolder } from '../../../electron/launch/build.mjs';
import { findBrowser } from '../../../electron/launch/find-browser.mjs';
import { startLoopbackHost } from '../../../electron/launch/loopback-host.mjs';

/** The built window in a browser of its own. */
export interface OpenStage {
  readonly browser: Browser;
  readonly address: string;
  readonly close: () => Promise<void>;
}

/** Builds what is stale, serves it with the demonstration, and starts a browser that draws in software. */
export async function openStage(): Promise<OpenStage> {
  await buildStale(['renderer']);
  const host = await startLoopbackHost({
    page: path.join(projectFolder, 'dist/renderer'),
    demo: path.join(projectFolder, 'assets/demo'),
  });
  const browser = await chromium.launch({
    executablePath: findBrowser()!,
    args: ['--no-sandbox', '--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'],
  });
  return {
    browser,
    address: host.address,
    close: async () => {
      await browser.close();
      await host.close();
    },
  };
}

/** A page whose complaints are written down. */
export interface WatchedPage {
  readonly page: Page;
  readonly complaints: readonly string[];
}

/** A page of the given size with the demonstration settled on it. */
export async function openSettled(
  { browser, address }: OpenStage,
  { width = 1280, height = 800, dark = false } = {},
): Promise<WatchedPage> {
  const page = await browser.newPage({
    viewport: { width, height },
    acceptDownloads: true,
    colorScheme: dark ? 'dark' : 'light',
  });
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.goto(address);
  await page.getByRole('complementary', { name: 'Legend' }).waitFor({ timeout: 120_000 });
  await page.waitForTimeout(SETTLED);
  return { page, complaints };
}

/** Longer than any view takes to ease, ms. */
export const SETTLED = 700;
