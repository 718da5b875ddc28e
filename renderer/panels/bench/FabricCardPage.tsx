import { useMemo, type ReactElement } from 'react';
import type { FabricCard } from '../../../core/sheet/fabric-card.ts';
import type { StripChartSheet } from '../../../core/sheet/strip-chart.ts';
import {
  CARD_WORDS,
  cardText,
  remarksOnPage,
  type CardTable,
  type CardText,
} from '../../../core/words/card-text.ts';
import { CARD_CHART, cardCharts } from './card-drawing.ts';
import { ChartShapes } from './ChartShapes.tsx';

interface FabricCardPageProps {
  readonly card: FabricCard;
  /** As it is to stand on the paper; left out where nobody says. */
  readonly printedOn?: string;
  readonly onSavePicture: () => void;
  readonly onPrint: () => void;
}

/** The fabric card: one A4 page, on the screen and on paper. */
export function FabricCardPage({
  card,
  printedOn,
  onSavePicture,
  onPrint,
}: FabricCardPageProps): ReactElement {
  const text = cardText(card);
  return (
    <section className="card-place" aria-label={CARD_WORDS.title}>
      <div className="card-tools">
        <button type="button" className="word" onClick={onSavePicture}>
          {CARD_WORDS.savePicture}
        </button>
        <button type="button" className="word" onClick={onPrint}>
          {CARD_WORDS.print}
        </button>
      </div>
      <article className="card-sheet">
        <CardHead text={text} />
        <div className="card-columns">
          <div>
            <h3>{CARD_WORDS.methods}</h3>
            <dl className="card-methods">
              {text.methods.map(({ title, text: how }) => (
                <div key={title}>
                  <dt>{title}</dt>
                  <dd>{how}</dd>
                </div>
              ))}
            </dl>
          </div>
          <div>
            <h3>{CARD_WORDS.numbers}</h3>
            <dl className="card-single">
              {text.single.map(({ title, value }) => (
                <div key={title}>
                  <dt>{title}</dt>
                  <dd>{value}</dd>
                </div>
              ))}
            </dl>
          </div>
        </div>
        <div className="card-columns card-main">
          <div>
            <CardFigures table={text.numbers} caption={CARD_WORDS.numbers} />
            {text.star === null ? null : <p className="soft">{text.star}</p>}
          </div>
          <div>
            <h3>{CARD_WORDS.coupling}</h3>
            {text.coupling.map((sentence) => (
              <p key={sentence}>{sentence}</p>
            ))}
          </div>
        </div>
        {card.chart === null ? null : <CardCharts sheet={card.chart} />}
        <h3>{CARD_WORDS.residuals}</h3>
        <CardFigures table={text.residuals} caption={CARD_WORDS.residuals} />
        <h3>{CARD_WORDS.remarks}</h3>
        <ul>
          {remarksOnPage(text.remarks).map((remark) => (
            <li key={remark}>{remark}</li>
          ))}
        </ul>
        <footer>
          <span>{text.caution}</span>
          {printedOn === undefined ? null : <span>{CARD_WORDS.printed(printedOn)}</span>}
        </footer>
      </article>
    </section>
  );
}

/** The strips' curves, by the same drawing as the bench's own charts. */
function CardCharts({ sheet }: { readonly sheet: StripChartSheet }): ReactElement {
  const shapes = useMemo(() => cardCharts(sheet), [sheet]);
  return (
    <div className="card-charts bench-chart">
      <h3>{CARD_WORDS.curves}</h3>
      <svg viewBox={`0 0 ${CARD_CHART.width} ${CARD_CHART.height}`} role="img" aria-label={CARD_WORDS.curves}>
        <ChartShapes shapes={shapes} />
      </svg>
    </div>
  );
}

const CardHead = ({ text }: { readonly text: CardText }): ReactElement => (
  <header>
    <div className="card-title">
      <h2>{text.name}</h2>
      {text.mark === null ? null : <span className="card-mark">{text.mark}</span>}
    </div>
    <p>{text.lot}</p>
    {text.note === null ? null : <p className="soft">{text.note}</p>}
  </header>
);

const CardFigures = ({
  table,
  caption,
}: {
  readonly table: CardTable;
  readonly caption: string;
}): ReactElement => (
  <table className="card-figures">
    <caption className="hidden">{caption}</caption>
    <thead>
      <tr>
        {table.heading.map((title) => (
          <th scope="col" key={title}>
            {title}
          </th>
        ))}
      </tr>
    </thead>
    <tbody>
      {table.lines.map(([title, ...cells]) => (
        <tr key={title}>
          <th scope="row">{title}</th>
          {cells.map((cell, column) => (
            <td key={table.heading[column + 1]}>{cell}</td>
          ))}
        </tr>
      ))}
    </tbody>
  </table>
);
