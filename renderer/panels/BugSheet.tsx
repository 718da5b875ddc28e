import { Component, type ReactNode } from 'react';
import { bugWords } from '../../core/words/stage-words.ts';

/** Shows what broke in the window instead of an empty page; React asks for a class here. */
export class BugSheet extends Component<
  { readonly children: ReactNode },
  { readonly message: string | null }
> {
  override state: { readonly message: string | null } = { message: null };

  static getDerivedStateFromError(error: unknown): { readonly message: string } {
    return { message: error instanceof Error ? error.message : String(error) };
  }

  override render(): ReactNode {
    const { message } = this.state;
    if (message === null) return this.props.children;
    const { what, remedy } = bugWords(message);
    return (
      <div className="slip fault bug" role="alert">
        <div className="slip-words">
          <strong>{what}</strong>
          <span>{remedy}</span>
        </div>
      </div>
    );
  }
}
