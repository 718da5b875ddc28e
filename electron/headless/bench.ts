import { STRIP_ANGLE, pullStrips } from '../../core/fabric/virtual-strip.ts';
import type { Direction, Fabric } from '../../core/fabric/fabric.ts';
import type { TensionLaw } from '../../core/fabric/tension-law.ts';
import { inFile } from '../../core/fault/fault.ts';
import { readBenchSheet } from '../../core/io/read-bench-sheet.ts';
import { fixed } from '../../core/sheet/number-format.ts';
import {
  gramsFromKilograms,
  kPaFromPascals,
  mmFromMetres,
  percentFromRatio,
  ratioFromPercent,
} from '../../core/units/units.ts';
import { exitCodes, type ExitCode } from './exit-codes.ts';
import { readText } from './read-input.ts';
import { findingLines, findingsAsJson } from './say-findings.ts';
import type { Terminal } from './terminal.ts';
import { textTable } from './text-table.ts';

const directions: readonly Direction[] = ['warp', 'weft', 'bias'];
const extensionsPercent = [20, 40, 60, 80] as const;

/** Reads a bench sheet and prints the fabric that comes out of it. */
export async function bench(sheet: string, asJson: boolean, terminal: Terminal): Promise<ExitCode> {
  const text = await readText(sheet);
  const fabric = inFile(sheet, () => readBenchSheet(text));
  const card = fabricCard(fabric);
  terminal.result(asJson ? JSON.stringify(card, null, 2) : cardAsText(card, fabric));
  return exitCodes.done;
}

/** A strip's force per original width at one extension; null where that branch was not read. */
interface TensionRow {
  readonly direction: Direction;
  readonly extensionPercent: number;
  readonly loadNPerM: number;
  readonly returnNPerM: number | null;
  /** True beyond the last reading of this direction; the bias goes by the lesser of warp and weft. */
  readonly extrapolated: boolean;
}

type FabricCard = ReturnType<typeof fabricCard>;

function fabricCard(fabric: Fabric) {
  const { load, return: back } = fabric.laws;
  return {
    name: fabric.name,
    lot: fabric.lot,
    date: fabric.date,
    invented: fabric.invented,
    arealDensityGPerM2: gramsFromKilograms(fabric.arealDensity),
    thicknessMm: mmFromMetres(fabric.thickness),
    thicknessPressureKPa: kPaFromPascals(fabric.thicknessPressure),
    bendingRigidityMicroNm: {
      warp: fabric.bendingRigidity.warp * 1e6,
      weft: fabric.bendingRigidity.weft * 1e6,
      bias: fabric.bendingRigidity.bias * 1e6,
    },
    measuredToPercent: {
      warp: percentFromRatio(load.measuredTo.warp - 1),
      weft: percentFromRatio(load.measuredTo.weft - 1),
    },
    tension: directions.flatMap((direction) => tensionRows(direction, load, back)),
    findings: findingsAsJson(fabric.findings),
  };
}

function tensionRows(direction: Direction, load: TensionLaw, back: TensionLaw | null): TensionRow[] {
  const stretches = extensionsPercent.map((percent) => 1 + ratioFromPercent(percent));
  const angle = STRIP_ANGLE[direction];
  const loaded = pullStrips(load, angle, stretches);
  const returned = back ? pullStrips(back, angle, stretches) : null;
  const { warp, weft } = load.measuredTo;
  const measuredTo = { warp, weft, bias: Math.min(warp, weft) }[direction];
  return extensionsPercent.map((extensionPercent, i) => ({
    direction,
    extensionPercent,
    loadNPerM: loaded[i]!.tension,
    returnNPerM: returned?.[i]?.tension ?? null,
    // A reading at exactly 80 % comes back from its logarithm a hair off.
    extrapolated: stretches[i]! > measuredTo + 1e-9,
  }));
}

function cardAsText(card: FabricCard, fabric: Fabric): string {
  const { bendingRigidityMicroNm: bending } = card;
  const facts = textTable(
    [
      ['areal density', fixed(card.arealDensityGPerM2, 1), 'g/m²'],
      ['thickness', fixed(card.thicknessMm, 3), `mm under ${fixed(card.thicknessPressureKPa, 2)} kPa`],
      ...directions.map((direction) => [`bending, ${direction}`, fixed(bending[direction], 2), 'µN·m']),
    ].map(([name, number, unit]) => [name!, `${number!.padStart(8)} ${unit!}`]),
    2,
  );
  const heading = ['stretch', ...directions.flatMap((direction) => [`${direction} load`, 'return'])];
  const rows = extensionsPercent.map((percent) => [
    `${percent} %`,
    ...card.tension.filter((row) => row.extensionPercent === percent).flatMap(tensionCells),
  ]);
  const notes = [
    card.tension.some((row) => row.extrapolated) ? '  * beyond the last reading' : '',
    findingLines(fabric.findings),
  ].filter((note) => note !== '');
  const invented = card.invented ? ', invented readings' : '';
  return [
    `${card.name}, lot ${card.lot}, ${card.date}${invented}`,
    '',
    facts,
    '',
    'Tension of a strip, N per m of its width',
    textTable([heading, ...rows]),
    ...(notes.length > 0 ? ['', ...notes] : []),
  ].join('\n');
}

const tensionCells = ({ loadNPerM, returnNPerM, extrapolated }: TensionRow): string[] => {
  const star = extrapolated ? '*' : ' ';
  return [`${fixed(loadNPerM, 1)}${star}`, returnNPerM === null ? '– ' : `${fixed(returnNPerM, 1)}${star}`];
};
