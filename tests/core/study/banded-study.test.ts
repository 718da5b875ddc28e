/** The demonstration's body and garment in a made-up knit with a wide band: what is told, what is written, what settles. */
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Fabric, LawPair } from '../../../core/fabric/fabric.ts';
import type { FieldId } from '../../../core/fields/field.ts';
import { wornMesh } from '../../../core/fields/worn-fields.ts';
import { vertexAreas } from '../../../core/mesh/vertex-areas.ts';
import { chooseLaw } from '../../../core/study/choose-law.ts';
import { openStudy } from '../../../core/study/open-study.ts';
import { OUTPUT_COLUMNS } from '../../../core/study/output-units.ts';
import { runStudy } from '../../../core/study/run-study.ts';
import type { StudyResult } from '../../../core/study/study.ts';
import { wornSummary } from '../../../core/study/worn-summary.ts';
import { wornTable } from '../../../core/study/worn-table.ts';
import { wornGlb } from '../../../electron/headless/worn-glb.ts';
import { COUPLING, fieldNamed, knit, knitEnds, knitWith, meanOver } from '../../help/banded-tube.ts';

const demo = new URL('../../../assets/demo/', import.meta.url);
const readText = (name: string): Promise<string> =>
  Promise.resolve(readFileSync(new URL(name, demo), 'utf8'));

/** The knit of the given laws on the demo's body; 8 mm cloth. */
async function wornIn(laws: readonly Pick<Fabric, 'laws' | 'bandLaws'>[]): Promise<StudyResult> {
  const name = 'harbour-waist-shaper.study.json';
  const study = await openStudy(await readText(name), name, {
    text: readText,
    bytes: () => Promise.reject(new Error('no bytes in this study')),
  });
  const { bandLaws: _bandLaws, band: _band, ...fabric } = study.fabrics[0]!.fabric;
  const fabrics = laws.map((one, index) => ({ id: `knit-${index}`, fabric: { ...fabric, ...one } }));
  const run = runStudy({ ...study, fabrics, branch: 'load', edge: 0.008 });
  let step = run.next();
  while (!step.done) step = run.next();
  return step.value;
}

const withLaw = (load: Fabric['laws']['load']) => ({ laws: { load, return: null } });

const usualEnds = { low: knitWith(0.6 * COUPLING.shown), high: knitEnds.high };

let result: StudyResult;
beforeAll(async () => {
  const banded = (load: LawPair) => ({ ...withLaw(knit), bandLaws: { load, return: null } });
  result = await wornIn([
    banded(usualEnds),
    banded(knitEnds),
    withLaw(usualEnds.low),
    withLaw(knitEnds.low),
    withLaw(knitEnds.high),
  ]);
});

/** Share of the cloth where really wearing another law leaves the band, and by how much of the mean at most. */
function leavesBand(id: FieldId, shown: number, worn: number): { area: number; most: number } {
  const { values, band } = fieldNamed(result.worn[shown]!.fields, id);
  const real = fieldNamed(result.worn[worn]!.fields, id).values;
  const areas = vertexAreas(wornMesh(result.garment, result.worn[shown]!.equilibrium));
  const excess = real.map((value, v) => Math.max(0, band!.low[v]! - value, value - band!.high[v]!));
  expect(meanOver(real, areas)).toBeGreaterThan(meanOver(band!.low, areas));
  expect(meanOver(real, areas)).toBeLessThan(meanOver(band!.high, areas));
  return {
    area: meanOver(
      excess.map((amount) => (amount > 0 ? 1 : 0)),
      areas,
    ),
    most: Math.max(...excess) / meanOver(values, areas),
  };
}

describe('the band against really wearing the low and the high law', () => {
  it('of widths that agree (0.6 to 1.2 times the coupling) holds nearly all of the cloth', () => {
    expect(result.worn.every(({ equilibrium }) => equilibrium.atRest)).toBe(true);
    // Met: 1.2 % of the area, by up to 3.7 % of the mean pressure, on the rim of a gap. (At one shape: 8 % by 5.4 %.)
    const low = leavesBand('skinPressure', 0, 2);
    expect(low.area).toBeLessThan(0.02);
    expect(low.most).toBeLessThan(0.05);
    const high = leavesBand('skinPressure', 0, 4);
    expect(high.area).toBeLessThan(0.01);
    expect(high.most).toBeLessThan(0.01);
    for (const worn of [2, 4]) {
      expect(leavesBand('tensionAcross', 0, worn).area).toBeLessThan(0.01);
      expect(leavesBand('tensionAlong', 0, worn).area).toBeLessThan(0.01);
    }
  });

  it('of widths that disagree (0.3 times) holds nearly all of it too: it knows how the garment sits otherwise', () => {
    // Met: 4.2 % of the area, by up to 10 % of the mean pressure. (At one shape: 45 % by 17 %.)
    const low = leavesBand('skinPressure', 1, 3);
    expect(low.area).toBeLessThan(0.06);
    expect(low.most).toBeLessThan(0.13);
    for (const id of ['tensionAcross', 'tensionAlong'] as const) {
      expect(leavesBand(id, 1, 3).area).toBeLessThan(0.01);
    }
  });

  it('speaks of a wide band only where the ends did not settle', () => {
    expect(result.worn.flatMap(({ findings }) => findings).map(({ code }) => code)).not.toContain(
      'worn/band-wide',
    );
  });
});

describe('files', () => {
  const bandNames = OUTPUT_COLUMNS.flatMap(({ band }) => (band ? [band.low, band.high] : []));

  it('the table adds two columns a band behind all others, and each row holds the value shown', () => {
    const [head, ...rows] = wornTable(result, result.worn[0]!).trimEnd().split('\n');
    const names = head!.split(',');
    expect(names.slice(-bandNames.length)).toEqual(bandNames);
    expect(names).toContain('skinPressureLowKPa');
    for (const row of rows) {
      const numbers = row.split(',').map(Number);
      const under = (name: string): number => numbers[names.indexOf(name)]!;
      for (const { name, band } of OUTPUT_COLUMNS) {
        if (band === null) continue;
        expect(under(band.low)).toBeLessThanOrEqual(under(name));
        expect(under(band.high)).toBeGreaterThanOrEqual(under(name));
      }
    }
  });

  it('the GLB has an attribute for each of them', () => {
    const text = new TextDecoder().decode(wornGlb(result, result.worn[0]!));
    for (const name of bandNames) expect(text).toContain(`"_${name.toUpperCase()}"`);
  });

  it('the summary has the band of mean, 95 % and most', () => {
    const { fields } = wornSummary(result, result.worn[0]!);
    for (const { name, band } of OUTPUT_COLUMNS) {
      const spread = fields[name]!;
      expect(spread.band === undefined).toBe(band === null);
      for (const part of ['mean', 'p95', 'max'] as const) {
        if (!spread.band) continue;
        expect(spread.band.low[part]).toBeLessThanOrEqual(spread[part]);
        expect(spread.band.high[part]).toBeGreaterThanOrEqual(spread[part]);
      }
    }
    // 5 % at least each way: what the law's form may miss.
    expect(fields['skinPressureKPa']!.band!.low.mean).toBeLessThan(0.951 * fields['skinPressureKPa']!.mean);
  });

  it('of a fabric without a band say nothing of one', () => {
    const bare = result.worn[2]!;
    expect(bare.fields.some(({ band }) => band !== undefined)).toBe(false);
    expect(wornTable(result, bare)).not.toContain('Low');
    expect(JSON.stringify(wornSummary(result, bare))).not.toContain('band');
  });
});

describe('the band of a branch', () => {
  const fabric = { name: 'knit', ...withLaw(knit), bandLaws: { load: knitEnds, return: null } } as Fabric;

  it('is that of the law in use', () => {
    expect(chooseLaw(fabric, 'load').ends).toBe(knitEnds);
    expect(chooseLaw(fabric, 'load').findings).toEqual([]);
    // No return was read: the load law is used, and its band with it.
    expect(chooseLaw(fabric, 'return')).toMatchObject({ law: knit, ends: knitEnds });
    const back = { ...fabric, laws: { load: knit, return: knit } };
    expect(chooseLaw(back, 'return').ends).toBeNull();
  });
});
