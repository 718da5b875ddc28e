import type { ReactElement } from 'react';
import type { StripChartSheet } from '../../../core/sheet/strip-chart.ts';
import { CHART_WORDS, DIRECTION_HEADINGS, lossWords } from '../../../core/words/chart-words.ts';
import type { ChartPanel } from './chart-layout.ts';
import { FIRST_MISS, NUMBER_COLUMNS, numberTable } from './chart-numbers.ts';

export interface ChartNumbersProps {
  readonly charts: StripChartSheet;
  /** The columns stand under the panels. */
  readonly panels: readonly ChartPanel[];
  readonly width: number;
}

/** Every number of the charts, each direction under its panel. */
export function ChartNumbers({ charts, panels, width }: ChartNumbersProps): ReactElement {
  const { groups, heads, rows } = numberTable(charts);
  const columns = panels.flatMap(({ force }, index) => {
    const left = index === 0 ? 0 : panels[index - 1]!.force.x + panels[index - 1]!.force.width;
    return [force.x - left, ...NUMBER_COLUMNS.map((share) => share * force.width)];
  });
  const last = panels.at(-1)!.force;
  columns.push(width - last.x - last.width);
  const directions = charts.charts.map(({ direction }) => direction);
  return (
    <table className="chart-numbers figures">
      <caption className="hidden">{CHART_WORDS.title}</caption>
      <colgroup>
        {columns.map((size, index) => (
          // eslint-disable-next-line react/no-array-index-key
          <col key={index} style={{ width: `${size}px` }} />
        ))}
      </colgroup>
      <thead>
        <tr>
          {directions.map((direction, index) => (
            <GroupHeads key={direction} isFirst={index === 0} names={false}>
              {groups.map(({ text, span }, group) => (
                <th key={text} colSpan={span} scope="colgroup" className={group === 0 ? 'start' : ''}>
                  <span className="hidden">{DIRECTION_HEADINGS[direction]}: </span>
                  {text}
                </th>
              ))}
            </GroupHeads>
          ))}
        </tr>
        <tr>
          {directions.map((direction, index) => (
            <GroupHeads key={direction} isFirst={index === 0} names>
              {heads.map((head, column) => (
                // eslint-disable-next-line react/no-array-index-key
                <th key={column} scope="col">
                  {head}
                </th>
              ))}
            </GroupHeads>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(({ name, isFirst, cells }) => (
          <tr key={name} className={isFirst ? 'first' : ''}>
            <th scope="row">{name}</th>
            {cells.map((numbers, index) => (
              <Numbers
                key={directions[index]}
                numbers={numbers}
                columnCount={heads.length}
                isFirst={index === 0}
              />
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** An empty cell stands between two directions; before the first stands the row's name. */
function GroupHeads({
  isFirst,
  names,
  children,
}: {
  readonly isFirst: boolean;
  /** True where the head of the rows' names stands. */
  readonly names: boolean;
  readonly children: ReactElement[];
}): ReactElement {
  return (
    <>
      {isFirst && names ? (
        <th scope="col">
          <span className="hidden">{CHART_WORDS.curve}</span>
        </th>
      ) : (
        <td />
      )}
      {children}
    </>
  );
}

interface NumbersProps {
  readonly numbers: readonly string[];
  readonly columnCount: number;
  readonly isFirst: boolean;
}

function Numbers({ numbers, columnCount, isFirst }: NumbersProps): ReactElement {
  const isSentence = numbers.length === 1;
  return (
    <>
      {!isFirst && <td />}
      {numbers.map((text, column) => (
        <td
          // eslint-disable-next-line react/no-array-index-key
          key={column}
          colSpan={isSentence ? columnCount : 1}
          className={column >= FIRST_MISS || text === lossWords(null) ? 'soft' : ''}
        >
          {text}
        </td>
      ))}
    </>
  );
}
