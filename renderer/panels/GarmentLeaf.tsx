import { Fragment, type ReactElement } from 'react';
import { garmentText, lengthFacts } from '../../core/words/garment-sheet-words.ts';
import { fabricLetter } from '../../core/words/stage-words.ts';
import { fleshShort, frictionText, TRY_WORDS } from '../../core/words/try-words.ts';
import type { ShownStudy } from '../store/study-store.ts';
import { Findings } from './Findings.tsx';
import { SpecSheet } from './garment/SpecSheet.tsx';
import { Leaf } from './Leaf.tsx';

/** The garment as its sheet has it: a block's numbers are typed here, a tube's are tried on another leaf. */
export function GarmentLeaf({ shown }: { readonly shown: ShownStudy }): ReactElement {
  const { garment } = shown.asOpened;
  const { cut } = shown.settled;
  return (
    <Leaf name="garment">
      {'block' in garment && cut !== null ? (
        <SpecSheet key={shown.laid} shown={shown} opened={garment} cut={cut} />
      ) : (
        <TubeSheet shown={shown} />
      )}
    </Leaf>
  );
}

/** The garment flat on the table, and on the body. */
function TubeSheet({ shown }: { readonly shown: ShownStudy }): ReactElement {
  const { sheet, settled } = shown;
  const { garment } = sheet;
  return (
    <>
      <p className="soft">{garmentText(garment)}</p>
      <table className="sheet figures">
        <thead>
          <tr>
            <th scope="col">at, cm</th>
            <th scope="col">flat</th>
            <th scope="col">body</th>
            <th scope="col">cut by</th>
            {settled.worn.slice(0, 2).map(({ fabricId }, index) => (
              <th scope="col" key={fabricId}>
                worn {fabricLetter(index)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {settled.garmentRows.map((row) => (
            <tr key={row.heightCm}>
              <th scope="row">{row.heightCm}</th>
              <td>{row.relaxedCm}</td>
              <td>{row.bodyCm}</td>
              <td>{row.reduction}</td>
              {row.wornCm.slice(0, 2).map((worn, index) => (
                <td key={settled.worn[index]!.fabricId}>{worn}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      <p className="soft">
        Girths in cm, all the way round. Flat: as the tape gives it on the table. Body: the skin before it is
        pressed.
      </p>
      <dl className="facts">
        {lengthFacts(garment).map(({ name, length }) => (
          <Fragment key={name}>
            <dt>{name}</dt>
            <dd>{length}</dd>
          </Fragment>
        ))}
        <dt>Friction on skin</dt>
        <dd>{frictionText({ coefficient: sheet.friction, from: sheet.frictionFrom })}</dd>
        <dt>{TRY_WORDS.flesh}</dt>
        <dd>{fleshShort(sheet.flesh)}</dd>
        <dt>Cloth mesh</dt>
        <dd>{settled.edgeVertex.length.toLocaleString('en-GB')} points</dd>
      </dl>
      {settled.garmentFindings.length > 0 && <Findings findings={settled.garmentFindings} />}
    </>
  );
}
