import type { ReactElement } from 'react';
import type { BodyTape } from '../../../core/body/body-tape.ts';
import { figureOf, sizeBeside } from '../../../core/sheet/house-chart.ts';
import { heightRows, tapeRows, type ChosenSize, type TapeRow } from '../../../core/sheet/tape-table.ts';
import { heightName, TAPE_LEAF_WORDS, tapeRowName } from '../../../core/words/tape-leaf-words.ts';
import { chartFor, tapeKey } from '../../store/body-store.ts';
import { firstTape } from '../../store/moved-tape.ts';
import type { ShownStudy } from '../../store/study-store.ts';
import { useBody, useTable } from '../../table.ts';
import { TryChoice } from '../TryChoice.tsx';
import { ChartLine } from './ChartLine.tsx';
import { ChosenTape } from './ChosenTape.tsx';
import { useTapeKeys } from './use-tape-keys.ts';

/** What a tape reads on the body, whatever it is, beside the studio's size chart. */
export function TapePart({ shown }: { readonly shown: ShownStudy }): ReactElement {
  const tape = useBody((body) => body.tape);
  const measured = useBody((body) => body.measuredSkin);
  const chosen = useBody((body) => body.chosen);
  const ownChart = useBody((body) => body.ownChart);
  const size = useBody((body) => body.size);
  if (tape === null) return <p className="soft">{TAPE_LEAF_WORDS.measuring}</p>;
  const chart = chartFor({ ownChart }, figureOf(tape));
  const beside = sizeBeside(tape, chart, size);
  return (
    <div aria-busy={measured !== shown.settled.skin}>
      <ChartLine chart={chart} beside={beside} />
      {tape.readings.length === 0 ? <FirstTape shown={shown} /> : <TapeTable tape={tape} beside={beside} />}
      <Heights tape={tape} beside={beside} />
      {chosen === null && <p className="soft">{TAPE_LEAF_WORDS.choose}</p>}
    </div>
  );
}

/** A body in which nobody was seen has no levels of its own: a tape is laid where one likes. */
function FirstTape({ shown }: { readonly shown: ShownStudy }): ReactElement {
  const { bodyDeeds } = useTable();
  const lay = (): void => {
    const { skin } = shown.settled;
    bodyDeeds.holdTape(firstTape(bodyDeeds.tapeNotes(), skin, TAPE_LEAF_WORDS.own(1)));
    bodyDeeds.letTapeGo();
  };
  return (
    <p className="soft">
      {TAPE_LEAF_WORDS.nobody}{' '}
      <button type="button" className="plain" onClick={lay}>
        {TAPE_LEAF_WORDS.first}
      </button>
    </p>
  );
}

interface TableProps {
  readonly tape: BodyTape;
  readonly beside: ChosenSize | null;
}

function TapeTable({ tape, beside }: TableProps): ReactElement {
  const { body } = useTable();
  const side = useBody((state) => state.side);
  const rows = tapeRows(tape, beside);
  const limbs = rows.filter((row) => row.side === side);
  return (
    <table className="sheet figures tape-table">
      <thead>
        <tr>
          <th scope="col">{TAPE_LEAF_WORDS.head}</th>
          <th scope="col">{TAPE_LEAF_WORDS.up}</th>
          <th scope="col">{TAPE_LEAF_WORDS.girth}</th>
          <th scope="col">{TAPE_LEAF_WORDS.chart}</th>
          <th scope="col">{TAPE_LEAF_WORDS.difference}</th>
        </tr>
      </thead>
      <tbody>
        {rows
          .filter((row) => row.side === 'middle')
          .map((row) => (
            <Row key={tapeKey(row)} row={row} tape={tape} />
          ))}
        {limbs.length > 0 && (
          <tr className="side-row">
            <td colSpan={5}>
              <TryChoice
                name={TAPE_LEAF_WORDS.side}
                options={TAPE_LEAF_WORDS.sides}
                chosen={side}
                choose={(chosen) => body.setState({ side: chosen, chosen: null })}
              />
            </td>
          </tr>
        )}
        {limbs.map((row) => (
          <Row key={tapeKey(row)} row={row} tape={tape} />
        ))}
      </tbody>
    </table>
  );
}

function Row({ row, tape }: { readonly row: TapeRow; readonly tape: BodyTape }): ReactElement {
  const { body } = useTable();
  const key = tapeKey(row);
  const isChosen = useBody((state) => state.chosen === key);
  const keys = useTapeKeys(key);
  const isMoved = row.how === 'placed' || row.how === 'own';
  return (
    <>
      <tr
        className={isChosen ? 'chosen' : ''}
        onPointerEnter={() => body.setState({ pointed: key })}
        onPointerLeave={() => body.setState({ pointed: null })}
      >
        <th scope="row">
          <button
            type="button"
            aria-pressed={isChosen}
            onClick={() => body.setState({ chosen: isChosen ? null : key })}
            onFocus={() => body.setState({ pointed: key })}
            onBlur={() => body.setState({ pointed: null })}
            {...keys}
          >
            {tapeRowName(row.name)}
          </button>
        </th>
        <td className={isMoved ? 'moved' : ''}>{row.heightMm}</td>
        <td>{row.girthMm}</td>
        <td className="soft">{row.chartMm}</td>
        <td className={row.differenceMm === '' ? 'soft' : 'differs'}>{row.differenceMm}</td>
      </tr>
      {isChosen && (
        <tr className="chosen-tape">
          <td colSpan={5}>
            <ChosenTape tape={tape} tapeKey={key} />
          </td>
        </tr>
      )}
    </>
  );
}

const Heights = ({ tape, beside }: TableProps): ReactElement => (
  <details className="fold">
    <summary>{TAPE_LEAF_WORDS.heights}</summary>
    <table className="sheet figures">
      <tbody>
        {heightRows(tape, beside).map(({ name, heightMm, chartMm, differenceMm }) => (
          <tr key={name}>
            <th scope="row">{heightName(name)}</th>
            <td>{heightMm}</td>
            <td className="soft">{chartMm}</td>
            <td>{differenceMm}</td>
          </tr>
        ))}
      </tbody>
    </table>
  </details>
);
