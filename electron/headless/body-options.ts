import { InvalidArgumentError, Option, type Command } from 'commander';

import type { ImportWishes } from './body-import.ts';

/** What a command line says of a mesh file, as Commander hands it over. */
export type ImportOptions = Omit<ImportWishes, 'json' | 'out'>;

const axes = ['+x', '-x', '+y', '-y', '+z', '-z'];

/** The options that answer what a mesh file leaves open; whatever is not answered is guessed and told. */
export function addImportOptions(command: Command): Command {
  return command
    .addOption(
      new Option('--unit <unit>', 'mesh: the unit of its numbers').choices(['m', 'cm', 'mm', 'inch']),
    )
    .addOption(new Option('--up <axis>', 'mesh: its axis from feet to head, such as --up=+z').choices(axes))
    .addOption(
      new Option('--front <axis>', 'mesh: its axis that the chest faces, such as --front=-y').choices(axes),
    )
    .option('--part <name>', 'mesh: the part that is the skin, by name or number from 1')
    .option('--keep-holes', 'mesh: leave holes open')
    .option('--refine-mm <mm>', 'mesh: halve edges longer than this, 12 if left out', edgeMm)
    .option('--keep-coarse', 'mesh: leave long edges as they are');
}

/** @throws {InvalidArgumentError} */
function edgeMm(text: string): number {
  const value = /^\d+(\.\d+)?$/.test(text) ? Number(text) : NaN;
  if (!(value >= 1 && value <= 1000)) {
    throw new InvalidArgumentError('Give a length from 1 to 1000 in mm, with a decimal point, such as 12.');
  }
  return value;
}
