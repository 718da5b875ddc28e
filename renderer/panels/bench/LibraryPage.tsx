import { useEffect, useMemo, useRef, type ReactElement } from 'react';
import { shownLines } from '../../store/library-store.ts';
import { LibraryFoot } from './LibraryFoot.tsx';
import { LibraryHead } from './LibraryHead.tsx';
import { LibrarySlips } from './LibrarySlips.tsx';
import { LibraryTable } from './LibraryTable.tsx';
import type { LibraryPageProps } from './library-page-props.ts';

/** The fabrics of a folder: found, put in order, opened, duplicated, set beside each other. */
export function LibraryPage(props: LibraryPageProps): ReactElement {
  const { library, deeds, draft, onSaveDraft, onOpen, onCompare } = props;
  const { lines, search, order, onlyBroken, asking, question } = library;
  const shown = useMemo(
    () => shownLines({ lines, search, order, onlyBroken }),
    [lines, search, order, onlyBroken],
  );
  const page = useRef<HTMLElement>(null);
  const isForm = asking !== null || question !== null;
  const wasForm = useRef(isForm);
  useEffect(() => {
    // A form that closes gives the keys back to the line it was about.
    if (wasForm.current && !isForm) focusLine(page.current);
    wasForm.current = isForm;
  }, [isForm]);
  return (
    <section className="library" aria-label="Library" ref={page}>
      <LibraryHead
        library={library}
        deeds={deeds}
        draft={draft}
        shownCount={shown.length}
        toTable={() => focusLine(page.current)}
      />
      <LibrarySlips library={library} deeds={deeds} shownCount={shown.length} />
      <LibraryTable library={library} shown={shown} deeds={deeds} onOpen={onOpen} />
      <LibraryFoot
        library={library}
        deeds={deeds}
        onSaveDraft={onSaveDraft}
        onOpen={onOpen}
        onCompare={onCompare}
      />
    </section>
  );
}

/** Gives the keys to the line that takes them. */
const focusLine = (page: HTMLElement | null): void =>
  page?.querySelector<HTMLElement>('tr[tabindex="0"]')?.focus();
