import type { ReactElement, ReactNode } from 'react';
import type { FieldUnit, ValueBand } from '../../core/fields/field.ts';
import type { Zone } from '../../core/judgement/tight-zones.ts';
import { tapeUnits } from '../../core/sheet/display-unit.ts';
import { holdLevelAt } from '../../core/sheet/hold-level.ts';
import { areaText, fixed, readings, withUnit } from '../../core/sheet/number-format.ts';
import {
  bridgeFacts,
  CAUTION_LONG,
  differenceSentence,
  HOLD_WORDS,
  placeWords,
  pressureBandText,
  zoneFacts,
} from '../../core/words/judgement-words.ts';
import { fabricLetter } from '../../core/words/stage-words.ts';
import { wornAt, type ShownStudy } from '../store/study-store.ts';
import { MOST_BRIDGES, MOST_TIGHT } from '../store/notches.ts';
import { useView } from '../table.ts';
import { Findings } from './Findings.tsx';
import { Leaf } from './Leaf.tsx';

/** What the fit meeting talks about: tight places, bridged places, the swap, and what to be careful of. */
export function ReviewLeaf({ shown }: { readonly shown: ShownStudy }): ReactElement {
  const index = useView((view) => view.fabric);
  const worn = wornAt(shown.settled, index);
  const { review } = worn;
  const fabric = shown.sheet.fabrics.find(({ id }) => id === worn.fabricId)!;
  const tight = review.tight.slice(0, MOST_TIGHT);
  const bridged = review.bridged.slice(0, MOST_BRIDGES);
  const sentences = shown.settled.comparison?.pressurePlaces.slice(0, 3).map(differenceSentence) ?? [];
  const back = (
    <>
      <h3>Remarks</h3>
      <Findings findings={worn.findings.filter(({ code }) => !code.startsWith('bench/'))} />
      <h3>Be careful</h3>
      {CAUTION_LONG.map((paragraph) => (
        <p key={paragraph}>{paragraph}</p>
      ))}
    </>
  );
  return (
    <Leaf name="review" back={{ label: 'Remarks and cautions', content: back }}>
      <h3>
        Tight places, {fabricLetter(index)} · {fabric.name}
      </h3>
      <p className="soft">
        From {readings(review.tightFrom, 'Pa').join(', ')} up. Highest{' '}
        {oneDecimal(review.highestPressure, 'Pa')}
        {inBrackets(review.band?.highest)}, mean {oneDecimal(review.meanPressure, 'Pa')}
        {inBrackets(review.band?.mean)} where it presses.
      </p>
      {tight.length === 0 ? (
        <p>No place presses that hard.</p>
      ) : (
        <ol className="zones">
          {tight.map((zone, row) => (
            <ZoneRow
              key={zone.peaks[0]}
              number={row + 1}
              zone={zone}
              value={oneDecimal(zone.max, 'Pa')}
              facts={`${zoneFacts(zone)} · ${HOLD_WORDS[holdLevelAt(zone.max)]}`}
            />
          ))}
        </ol>
      )}
      <More count={review.tight.length - tight.length} />
      <h3>Bridged, off the skin</h3>
      {bridged.length === 0 ? (
        <p className="soft">The cloth lies on the skin everywhere.</p>
      ) : (
        <ol className="zones">
          {bridged.map((zone, row) => (
            <ZoneRow
              key={zone.peaks[0]}
              number={tight.length + row + 1}
              zone={zone}
              value={oneDecimal(zone.max, 'm')}
              facts={bridgeFacts(zone)}
            />
          ))}
        </ol>
      )}
      <p className="soft">
        {areaText(review.offSkinArea)} of {areaText(review.area)} off the skin (
        {fixed((100 * review.offSkinArea) / review.area, 0)} %).
      </p>
      {sentences.length > 0 && (
        <>
          <h3>From A to B</h3>
          <ul className="findings">
            {sentences.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
        </>
      )}
    </Leaf>
  );
}

/** No more decimals than the band of the estimate bears. */
const oneDecimal = (value: number, unit: FieldUnit): string => withUnit(value, tapeUnits(unit).first, 1);

/** ` (2.0 to 2.5)` behind a pressure; nothing where it bears no band. */
const inBrackets = (band: ValueBand | undefined): string => (band ? ` (${pressureBandText(band)})` : '');

interface ZoneRowProps {
  readonly number: number;
  readonly zone: Zone;
  readonly value: string;
  readonly facts: ReactNode;
}

const ZoneRow = ({ number, zone, value, facts }: ZoneRowProps): ReactElement => (
  <li className="zone">
    <span className="zone-number">{number}</span>
    <span className="zone-place">{placeWords(zone.place)}</span>
    <span className="zone-value">{value}</span>
    <span className="zone-facts">{facts}</span>
  </li>
);

const More = ({ count }: { readonly count: number }): ReactElement | null =>
  count > 0 ? (
    <p className="soft">{count === 1 ? 'One more, smaller.' : `${count} more, each lower than these.`}</p>
  ) : null;
