import type { ReactElement } from 'react';
import type { BodyTape, TapeReading } from '../../../core/body/body-tape.ts';
import { fixed } from '../../../core/sheet/number-format.ts';
import type { TapeNotes } from '../../../core/study/study.ts';
import { TAPE_LEAF_WORDS, tapeName } from '../../../core/words/tape-leaf-words.ts';
import { tapeKey as keyOf } from '../../store/body-store.ts';
import {
  anotherTape,
  carrierOf,
  foundTape,
  isMoved,
  movedTape,
  surfacedTape,
  tiltedTape,
  tiltOf,
  type Tilt,
} from '../../store/moved-tape.ts';
import { useStudy, useTable } from '../../table.ts';
import { TryChoice } from '../TryChoice.tsx';
import { TypedNumber } from '../TypedNumber.tsx';

interface ChosenTapeProps {
  readonly tape: BodyTape;
  readonly tapeKey: string;
}

/** The chosen tape by its numbers: level, tilt, and the way back to where it was found. */
export function ChosenTape({ tape, tapeKey }: ChosenTapeProps): ReactElement | null {
  const reading = tape.readings.find(({ line }) => keyOf(line) === tapeKey);
  if (reading === undefined) return null;
  return <Numbers tape={tape} reading={reading} />;
}

/** Steeper than this is no tape round a body, degrees. */
const STEEPEST = 60;

function Numbers({
  tape,
  reading: { line, height },
}: {
  readonly tape: BodyTape;
  readonly reading: TapeReading;
}): ReactElement {
  const { body, bodyDeeds } = useTable();
  // Only to be drawn anew when notes change.
  useStudy(({ shown }) => shown?.tried);
  const notes = bodyDeeds.tapeNotes();
  const lay = (next: TapeNotes): void => {
    bodyDeeds.holdTape(next);
    bodyDeeds.letTapeGo();
  };
  const tilt = tiltOf(line, tape.forward);
  const setTilt = (part: Partial<Tilt>): void =>
    lay(tiltedTape(notes, line, { ...tilt, ...part }, tape.forward));
  const name = tapeName(line);
  const isOwn = carrierOf(line, tape.landmarks) === undefined;
  const back = isOwn ? TAPE_LEAF_WORDS.remove : TAPE_LEAF_WORDS.back;
  const goBack = (): void => {
    if (isOwn) body.setState({ chosen: null });
    lay(foundTape(notes, line, tape.landmarks));
  };
  const addAnother = (): void => {
    const { notes: next, line: own } = anotherTape(notes, line, TAPE_LEAF_WORDS.own);
    body.setState({ chosen: keyOf(own) });
    lay(next);
  };
  return (
    <>
      <div className="tape-numbers">
        <Number
          label={TAPE_LEAF_WORDS.up}
          name={`${name}: ${TAPE_LEAF_WORDS.level}`}
          value={fixed(1000 * height, 0)}
          set={(typed) =>
            lay(movedTape(notes, line, tape.landmarks, (typed / 1000 - height) / upright(line.normal)))
          }
        />
        <Number
          label={`${TAPE_LEAF_WORDS.tilt} ${TAPE_LEAF_WORDS.front}`}
          name={`${name}: ${TAPE_LEAF_WORDS.tiltForward}`}
          value={fixed(tilt.forward, 1)}
          set={(typed) => setTilt({ forward: within(typed) })}
        />
        <Number
          label={TAPE_LEAF_WORDS.left}
          name={`${name}: ${TAPE_LEAF_WORDS.tiltLeft}`}
          value={fixed(tilt.left, 1)}
          set={(typed) => setTilt({ left: within(typed) })}
        />
        {isMoved(notes, line, tape.landmarks) && (
          <button
            type="button"
            className="measure-back"
            aria-label={`${name}: ${back}`}
            title={back}
            onClick={goBack}
          >
            {isOwn ? '×' : '↺'}
          </button>
        )}
      </div>
      <div className="tape-ways">
        <TryChoice
          name={TAPE_LEAF_WORDS.surface}
          options={TAPE_LEAF_WORDS.surfaces}
          chosen={line.surface}
          choose={(surface) => lay(surfacedTape(notes, line, surface))}
        />
        <button type="button" className="plain" onClick={addAnother}>
          {TAPE_LEAF_WORDS.another}
        </button>
      </div>
    </>
  );
}

/** What of a way along the tape's axis goes up. */
const upright = (normal: readonly number[]): number => Math.max(0.1, Math.abs(normal[1]!));

const within = (degrees: number): number => Math.min(STEEPEST, Math.max(-STEEPEST, degrees));

interface NumberProps {
  readonly label: string;
  readonly name: string;
  readonly value: string;
  readonly set: (typed: number) => void;
}

const Number = ({ label, name, value, set }: NumberProps): ReactElement => (
  <span className="tape-number">
    <span aria-hidden="true">{label}</span>
    <TypedNumber key={value} name={name} label={value} set={set} />
  </span>
);
