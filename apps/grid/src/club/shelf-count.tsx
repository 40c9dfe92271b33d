import { useSyncExternalStore } from 'react';
import { toAnswer, useClub } from './here.ts';
import './shelf-count.css';

/** How many suggestions wait for an answer, beside the word in the top line. */
export default function ShelfCount() {
  useClub();
  const many = useSyncExternalStore(toAnswer.watch, () => toAnswer.value);
  if (many === 0) return null;
  return (
    <span className="shelf-count">
      <span aria-hidden>{many}</span>
      <span className="visually-hidden">
        {many === 1 ? ', 1 suggestion to answer' : `, ${many} suggestions to answer`}
      </span>
    </span>
  );
}
