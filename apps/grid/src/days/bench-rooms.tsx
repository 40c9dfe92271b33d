interface BenchRoomsProps {
  readonly at: 'pieces' | 'days';
  readonly onPieces: () => void;
  readonly onDays: () => void;
}

/** What is ticked off at the bench, and when it is done: two rooms of one activity. */
export function BenchRooms({ at, onPieces, onDays }: BenchRoomsProps) {
  return (
    <div className="bench-rooms" role="toolbar" aria-label="Parts of the bench list">
      <button type="button" className="button" aria-pressed={at === 'pieces'} onClick={onPieces}>
        Pieces to cut
      </button>
      <button type="button" className="button" aria-pressed={at === 'days'} onClick={onDays}>
        Days and hours
      </button>
    </div>
  );
}
