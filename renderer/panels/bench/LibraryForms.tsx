import { useState, type FormEvent, type KeyboardEvent, type ReactElement, type ReactNode } from 'react';
import { sheetFileName } from '../../../core/sheet/library-entry.ts';
import { LIBRARY_WORDS, replaceWords } from '../../../core/words/library-words.ts';
import type { LibraryDeeds } from '../../store/library-deeds.ts';
import type { LibraryAsking } from '../../store/library-store.ts';

interface FormProps<Kind extends LibraryAsking['kind']> {
  readonly asking: Extract<LibraryAsking, { kind: Kind }>;
  readonly deeds: LibraryDeeds;
  readonly isDownload: boolean;
}

/** Asks under which file name the draft is to be saved. */
export function DraftForm(
  props: FormProps<'draft'> & { readonly onSave: (fileName: string) => void },
): ReactElement {
  const { asking, deeds, isDownload, onSave } = props;
  const [fileName, setFileName] = useState(asking.fileName);
  const save = (): void => {
    // Kept, so that it is still there where the name is taken.
    deeds.ask({ kind: 'draft', fileName });
    onSave(fileName);
  };
  return (
    <Form
      title={LIBRARY_WORDS.saveDraft}
      isDownload={isDownload}
      canSave={fileName.trim() !== ''}
      save={save}
      cancel={() => deeds.ask(null)}
    >
      <Field label={LIBRARY_WORDS.fileName} value={fileName} set={setFileName} isFirst isWide />
    </Form>
  );
}

/** Asks for a duplicate's name and its new lot; the date and the readings stay as they are. */
export function DuplicateForm({ asking, deeds, isDownload }: FormProps<'duplicate'>): ReactElement {
  const { path } = asking;
  const [name, setName] = useState(asking.name);
  const [lot, setLot] = useState(asking.lot);
  const save = (): void => {
    deeds.ask({ kind: 'duplicate', path, name, lot });
    void deeds.duplicate(path, { name: name.trim(), lot: lot.trim() });
  };
  return (
    <Form
      title={LIBRARY_WORDS.duplicate}
      isDownload={isDownload}
      canSave={name.trim() !== ''}
      save={save}
      cancel={() => deeds.ask(null)}
    >
      <Field label={LIBRARY_WORDS.name} value={name} set={setName} />
      <Field label={LIBRARY_WORDS.lot} value={lot} set={setLot} isFirst />
      <span className="soft">{sheetFileName(name, lot)}</span>
    </Form>
  );
}

/** Asks before a sheet is replaced. The sheet that stands there is the safe answer, so it has the focus. */
export function ReplaceQuestion({
  path,
  deeds,
}: {
  readonly path: string;
  readonly deeds: LibraryDeeds;
}): ReactElement {
  const { what, remedy } = replaceWords(path);
  return (
    <div className="library-foot" role="alertdialog" aria-label={what} onKeyDown={onEscape(deeds.keep)}>
      <p className="library-question">
        <strong>{what}</strong> {remedy}
      </p>
      <p className="library-chosen-deeds">
        <button className="word" type="button" ref={focusOnce} onClick={deeds.keep}>
          {LIBRARY_WORDS.keepBoth}
        </button>
        <button className="word" type="button" onClick={() => void deeds.replace()}>
          {LIBRARY_WORDS.replace}
        </button>
      </p>
    </div>
  );
}

interface FormFrameProps {
  readonly title: string;
  readonly isDownload: boolean;
  readonly canSave: boolean;
  readonly save: () => void;
  readonly cancel: () => void;
  readonly children: ReactNode;
}

function Form({ title, isDownload, canSave, save, cancel, children }: FormFrameProps): ReactElement {
  const submit = (event: FormEvent): void => {
    event.preventDefault();
    if (canSave) save();
  };
  return (
    <form className="library-foot" aria-label={title} onSubmit={submit} onKeyDown={onEscape(cancel)}>
      <div className="library-fields">{children}</div>
      <p className="library-chosen-deeds">
        <button className="word" type="submit" disabled={!canSave}>
          <span>{isDownload ? LIBRARY_WORDS.download : LIBRARY_WORDS.save}</span>
        </button>
        <button className="word" type="button" onClick={cancel}>
          {LIBRARY_WORDS.cancel}
        </button>
      </p>
    </form>
  );
}

const onEscape =
  (work: () => void) =>
  (event: KeyboardEvent): void => {
    if (event.key !== 'Escape') return;
    // What lies around it stays open.
    event.stopPropagation();
    work();
  };

/** Gives an element the focus when it comes up. */
const focusOnce = (element: HTMLElement | null): void => element?.focus();

interface FieldProps {
  readonly label: string;
  readonly value: string;
  readonly set: (value: string) => void;
  /** The one to be typed in first. */
  readonly isFirst?: boolean;
  readonly isWide?: boolean;
}

const Field = ({ label, value, set, isFirst = false, isWide = false }: FieldProps): ReactElement => (
  <label className={isWide ? 'library-field wide' : 'library-field'}>
    <span className="soft">{label}</span>
    <input
      type="text"
      value={value}
      spellCheck={false}
      autoComplete="off"
      {...(isFirst ? { ref: selectOnce } : {})}
      onChange={({ target }) => set(target.value)}
    />
  </label>
);

const selectOnce = (input: HTMLInputElement | null): void => {
  input?.focus();
  input?.select();
};
