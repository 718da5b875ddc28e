import type { Branch, Direction, Fabric } from '../fabric/fabric.ts';
import type { TensionLaw } from '../fabric/tension-law.ts';
import { pullStrips, STRIP_ANGLE } from '../fabric/virtual-strip.ts';
import type { Finding } from '../fault/finding.ts';
import { gramsFromKilograms, kPaFromPascals, mmFromMetres, percentFromRatio } from '../units/units.ts';
import { STRIP_WIDTH } from './display-unit.ts';
import { fixed } from './number-format.ts';

/** What a strip of the fabric pulls in one direction, per 50 mm of width, as read off the fitted law. */
export interface StripSheet {
  readonly direction: Direction;
  /** `3.1 N`. */
  readonly at20: string;
  readonly at40: string;
  /** How far the bench pulled: `80 %`. */
  readonly measuredTo: string;
}

/** A fabric's card: every number as it is printed. */
export interface FabricSheet {
  readonly id: string;
  readonly name: string;
  readonly lot: string;
  readonly date: string;
  readonly invented: boolean;
  /** `210 g/m²` */
  readonly weight: string;
  /** `0.45 mm at 1.0 kPa` */
  readonly thickness: string;
  /** Pressure of the foot under which it was read, Pa. */
  readonly thicknessPressure: number;
  readonly strips: readonly StripSheet[];
  /** Force at 40 % in the direction that goes around the body: `5.8 N`. */
  readonly around40: string;
  /** Bending rigidity, warp / weft / bias: `5.6 µN·m`. */
  readonly bending: Readonly<Record<Direction, string>>;
  readonly hasReturn: boolean;
  readonly findings: readonly Finding[];
}

const DIRECTIONS: readonly Direction[] = ['warp', 'weft', 'bias'];

/** What a fabric card needs beside the fabric. */
export interface FabricSheetWish {
  readonly id: string;
  readonly branch: Branch;
  /** Which yarn direction runs along the body. */
  readonly warp: 'along' | 'around';
}

/** The card of one fabric, read off the law that the study uses. */
export function fabricSheet(fabric: Fabric, { id, branch, warp }: FabricSheetWish): FabricSheet {
  const law = branch === 'return' ? (fabric.laws.return ?? fabric.laws.load) : fabric.laws.load;
  const strips = DIRECTIONS.map((direction) => stripSheet(fabric, law, direction));
  const around = strips.find(({ direction }) => direction === (warp === 'around' ? 'warp' : 'weft'))!;
  return {
    id,
    name: fabric.name,
    lot: fabric.lot,
    date: fabric.date,
    invented: fabric.invented,
    weight: `${fixed(gramsFromKilograms(fabric.arealDensity), 0)}\u00a0g/m²`,
    thickness: `${fixed(mmFromMetres(fabric.thickness), 2)}\u00a0mm at ${fixed(kPaFromPascals(fabric.thicknessPressure), 1)}\u00a0kPa`,
    thicknessPressure: fabric.thicknessPressure,
    strips,
    around40: around.at40,
    bending: {
      warp: bendingText(fabric.bendingRigidity.warp),
      weft: bendingText(fabric.bendingRigidity.weft),
      bias: bendingText(fabric.bendingRigidity.bias),
    },
    hasReturn: fabric.laws.return !== null,
    findings: fabric.findings,
  };
}

function stripSheet(fabric: Fabric, law: TensionLaw, direction: Direction): StripSheet {
  const [at20, at40] = pullStrips(law, STRIP_ANGLE[direction], [1.2, 1.4]);
  return {
    direction,
    at20: forceText(at20!.tension),
    at40: forceText(at40!.tension),
    measuredTo: `${fixed(percentFromRatio(reachOf(fabric, law, direction)), 0)}\u00a0%`,
  };
}

/** The last reading's extension; a law without its readings does not know the bias strip's, and says the yarns'. */
function reachOf({ strips }: Fabric, { measuredTo }: TensionLaw, direction: Direction): number {
  const last = strips?.[direction].load.readings.at(-1);
  if (last !== undefined) return last.extension;
  return (direction === 'bias' ? Math.min(measuredTo.warp, measuredTo.weft) : measuredTo[direction]) - 1;
}

const forceText = (tension: number): string => `${fixed(tension * STRIP_WIDTH, 1)}\u00a0N`;

/** Micronewton metres: the size of a knit's bending rigidity. */
const bendingText = (rigidity: number): string => `${fixed(rigidity * 1e6, 1)}\u00a0µN·m`;
