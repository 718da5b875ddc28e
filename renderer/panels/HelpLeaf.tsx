import { useEffect, useRef, type ReactElement } from 'react';
import { PROOF_PLACE_WORDS } from '../../core/words/proof-page-words.ts';
import { KEY_LINES } from '../../core/words/stage-words.ts';
import { useTable, useView } from '../table.ts';
import { Key } from './Key.tsx';

/** Every key on one leaf. */
export function HelpLeaf(): ReactElement | null {
  const { actions, proofDeeds } = useTable();
  const isOpen = useView((view) => view.helpOpen);
  const close = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (isOpen) close.current?.focus();
  }, [isOpen]);
  if (!isOpen) return null;
  const prove = (): void => {
    actions.toggleHelp();
    proofDeeds.open();
  };
  return (
    <section className="leaf help" role="dialog" aria-label="Help: the keys">
      <header className="leaf-head">
        <h2>Keys</h2>
        <button ref={close} className="plain" type="button" onClick={actions.toggleHelp}>
          Close
        </button>
      </header>
      <div className="help-columns">
        {KEY_LINES.map(({ title, lines }) => (
          <div key={title}>
            <h3>{title}</h3>
            <dl className="keys">
              {lines.map(({ keys, does }) => (
                <div key={does}>
                  <dt>
                    {keys.map((key) => (
                      <Key key={key} name={key} />
                    ))}
                    <span className="hidden">{keys.join(' ')}</span>
                  </dt>
                  <dd>{does}</dd>
                </div>
              ))}
            </dl>
          </div>
        ))}
      </div>
      <p className="help-prove">
        <span className="soft">{PROOF_PLACE_WORDS.help}</span>
        <button className="plain" type="button" onClick={prove}>
          {PROOF_PLACE_WORDS.prove}
        </button>
      </p>
    </section>
  );
}
