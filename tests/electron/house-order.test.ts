/**
 * That the house's order is kept by machine: faults are planted in a copy of the empty house, and the linter and the
 * compiler must report each of them, and must let pass what is allowed beside them.
 */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';

import { afterAll, beforeAll, describe, expect, it } from 'vitest';

import { projectFolder } from '../../electron/launch/build.mjs';

interface Planted {
  readonly file: string;
  readonly code: string;
  /** The rule that must report it; null where nothing may be reported. */
  readonly rule: string | null;
}

const order = 'eslint(no-restricted-imports)';
const take = (from: string) => `import { thing } from '${from}';\n\nexport const other = thing;\n`;
const takeType = (from: string) => `import type { Thing } from '${from}';\n\nexport type Other = Thing;\n`;

const planted: readonly Planted[] = [
  { file: 'core/mesh/later-room.ts', code: take('../fields/field.ts'), rule: order },
  { file: 'core/body/sees-fabric.ts', code: takeType('../fabric/fabric.ts'), rule: order },
  { file: 'core/fields/sees-limits.ts', code: take('../judgement/limits.ts'), rule: order },
  { file: 'core/io/sees-equilibrium.ts', code: take('../equilibrium/settle.ts'), rule: order },
  { file: 'core/units/reads-disk.ts', code: take('node:fs'), rule: order },
  { file: 'core/equilibrium/draws.ts', code: take('three'), rule: order },
  { file: 'core/fabric/parses.ts', code: take('zod'), rule: order },
  { file: 'core/study/knows-shell.ts', code: takeType('../../electron/contract.ts'), rule: order },
  {
    file: 'core/garment/dices.ts',
    code: 'export const other = Math.random();\n',
    rule: 'eslint(no-restricted-properties)',
  },
  {
    file: 'core/fields/clock.ts',
    code: 'export const other = Date.now();\n',
    rule: 'eslint(no-restricted-globals)',
  },
  { file: 'core/proof/talks.ts', code: "console.log('x');\n", rule: 'eslint(no-console)' },
  { file: 'renderer/panels/computes.ts', code: take('../../core/study/run-study.ts'), rule: order },
  { file: 'renderer/panels/draws.ts', code: take('three'), rule: order },
  { file: 'renderer/panels/sees-scene.ts', code: take('../scene/stage.ts'), rule: order },
  { file: 'renderer/scene/sees-panels.ts', code: take('../panels/legend.ts'), rule: order },
  { file: 'renderer/store/knows-react.ts', code: take('react'), rule: order },
  { file: 'renderer/worker/knows-store.ts', code: take('zustand'), rule: order },
  { file: 'renderer/bridge/knows-electron.ts', code: take('electron'), rule: order },
  { file: 'renderer/bridge/takes-shell.ts', code: take('../../electron/files.ts'), rule: order },
  { file: 'electron/computes.ts', code: take('../core/study/run-study.ts'), rule: order },
  { file: 'electron/knows-screen.ts', code: take('../renderer/main.ts'), rule: order },
  { file: 'electron/headless/knows-screen.ts', code: take('../../renderer/main.ts'), rule: order },
  { file: 'electron/headless/default.ts', code: 'export default 1;\n', rule: 'import(no-default-export)' },
  {
    file: 'core/study/unawaited.ts',
    code: 'const work = async (): Promise<void> => {};\n\nexport const go = (): void => {\n  work();\n};\n',
    rule: 'typescript(no-floating-promises)',
  },
  {
    file: 'core/study/forgets-a-case.ts',
    code: "export function name(of: 'warp' | 'weft'): string {\n  switch (of) {\n    case 'warp':\n      return 'length';\n  }\n  return '';\n}\n",
    rule: 'typescript(switch-exhaustiveness-check)',
  },
  // Allowed beside them.
  { file: 'core/garment/sees-body.ts', code: take('../body/body.ts'), rule: null },
  { file: 'core/io/parses.ts', code: take('zod'), rule: null },
  { file: 'core/sheet/colours.ts', code: take('d3-scale-chromatic'), rule: null },
  { file: 'renderer/panels/takes-type.ts', code: takeType('../../core/study/study.ts'), rule: null },
  { file: 'renderer/panels/takes-sheet.ts', code: take('../../core/sheet/legend.ts'), rule: null },
  { file: 'renderer/bridge/takes-contract.ts', code: takeType('../../electron/contract.ts'), rule: null },
  { file: 'electron/takes-type.ts', code: takeType('../core/study/study.ts'), rule: null },
  { file: 'electron/headless/computes.ts', code: take('../../core/study/run-study.ts'), rule: null },
];

interface Report {
  readonly diagnostics: readonly { readonly code: string; readonly filename: string }[];
}

let house: string;
let reported: Report['diagnostics'];

function run(script: string, words: readonly string[]) {
  return spawnSync(process.execPath, [path.join(projectFolder, script), ...words], {
    cwd: house,
    encoding: 'utf8',
  });
}

beforeAll(() => {
  house = mkdtempSync(path.join(tmpdir(), 'house-'));
  for (const name of ['oxlint.config.mjs', 'package.json', 'tsconfig.json', 'core/tsconfig.json']) {
    cpSync(path.join(projectFolder, name), path.join(house, name));
  }
  for (const { file, code } of planted) {
    mkdirSync(path.dirname(path.join(house, file)), { recursive: true });
    writeFileSync(path.join(house, file), code);
  }
  const { stdout } = run('node_modules/oxlint/bin/oxlint', [
    '-c',
    'oxlint.config.mjs',
    '--type-aware',
    '--format=json',
    'core',
    'renderer',
    'electron',
  ]);
  ({ diagnostics: reported } = JSON.parse(stdout) as Report);
});

afterAll(() => {
  rmSync(house, { recursive: true });
});

describe('the linter', () => {
  it.each(planted)('$file: $rule', ({ file, rule }) => {
    const here = reported
      .filter(({ filename }) => filename.replaceAll('\\', '/') === file)
      .map(({ code }) => code);
    if (rule === null) expect(here).toEqual([]);
    else expect(here).toContain(rule);
  });
});

describe('the compiler', () => {
  it('knows neither screen nor Node nor clock in core', () => {
    const names = [
      'document',
      'window',
      'process',
      'console',
      'performance',
      'TextDecoder',
      'Buffer',
      'setTimeout',
    ];
    const file = path.join(house, 'core/reaches-out.ts');
    writeFileSync(file, names.map((name, i) => `export const a${i} = ${name};`).join('\n'));
    const { stdout } = run('node_modules/typescript/bin/tsc', ['-p', 'core', '--pretty', 'false']);
    for (const name of names) expect(stdout).toMatch(new RegExp(`reaches-out.*Cannot find name '${name}'`));
  });
});
