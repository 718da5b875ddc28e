import type { ReactElement } from 'react';
import type { FabricSheet } from '../../core/sheet/fabric-sheet.ts';
import { swapSentence } from '../../core/words/judgement-words.ts';
import { fabricLetter } from '../../core/words/stage-words.ts';
import type { ShownStudy } from '../store/study-store.ts';
import { useTable, useView } from '../table.ts';
import { Key } from './Key.tsx';
import { KnitSwatch } from './KnitSwatch.tsx';

/** The fabrics on a rail, and in one sentence what the swap does to the body. */
export function SwatchRail({ shown }: { readonly shown: ShownStudy }): ReactElement {
  const { actions } = useTable();
  const showing = useView((view) => view.showing);
  const chosen = useView((view) => view.fabric);
  const { fabrics } = shown.sheet;
  const { comparison } = shown.settled;
  return (
    <div className="rail">
      <div className="rail-cards" role="group" aria-label="Fabrics">
        {fabrics.map((fabric, index) => (
          <FabricCard
            key={fabric.id}
            fabric={fabric}
            index={index}
            isWorn={showing === 'values' && chosen === index}
            choose={() => actions.chooseFabric(index)}
          />
        ))}
      </div>
      {comparison !== null && (
        <div className="swap">
          <p className="swap-sentence">{swapSentence(comparison.pressurePlaces)}</p>
          <div className="swap-deeds">
            <button className="word" type="button" onClick={() => actions.swapFabric(fabrics.length)}>
              <span>Swap</span>
              <Key name="Space" />
            </button>
            <button
              className="word"
              type="button"
              aria-pressed={showing === 'difference'}
              onClick={actions.toggleDifference}
            >
              <span>B minus A</span>
              <Key name="D" />
            </button>
          </div>
        </div>
      )}
    </div>
  );
}

interface FabricCardProps {
  readonly fabric: FabricSheet;
  readonly index: number;
  readonly isWorn: boolean;
  readonly choose: () => void;
}

const FabricCard = ({ fabric, index, isWorn, choose }: FabricCardProps): ReactElement => (
  <button className="fabric-card" type="button" aria-pressed={isWorn} onClick={choose}>
    <KnitSwatch index={index} />
    <span className="fabric-words">
      <strong>
        {fabricLetter(index)} · {fabric.name}
      </strong>
      <span>
        {fabric.weight} · lot {fabric.lot}
      </span>
      <span>{fabric.around40} at 40 % around</span>
    </span>
  </button>
);
