import { Command, CommanderError } from 'commander';

import { Fault, inFileAsync } from '../../core/fault/fault.ts';
import { sayFault } from '../../core/words/say.ts';
import { addTableOptions, type TableOptions } from './bench-options.ts';
import { bench } from './bench.ts';
import { bodyImport, isMeshFile } from './body-import.ts';
import { addImportOptions, type ImportOptions } from './body-options.ts';
import { body } from './body.ts';
import { exitCodes, type ExitCode } from './exit-codes.ts';
import { prove, type ProveOptions } from './prove.ts';
import { makeTerminal, type Terminal } from './terminal.ts';
import { tape, type TapeOptions } from './tape.ts';
import { wear } from './wear.ts';

/** The options of all commands, as Commander hands them over. */
interface Wishes {
  readonly json?: boolean;
  readonly out?: string;
}

/** Those of `body`. */
type BodyOptions = Pick<Wishes, 'json'> & { readonly out?: string | null } & ImportOptions;

/** The command line's grammar; `ended` hears how the command went. */
function grammar(terminal: Terminal, ended: (code: ExitCode) => void): Command {
  const program = new Command('snugfield');
  program
    .description(
      'Will this garment in this fabric hold the body where it should? Results on stdout, all else on stderr.',
    )
    .exitOverride()
    .addHelpText('after', '\nExit codes: 0 done, 2 bad input, 3 not at rest, 1 a bug or a failed check.');
  const json = ['--json', 'print JSON only'] as const;
  const benchCommand = program
    .command('bench')
    .description('print the fabric that a bench sheet describes, or the curves in a tensile tester’s table')
    .argument('<file>', 'bench sheet, *.bench.json, or a tester’s table, *.csv, *.tsv or *.txt')
    .option(...json);
  addTableOptions(benchCommand).action(
    async (file: string, { json: asJson = false, ...table }: Pick<Wishes, 'json'> & TableOptions) => {
      ended(await bench(file, { json: asJson, table }, terminal));
    },
  );
  const bodyCommand = program
    .command('body')
    .description('print girths and landmarks of a study’s body, or make a mesh file ready to be a body')
    .argument('<file>', 'study, *.study.json, or a mesh, *.obj, *.glb, *.gltf, *.ply or *.stl')
    .option('--out <file>', 'write the mesh there, in mm: .obj or .glb')
    .option(...json);
  addImportOptions(bodyCommand).action(
    async (file: string, { json: asJson = false, out = null, ...options }: BodyOptions) => {
      if (isMeshFile(file)) ended(await bodyImport(file, { json: asJson, out, ...options }, terminal));
      else ended(await inFileAsync(file, () => body(file, { json: asJson, out }, terminal)));
    },
  );
  program
    .command('tape')
    .description('print what a tape reads on a body, beside a size chart')
    .argument('<file>', 'study, *.study.json, or a mesh, *.obj, *.glb, *.gltf, *.ply or *.stl')
    .option('--chart <file>', 'size chart, *.csv or *.json as in README.md; an invented one if left out')
    .option('--size <name>', 'size of the chart; the nearest if left out')
    .option(...json)
    .action(async (file: string, { json: asJson = false, chart, size }: Wishes & TapeOptions) => {
      const wishes = { json: asJson, chart: chart ?? null, size: size ?? null };
      ended(await inFileAsync(file, () => tape(file, wishes, terminal)));
    });
  program
    .command('wear')
    .description('put every fabric of a study on its body and print pressure, stretch, tension, gap and give')
    .argument('<study>', 'study, *.study.json')
    .option('--out <folder>', 'write there per fabric a .glb and a .csv, and summary.json')
    .option(...json)
    .action(async (study: string, { json: asJson = false, out }: Wishes) => {
      ended(await inFileAsync(study, () => wear(study, { json: asJson, out: out ?? null }, terminal)));
    });
  program
    .command('prove')
    .description('compute every outside check and print it beside its source')
    .option(...json)
    .option('--csv <file>', 'write the table there as well, *.csv')
    .option('--only <subject...>', 'only these subjects, by the start of their names')
    .option('--flesh <cases>', 'check cases of pressed flesh instead, *.json as in README.md')
    .action(async (options: ProveOptions) => {
      ended(await prove(options, terminal));
    });
  return program;
}

/** What to say of an error, and how to end with it. */
function tellError(error: unknown, terminal: Terminal): ExitCode {
  if (terminal.stop.aborted) {
    terminal.remark('Stopped; nothing was written.');
    return exitCodes.stopped;
  }
  if (error instanceof Fault) {
    const { what, remedy } = sayFault(error);
    const place = error.file === null || what.includes(error.file) ? '' : `${error.file}: `;
    terminal.remark(`${place}${what}\n${remedy}`);
    return exitCodes.badInput;
  }
  if (isFileTrouble(error)) {
    terminal.remark(`${error.message}\nChoose another place for the results, or make this one writable.`);
    return exitCodes.badInput;
  }
  // Commander has already said what was wrong, or has shown the help that was asked for.
  if (error instanceof CommanderError) return error.exitCode === 0 ? exitCodes.done : exitCodes.badInput;
  terminal.remark(error instanceof Error ? (error.stack ?? error.message) : String(error));
  terminal.remark('This is a bug in Snugfield, not in your files.');
  return exitCodes.bug;
}

/** The system would not let a result be written. Whatever cannot be read has become a Fault before. */
const isFileTrouble = (error: unknown): error is Error =>
  error instanceof Error &&
  'code' in error &&
  ['EACCES', 'EPERM', 'EROFS', 'ENOSPC', 'EISDIR', 'ENOTDIR', 'EEXIST', 'ENOENT', 'ENAMETOOLONG'].some(
    (code) => error.code === code,
  );

async function main(): Promise<void> {
  const controller = new AbortController();
  process.once('SIGINT', () => {
    controller.abort();
  });
  // Whoever reads us may have read enough: `snugfield wear ... | head`.
  process.stdout.once('error', () => process.exit());
  const terminal = makeTerminal({ stdout: process.stdout, stderr: process.stderr }, controller.signal);
  try {
    const program = grammar(terminal, (code) => {
      process.exitCode = code;
    });
    await program.parseAsync(process.argv);
  } catch (error) {
    process.exitCode = tellError(error, terminal);
  }
}

await main();
