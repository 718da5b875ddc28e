import type { ReactElement } from 'react';
import type { Direction } from '../../core/fabric/fabric.ts';
import { comparableThickness } from '../../core/sheet/derived-weight.ts';
import type { FabricSheet } from '../../core/sheet/fabric-sheet.ts';
import { BENCH_DEEDS } from '../../core/words/bench-place-words.ts';
import { thicknessComparisonText } from '../../core/words/card-words.ts';
import { BAND_LONG } from '../../core/words/judgement-words.ts';
import { BRANCH_WORDS, DIRECTION_WORDS, fabricLetter } from '../../core/words/stage-words.ts';
import type { StudySheet } from '../store/study-store.ts';
import { useTable } from '../table.ts';
import { Findings } from './Findings.tsx';
import { Leaf } from './Leaf.tsx';

const DIRECTIONS: readonly Direction[] = ['warp', 'weft', 'bias'];

/** What the bench found of each fabric, side by side. */
export function FabricLeaf({ sheet }: { readonly sheet: StudySheet }): ReactElement {
  const { benchActions } = useTable();
  const fabrics = sheet.fabrics.slice(0, 3);
  const remarkCount = fabrics.reduce((sum, { findings }) => sum + findings.length, 0);
  const label =
    remarkCount === 1
      ? 'One remark from the bench, and the band'
      : `${remarkCount} remarks from the bench, and the band`;
  return (
    <Leaf name="fabric" back={{ label, content: <BackOfLeaf fabrics={fabrics} /> }}>
      <table className="sheet">
        <thead>
          <tr>
            <th scope="col">
              <span className="hidden">What</span>
            </th>
            {fabrics.map(({ id, name }, index) => (
              <th scope="col" key={id}>
                {fabricLetter(index)} · {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          <Row title="Lot" fabrics={fabrics} cell={({ lot }) => lot} />
          <Row title="Read on" fabrics={fabrics} cell={({ date }) => date} />
          <Row title="Weight" fabrics={fabrics} cell={({ weight }) => weight} />
          <Row title="Thickness" fabrics={fabrics} cell={({ thickness }) => thickness} />
          <Caption span={fabrics.length + 1}>Pull of a 50 mm strip at 20 and 40 %</Caption>
          {DIRECTIONS.map((direction, row) => (
            <Row
              key={direction}
              title={DIRECTION_WORDS[direction]}
              fabrics={fabrics}
              cell={({ strips }) => `${strips[row]!.at20} · ${strips[row]!.at40}`}
            />
          ))}
          <Row
            title="Bench pulled to"
            fabrics={fabrics}
            cell={({ strips }) => `${strips[0]!.measuredTo} · ${strips[1]!.measuredTo}`}
          />
          <Caption span={fabrics.length + 1}>Stiffness in bending</Caption>
          {DIRECTIONS.map((direction) => (
            <Row
              key={direction}
              title={DIRECTION_WORDS[direction]}
              fabrics={fabrics}
              cell={({ bending }) => bending[direction]}
            />
          ))}
        </tbody>
      </table>
      <button type="button" className="plain" onClick={benchActions.open}>
        {BENCH_DEEDS.toBench}
      </button>
      <UnlikeFeet fabrics={fabrics} />
      <p className="soft">
        Worn {BRANCH_WORDS[sheet.branch]}
        {fabrics.some(({ hasReturn }) => !hasReturn) ? '; not every fabric has a return curve' : ''}.
        {fabrics.some(({ invented }) => invented)
          ? ' Readings marked invented were made up to show the tool; nothing was measured.'
          : ''}
      </p>
    </Leaf>
  );
}

interface FabricsProps {
  readonly fabrics: readonly FabricSheet[];
}

/** What the bench leaves in doubt of each fabric, and what the band is. */
const BackOfLeaf = ({ fabrics }: FabricsProps): ReactElement => (
  <>
    {fabrics.map((fabric, index) => (
      <div key={fabric.id}>
        <h3>
          {fabricLetter(index)} · {fabric.name}
        </h3>
        <Findings findings={fabric.findings} />
      </div>
    ))}
    <h3>The band beside a number</h3>
    <p>{BAND_LONG}</p>
  </>
);

/** Thicknesses read under unlike feet are not to be compared. */
function UnlikeFeet({ fabrics: [first, second] }: FabricsProps): ReactElement | null {
  if (first === undefined || second === undefined) return null;
  const text = thicknessComparisonText(comparableThickness(first, second));
  return text === null ? null : <p className="soft">{text}</p>;
}

interface RowProps {
  readonly title: string;
  readonly fabrics: readonly FabricSheet[];
  readonly cell: (fabric: FabricSheet) => string;
}

const Row = ({ title, fabrics, cell }: RowProps): ReactElement => (
  <tr>
    <th scope="row">{title}</th>
    {fabrics.map((fabric) => (
      <td key={fabric.id}>{cell(fabric)}</td>
    ))}
  </tr>
);

const Caption = ({ span, children }: { readonly span: number; readonly children: string }): ReactElement => (
  <tr className="caption">
    <th scope="rowgroup" colSpan={span}>
      {children}
    </th>
  </tr>
);
