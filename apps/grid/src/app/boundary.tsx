import { Component, type ReactNode } from 'react';

interface BoundaryProps {
  /** What stands here, as the begin of a sentence. */
  readonly what: string;
  readonly children: ReactNode;
}

/** Keeps a fault in one part of the page from taking the others down; the workbook is untouched. */
export class Boundary extends Component<BoundaryProps, { readonly broken: boolean }> {
  override state = { broken: false };

  static getDerivedStateFromError() {
    return { broken: true };
  }

  override componentDidCatch(error: unknown): void {
    console.error(error);
  }

  override render() {
    if (!this.state.broken) return this.props.children;
    return (
      <section className="broken" role="alert">
        <p>{this.props.what} cannot be shown: a fault of Kerfbook, not of your workbook.</p>
        <button type="button" className="button" onClick={() => this.setState({ broken: false })}>
          Try again
        </button>
      </section>
    );
  }
}
