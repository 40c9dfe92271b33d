import { useSyncExternalStore } from 'react';
import { newVersion, takeNewVersion } from './offline.ts';

/** Says that a newer version is ready; the maker decides when. */
export function NewVersion() {
  const ready = useSyncExternalStore(newVersion.watch, () => newVersion.value);
  if (!ready) return null;
  return (
    <div className="notices" role="status">
      <p>
        <span>A newer version of Kerfbook is ready. Your work is saved first.</span>
        <button type="button" className="button" onClick={takeNewVersion}>
          Use it now
        </button>
      </p>
    </div>
  );
}
