import { Command, CommanderError } from 'commander';

import { Fault } from '../../core/fault/fault.ts';
import { sayFault } from '../../core/words/say.ts';
import { bench } from './bench.ts';
import { exitCodes, type ExitCode } from './exit-codes.ts';
import { makeTerminal, type Terminal } from './terminal.ts';

/** The command line's grammar; `ended` hears how the command went. */
function grammar(terminal: Terminal, ended: (code: ExitCode) => void): Command {
  const program = new Command('snugfield');
  program
    .description(
      'Will this garment in this fabric hold the body where it should? Results on stdout, all else on stderr.',
    )
    .exitOverride()
    .addHelpText('after', '\nExit codes: 0 done, 2 bad input, 3 not at rest, 1 a bug or a failed check.');
  program
    .command('bench')
    .description('print the fabric that a bench sheet describes')
    .argument('<sheet>', 'bench sheet, *.bench.json')
    .option('--json', 'print JSON only')
    .action(async (sheet: string, { json = false }: { json?: boolean }) => {
      ended(await bench(sheet, json, terminal));
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
    terminal.remark(`${error.file === null ? '' : `${error.file}: `}${what}\n${remedy}`);
    return exitCodes.badInput;
  }
  // Commander has already said what was wrong, or has shown the help that was asked for.
  if (error instanceof CommanderError) return error.exitCode === 0 ? exitCodes.done : exitCodes.badInput;
  terminal.remark(error instanceof Error ? (error.stack ?? error.message) : String(error));
  terminal.remark('This is a bug in Snugfield, not in your files.');
  return exitCodes.bug;
}

async function main(): Promise<void> {
  const controller = new AbortController();
  process.once('SIGINT', () => {
    controller.abort();
  });
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
