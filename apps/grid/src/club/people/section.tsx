import { type ReactNode, useId } from 'react';

interface SectionProps {
  readonly title: string;
  readonly children: ReactNode;
}

/** A part of a page about people, under its title. */
export function Section({ title, children }: SectionProps) {
  const id = useId();
  return (
    <section className="shelf-part" aria-labelledby={id}>
      <h3 id={id}>{title}</h3>
      {children}
    </section>
  );
}
