#!/usr/bin/env node
import { prepare } from './prepare.mjs';

/** The command line: sees to it that packages and program are there and current, then runs the program. */
const missing = prepare();
if (missing === 0) {
  const { buildStale, projectFolder } = await import('./build.mjs');
  // On stderr: what a command prints may be read by another program.
  await buildStale(['headless'], { say: (line) => console.error(line) });
  const { pathToFileURL } = await import('node:url');
  await import(new URL('dist/headless/snugfield.js', pathToFileURL(projectFolder)).href);
} else {
  process.exitCode = missing;
}
