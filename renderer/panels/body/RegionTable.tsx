import type { ReactElement } from 'react';
import type { RegionCorrection, TissueCorrections } from '../../../core/body/tissue-map.ts';
import { fixed } from '../../../core/sheet/number-format.ts';
import type { TissueRow } from '../../../core/sheet/tissue-rows.ts';
import { regionName, TISSUE_WORDS } from '../../../core/words/tissue-words.ts';
import { TypedNumber } from '../TypedNumber.tsx';

interface RegionTableProps {
  readonly rows: readonly TissueRow[];
  readonly tissue: TissueCorrections;
  readonly lay: (tissue: TissueCorrections) => void;
}

/** As far as a hand may correct, mm and kPa: those of core/body/tissue-correct.ts and mesh-body.ts. */
const DEPTHS = [2, 200] as const;
const MODULI = [0.5, 1000] as const;

/** Depth and stiffness by region, every number to be typed. */
export function RegionTable({ rows, tissue, lay }: RegionTableProps): ReactElement {
  if (rows.length === 0) return <p className="soft">{TISSUE_WORDS.noRegions}</p>;
  const correct = (region: TissueRow['region'], part: Partial<RegionCorrection>): void => {
    const before = tissue.regions.find((one) => one.region === region);
    const others = tissue.regions.filter((one) => one.region !== region);
    lay({ ...tissue, regions: [...others, { ...before, region, ...part }] });
  };
  const forget = (region: TissueRow['region']): void =>
    lay({ ...tissue, regions: tissue.regions.filter((one) => one.region !== region) });
  return (
    <table className="sheet figures tape-table region-table">
      <thead>
        <tr>
          <th scope="col">{TISSUE_WORDS.region}</th>
          <th scope="col">{TISSUE_WORDS.depth}</th>
          <th scope="col">{TISSUE_WORDS.modulus}</th>
          <td aria-hidden="true" />
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <Row
            key={row.region}
            row={row}
            correct={(part) => correct(row.region, part)}
            forget={() => forget(row.region)}
          />
        ))}
      </tbody>
    </table>
  );
}

interface RowProps {
  readonly row: TissueRow;
  readonly correct: (part: Partial<RegionCorrection>) => void;
  readonly forget: () => void;
}

const within = (value: number, [low, high]: readonly [number, number]): number =>
  Math.min(high, Math.max(low, value));

function Row({ row, correct, forget }: RowProps): ReactElement {
  const { region, depthMm, modulusKPa, isDepthTyped, isModulusTyped } = row;
  const name = regionName(region);
  const [depth, modulus] = [fixed(depthMm, 1), fixed(modulusKPa, 0)];
  return (
    <tr>
      <th scope="row">{name}</th>
      <td className={isDepthTyped ? 'typed' : ''}>
        <TypedNumber
          key={depth}
          name={TISSUE_WORDS.depthOf(name)}
          label={depth}
          set={(typed) => correct({ depth: within(typed, DEPTHS) / 1000 })}
        />
      </td>
      <td className={isModulusTyped ? 'typed' : ''}>
        <TypedNumber
          key={modulus}
          name={TISSUE_WORDS.modulusOf(name)}
          label={modulus}
          set={(typed) => correct({ modulus: 1000 * within(typed, MODULI) })}
        />
      </td>
      <td>
        {(isDepthTyped || isModulusTyped) && (
          <button
            type="button"
            className="measure-back"
            aria-label={TISSUE_WORDS.back(name)}
            title={TISSUE_WORDS.back(name)}
            onClick={forget}
          >
            ↺
          </button>
        )}
      </td>
    </tr>
  );
}
