import type { ReactElement } from 'react';
import { fixed } from '../../../core/sheet/number-format.ts';
import type { LevelRow } from '../../../core/sheet/level-rows.ts';
import type { SpecField } from '../../../core/sheet/spec-sheet.ts';
import { measureName, SPEC_WORDS } from '../../../core/words/spec-words.ts';
import { SpecNumber } from './SpecNumber.tsx';

/** What may be typed of a girth, cm. */
const GIRTHS = [5, 250] as const;
/** Fabrics that have a column. */
const MOST_WORN = 2;
const NONE = '–';

interface GirthTableProps {
  readonly fields: readonly SpecField[];
  /** As settled, in the same order. */
  readonly levels: readonly LevelRow[];
  readonly fabricCount: number;
  readonly isRefused: (name: string) => boolean;
  readonly set: (name: string, metres: number | null) => void;
}

/** Each girth of the sheet beside the body's, what it is cut by, and how far it is stretched; then as worn. */
export function GirthTable({ fields, levels, fabricCount, isRefused, set }: GirthTableProps): ReactElement {
  const worn = Array.from({ length: Math.min(MOST_WORN, fabricCount) }, (_, index) => index);
  return (
    <table className="sheet figures spec-girths">
      <thead>
        <tr>
          <th scope="col">{SPEC_WORDS.girths}</th>
          <th scope="col">{SPEC_WORDS.flat}</th>
          <th scope="col">{SPEC_WORDS.body}</th>
          <th scope="col">{SPEC_WORDS.cutBy}</th>
          <th scope="col">{SPEC_WORDS.stretch}</th>
          {worn.map((index) => (
            <th scope="col" key={index}>
              {SPEC_WORDS.worn(index)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {fields.map((field) => {
          const level = levels.find(({ name }) => name === field.name);
          const { cutBy, stretch } = against(field.value, level?.body ?? null);
          return (
            <tr key={field.name}>
              <th scope="row">{measureName(field.name)}</th>
              <td>
                <SpecNumber
                  name={SPEC_WORDS.field.girths(measureName(field.name))}
                  value={field.value}
                  opened={field.opened}
                  range={GIRTHS}
                  empty={field.needed ? null : { shown: NONE, said: NONE }}
                  isRefused={isRefused(field.name)}
                  set={(metres) => set(field.name, metres)}
                />
              </td>
              <td>{centimetres(level?.body)}</td>
              <td>{cutBy}</td>
              <td>{stretch}</td>
              {worn.map((index) => (
                <td key={index}>{centimetres(level?.worn[index])}</td>
              ))}
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

const centimetres = (metres: number | null | undefined): string =>
  metres === null || metres === undefined ? NONE : fixed(100 * metres, 1);

/** A girth cut by a share S of the body's is stretched by 1 / (1 - S) - 1 on it. */
function against(flat: number | null, body: number | null): { cutBy: string; stretch: string } {
  if (flat === null || body === null) return { cutBy: NONE, stretch: NONE };
  const share = 1 - flat / body;
  return { cutBy: fixed(100 * share, 1), stretch: fixed(100 * (1 / (1 - share) - 1), 1) };
}
