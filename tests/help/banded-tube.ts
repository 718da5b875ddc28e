import { NEAR_RIGID } from '../../core/body/body.ts';
import type { DistanceField } from '../../core/body/distance-field.ts';
import type { Equilibrium } from '../../core/equilibrium/equilibrium.ts';
import { settle } from '../../core/equilibrium/settle.ts';
import type { LawPair } from '../../core/fabric/fabric.ts';
import { lawFromStrips } from '../../core/fabric/law-from-strips.ts';
import type { TensionLaw } from '../../core/fabric/tension-law.ts';
import { couplingEnds } from '../../core/fields/coupling-ends.ts';
import type { Field, FieldId } from '../../core/fields/field.ts';
import { clothPull } from '../../core/fields/stretch-and-tension.ts';
import { wornFields } from '../../core/fields/worn-fields.ts';
import type { ClothLevel, Garment } from '../../core/garment/garment.ts';
import { vertexAreas } from '../../core/mesh/vertex-areas.ts';
import { proofTube, type ProofTube } from '../../core/proof/proof-tube.ts';

/** Made-up knit: at a stretch ratio of 1.25 the warp strip pulls 80 N/m and has narrowed to 0.88. */
export const STRIP_AT = { stretch: 1.25, tension: 80, width: 0.88 } as const;

/** The same strips whatever the coupling (c, N/m). */
export const knitWith = (coupling: number): TensionLaw =>
  lawFromStrips({
    warp: {
      load: [
        [1.1, 30],
        [STRIP_AT.stretch, STRIP_AT.tension],
        [1.6, 220],
      ],
      width: [
        [1.1, 0.95],
        [STRIP_AT.stretch, STRIP_AT.width],
        [1.6, 0.78],
      ],
    },
    weft: {
      load: [
        [1.1, 24],
        [1.25, 66],
        [1.6, 190],
      ],
      width: [
        [1.1, 0.955],
        [1.25, 0.89],
        [1.6, 0.79],
      ],
    },
    shear: { modulus: 80 },
    coupling,
  });

/** Low, shown and high coupling of that knit: 0.3 and 1.2 times, the widest band there is (widths that disagree). */
export const COUPLING = { low: 60, shown: 200, high: 240 } as const;
export const knit = knitWith(COUPLING.shown);
export const knitEnds: LawPair = { low: knitWith(COUPLING.low), high: knitWith(COUPLING.high) };

export interface TubeCase {
  readonly tube: ProofTube;
  readonly body: DistanceField;
  /** True where both hems are held as laid. */
  readonly held: boolean;
  /** Pressure per depth of the skin, Pa/m; near rigid if left out. */
  readonly foundation?: number;
}

/** A tube settled with the knit as shown, and again from there with the laws of both ends. */
export function bandedTube({ tube, body, held, foundation = NEAR_RIGID }: TubeCase) {
  const levels = proofTube(tube);
  const garment: Garment = { levels, warp: 'around', rings: [], columnCount: 0, findings: [] };
  const search = (law: TensionLaw, start?: Float64Array): Equilibrium => {
    const run = settle({
      levels,
      laws: [law],
      body,
      foundation: levels.map(({ edgeVertex }) => new Float64Array(edgeVertex.length).fill(foundation)),
      friction: 0,
      ...(held && { held: levels.map(heldHems) }),
      ...(start && { start }),
    });
    let step = run.next();
    while (!step.done) step = run.next();
    return step.value;
  };
  const read = (law: TensionLaw, equilibrium: Equilibrium, laws?: LawPair): readonly Field[] =>
    wornFields({
      garment,
      equilibrium,
      pull: clothPull(garment, [law], equilibrium.positions),
      skin: body,
      friction: 0,
      ...(laws && { ends: couplingEnds(garment, { ...laws, shown: law }, equilibrium) }),
    });
  const rest = search(knit);
  const again = (law: TensionLaw) => read(law, search(law, rest.positions));
  const { mesh, edgeVertex } = levels.at(-1)!;
  const areas = vertexAreas({ positions: rest.positions, triangles: mesh.triangles });
  return {
    atRest: rest.atRest,
    shown: read(knit, rest, knitEnds),
    low: again(knitEnds.low),
    high: again(knitEnds.high),
    /** Worn area per vertex, hem rows and their neighbours left out: what belongs to a free edge is convention. */
    areas: areas.map((area, v) => (nearHem(edgeVertex, v, tube, levels.length) ? 0 : area)),
  };
}

const heldHems = ({ edgeVertex }: ClothLevel): Uint8Array =>
  Uint8Array.from({ length: 3 * edgeVertex.length }, (_, i) => edgeVertex[Math.floor(i / 3)]!);

function nearHem(edgeVertex: Uint8Array, v: number, tube: ProofTube, levelCount: number): boolean {
  const columns = tube.columnCount * 2 ** (levelCount - 1);
  return v < 2 * columns || v >= edgeVertex.length - 2 * columns;
}

export const fieldNamed = (fields: readonly Field[], id: FieldId): Field =>
  fields.find((field) => field.id === id)!;

/** Area-weighted mean. */
export function meanOver(values: Float64Array, areas: Float64Array): number {
  const total = areas.reduce((sum, area) => sum + area, 0);
  return values.reduce((sum, value, v) => sum + value * areas[v]!, 0) / total;
}
