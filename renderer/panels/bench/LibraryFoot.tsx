import type { ReactElement } from 'react';
import { comparableThickness } from '../../../core/sheet/derived-weight.ts';
import { entryFigures, type LibraryEntry } from '../../../core/sheet/library-entry.ts';
import {
  COMPARED,
  copyName,
  LIBRARY_WORDS,
  notComparableWords,
  READ_ONLY_HINT,
} from '../../../core/words/library-words.ts';
import { isWritable, type SheetLine } from '../../store/library-store.ts';
import { Key } from '../Key.tsx';
import { DraftForm, DuplicateForm, ReplaceQuestion } from './LibraryForms.tsx';
import type { LibraryPageProps } from './library-page-props.ts';

type LibraryFootProps = Omit<LibraryPageProps, 'draft'>;

/** What can be done with the line chosen, with the two marked, or the form that lies open. */
export function LibraryFoot(props: LibraryFootProps): ReactElement {
  const { library, deeds, onSaveDraft, onCompare } = props;
  const { asking, question, lines, marked, current } = library;
  const isDownload = library.place.kind !== 'open' || library.place.writes === 'downloads';
  const at = (path: string | null | undefined): SheetLine | null =>
    lines.find((line) => line.path === path) ?? null;
  if (question !== null) return <ReplaceQuestion path={question.path} deeds={deeds} />;
  switch (asking?.kind) {
    case 'draft':
      return <DraftForm asking={asking} deeds={deeds} isDownload={isDownload} onSave={onSaveDraft} />;
    case 'duplicate':
      return <DuplicateForm key={asking.path} asking={asking} deeds={deeds} isDownload={isDownload} />;
    case undefined:
      break;
  }
  const a = at(marked[0])?.entry;
  const b = at(marked[1])?.entry;
  return (
    <footer className="library-foot">
      <ChosenLine {...props} line={at(current)} />
      {a && b && <Compared a={a} b={b} compare={() => onCompare(marked[0]!, marked[1]!)} />}
    </footer>
  );
}

interface ChosenLineProps extends LibraryFootProps {
  readonly line: SheetLine | null;
}

function ChosenLine({ library, deeds, line, onOpen }: ChosenLineProps): ReactElement {
  if (line === null) return <p className="library-chosen soft">{LIBRARY_WORDS.hint}</p>;
  const { path, entry, broken } = line;
  const canWrite = isWritable(library.place);
  return (
    <div className="library-chosen">
      <h3>{entry?.name ?? path}</h3>
      {entry === null ? (
        <p className="library-chosen-words">
          {broken === null ? LIBRARY_WORDS.unread : `${broken.what} ${broken.remedy}`}
        </p>
      ) : (
        <>
          <p className="library-chosen-words soft">
            {path}
            {entry.note !== null && ` · ${entry.note}`}
          </p>
          <p className="library-chosen-deeds">
            <button className="word" type="button" onClick={() => onOpen(path)}>
              <span>{LIBRARY_WORDS.open}</span>
              <Key name="Enter" />
            </button>
            <button className="word" type="button" onClick={() => deeds.mark(path)}>
              <span>{library.marked.includes(path) ? LIBRARY_WORDS.unmarkIt : LIBRARY_WORDS.markIt}</span>
              <Key name="Space" />
            </button>
            <button
              className="word"
              type="button"
              disabled={!canWrite}
              title={canWrite ? undefined : READ_ONLY_HINT}
              onClick={() =>
                deeds.ask({ kind: 'duplicate', path, name: copyName(entry.name), lot: entry.lot })
              }
            >
              {LIBRARY_WORDS.duplicate}
            </button>
          </p>
        </>
      )}
    </div>
  );
}

interface ComparedProps {
  readonly a: LibraryEntry;
  readonly b: LibraryEntry;
  readonly compare: () => void;
}

/** The two marked fabrics in figures; thicknesses under unlike feet stand apart. */
function Compared({ a, b, compare }: ComparedProps): ReactElement {
  const of = { a: entryFigures(a), b: entryFigures(b) };
  const isComparable = comparableThickness(a, b).comparable;
  return (
    <div className="library-compared">
      <table>
        <thead>
          <tr>
            <th scope="col">
              <span className="hidden">{LIBRARY_WORDS.file}</span>
            </th>
            <th scope="col">{COMPARED.weight}</th>
            <th scope="col">{COMPARED.thickness}</th>
            <th scope="col">{COMPARED.warp40}</th>
            <th scope="col">{COMPARED.weft40}</th>
          </tr>
        </thead>
        <tbody>
          {(['a', 'b'] as const).map((letter) => (
            <tr key={letter}>
              <th scope="row">
                {letter.toUpperCase()} · {(letter === 'a' ? a : b).name}
              </th>
              <td>{of[letter].weight}</td>
              <td>
                {of[letter].thickness} <span className="soft">at {of[letter].pressure} kPa</span>
              </td>
              <td>{of[letter].warp40}</td>
              <td>{of[letter].weft40}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>
        {!isComparable && (
          <span className="library-unlike">{notComparableWords(of.a.pressure, of.b.pressure)}</span>
        )}
        <button className="word" type="button" onClick={compare}>
          {LIBRARY_WORDS.compare}
        </button>
      </p>
    </div>
  );
}
